"""Numbers of findings of every verdict, drawn at random: a verdict follows from its interval."""

from __future__ import annotations

import math
from random import Random
from typing import Any, Literal, NamedTuple, get_args

from pipeline.contracts.over_time import Bend, ControlCheck, Drift, Parallel, Slope, StepTest
from pipeline.contracts.parts import Effect, Margin, Span

Outcome = Literal["changed", "moved within", "inside", "lost", "held lost", "open"]
OUTCOMES: tuple[Outcome, ...] = get_args(Outcome)
VERDICTS: dict[Outcome, tuple[Any, Any]] = {
    "changed": ("changed", "beyond_chance"),
    "moved within": ("held", "moved_within_margin"),
    "inside": ("held", "inside_margin"),
    "lost": ("can't tell", "lost_among_many"),
    "held lost": ("can't tell", "held_lost_among_many"),
    "open": ("can't tell", "interval_too_wide"),
}
P = {
    "changed": 1e-5,
    "moved within": 1e-5,
    "inside": 0.4,
    "lost": 0.02,
    "held lost": 0.4,
    "open": 0.3,
}
FARTHEST = 2.2  # of the log of a change: nine times as much, below thousands of per cent
SPACE = 1.01  # how far beyond an edge the nearest is that is tried


class Ends(NamedTuple):
    """An interval about its middle, on the scale that it was made on, and its level."""

    low: float
    value: float
    high: float
    level: float

    @property
    def half(self) -> float:
        return (self.high - self.low) / 2

    @property
    def span(self) -> Span:
        return Span(value=self.value, low=self.low, high=self.high)

    @property
    def of_log(self) -> Span:
        """A relative change, of an interval of its log."""
        return Span(
            value=math.expm1(self.value), low=math.expm1(self.low), high=math.expm1(self.high)
        )


def decimals(rng: Random, least: int, most: int) -> float:
    """A number of two digits between two powers of ten: 0.0037, 5, 120."""
    return rng.randint(10, 99) * 10.0 ** (rng.randint(least, most) - 1)


def about(value: float, half: float) -> Span:
    return Span(value=value, low=value - half, high=value + half)


def ends(
    rng: Random, outcome: Outcome, margin: float, scale: float = 1.0, most: float = FARTHEST
) -> Ends:
    """An interval that this outcome follows from; `scale` is what counts as much of it."""
    level = rng.choice((0.99, 0.999) if "lost" in outcome else (0.95, 0.95, 0.98, 0.999))
    beyond = margin * SPACE
    if outcome == "moved within":
        low = margin * rng.uniform(0.01, 0.9)
        high = rng.uniform(low, margin)
    elif outcome == "held lost":  # inside at 95 %
        low, high = -margin * rng.uniform(0.7, 1.1), beyond
    elif outcome == "inside":
        low, high = -margin * rng.uniform(0.01, 0.99), margin * rng.uniform(0.01, 0.99)
    elif outcome == "changed":
        low = min(decimals(rng, -4, 0) * scale, most / 2)
        high = min(max(low * (1 + decimals(rng, -1, 0)), beyond), most)
    elif outcome == "lost":
        value = min(max(decimals(rng, -3, 0) * scale, beyond / 2), most / 2.3)
        half = value * rng.choice((1.01, 1.1, 1.25))
        low, high = value - half, value + half
    else:
        low, high = (min(decimals(rng, -3, 0) * scale, most) for _ in range(2))
        low, high = -low, max(high, beyond) if low < beyond else high
    way = rng.choice((1, -1))
    low, high = sorted((way * low, way * high))
    return Ends(low, (low + high) / 2, high, level)


def effect(outcome: Outcome, found: Ends, relative: Span | None, difference: Span) -> Effect:
    """Both scales of a difference at one level, with a p that its outcome follows from."""
    return Effect(
        difference=difference,
        relative=relative,
        level=found.level,
        **{"se": difference.half / 2, "df_units": 198.0, "se_log": found.half / 2, "df": 198.0},
        **{"p": P[outcome], "p_equal": 0.5, "p_permutation": P[outcome]},
        **{"detectable_change": math.expm1(min(found.half * 1.43, 3.0))},
        detectable_difference=difference.half * 1.43,
    )


def slopes(rng: Random) -> tuple[Slope, Slope]:
    """A drift of a season, and what it makes in five; risen, fallen, or neither to be told."""
    value = decimals(rng, -4, -2) * rng.choice((1, -1))
    half = abs(value) * rng.choice((0.05, 0.4, 0.99, 1.01, 3.0))
    made = []
    for years in (1, 5):
        low, mid, high = (math.expm1(years * each) for each in (value - half, value, value + half))
        made.append(Slope(value=mid, low=low, high=high))
    return made[0], made[1]


UNTESTED: dict[Any, dict[str, int]] = {
    "few_periods_before": {"periods_before": 5},
    "few_periods_after": {"periods_after": 2},
    "empty_period": {},
}
STEPS: dict[Outcome, tuple[Any, Any]] = {
    "changed": ("beyond the drift", "step_beyond_chance"),
    "lost": ("in line with the drift", "step_lost_among_many"),
    "open": ("in line with the drift", "step_within_chance"),
}
BESIDE: dict[Outcome, tuple[Any, Any]] = {
    "changed": ("beyond the control", "beyond_chance"),
    "lost": ("in line with the control", "lost_among_many"),
    "open": ("in line with the control", "within_chance"),
}


def drift(rng: Random) -> Drift:
    """The second verdict, tested or not; its step may go either way."""
    seasons: dict[str, Any] = {"periods_before": 8, "periods_after": 6}
    seasons |= {"first": "2009", "last": "2022"}
    if rng.random() < 0.2:
        because, few = rng.choice(list(UNTESTED.items()))
        return Drift(verdict="not testable", because=because, test=None, **{**seasons, **few})
    outcome = rng.choice(list(STEPS))
    found = ends(rng, outcome, 0.0, 0.1, 2.0)
    slope, expected = slopes(rng)
    test = StepTest(
        **{"slope": slope, "expected": expected, "step": found.of_log},
        **{"p": P[outcome], "se": found.half / 2, "df": 11.0, "rank": 1, "dates": 9, "fit": None},
        level=found.level,
        **alike(rng),
        bends=[
            Bend(shape=shape, survives=outcome == "changed" and kept, p=0.001 if kept else 0.3)
            for shape, kept in (("slope change", coin(rng)), ("quadratic", coin(rng)))
        ],
        breakdown=decimals(rng, -4, -2),
    )
    verdict, because = STEPS[outcome]
    family = {"p_adjusted": 0.01, "family_size": rng.randint(2, 300)}
    return Drift(verdict=verdict, because=because, test=test, **family, **seasons)


def coin(rng: Random) -> bool:
    return rng.random() < 0.5


def alike(rng: Random) -> dict[str, float]:
    """How alike neighbouring periods are, and what that makes of a variance."""
    rho = rng.choice((0.0, 0.02, 0.45, 0.95))
    return {"rho": rho, "factor": 1 + rho * rng.uniform(1, 4)}


def parallel(rng: Random) -> Parallel:
    """Whether a number and its control went the same way before; too few periods among them."""
    if rng.random() < 0.2:
        return Parallel(verdict="can't tell", periods=rng.randint(0, 4), per="season")
    slope, _ = slopes(rng)
    verdict: Any = "not parallel" if slope.way else rng.choice(("parallel", "can't tell"))
    p = 0.01 if slope.way else 0.4
    return Parallel(verdict=verdict, periods=8, per="year", slope=slope, p=p, **alike(rng))


def control(rng: Random, share: bool) -> ControlCheck:
    """A change beyond its control's own, or not; of a share in points."""
    outcome, beside = rng.choice(list(BESIDE)), drift(rng)
    found = ends(rng, outcome, 0.0, *((4.0, 60.0) if share else (0.1, 2.0)))
    other = about(-found.value / 40, found.half)  # its way may be another on this scale
    scales = (other, found.span) if share else (found.of_log, other)
    verdict, because = BESIDE[outcome]
    return ControlCheck(
        name=rng.choice(("overs 1 to 10", "pace in the same overs", "the Harbour Cup")),
        effect=effect(outcome, found, *scales),
        verdict=verdict,
        because=because,
        p_adjusted=0.01,
        parallel=parallel(rng) if coin(rng) else None,
        step=beside.test,
        step_because=beside.because if beside.test else None,
    )


def margin_of(kind: str, by_match: bool = False) -> Margin:
    if kind == "share":
        return Margin(size=5.0 if by_match else 0.6, unit="points")
    return Margin(size=5.0, unit="percent")


def log_margin(margin: Margin) -> float:
    """The nearer edge of a margin in per cent, on the log scale."""
    return math.log1p(margin.size / 100)

"""The scenarios: each gives rows of (scenario, method, quantity, value, mc_error)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from scipy.special import stdtrit
from scipy.stats import norm

from pipeline.significance.change import compare
from pipeline.significance.effects import Compared
from pipeline.significance.kinds.gap import gap_changes
from pipeline.significance.methods.autocorrelation import Serial
from pipeline.significance.methods.drift import of_gaps, of_rates, step_and_drift
from pipeline.significance.methods.inference import benjamini_hochberg, holm
from pipeline.significance.methods.kitagawa import jackknifed
from pipeline.significance.methods.ratio import Sums, log_ratio
from pipeline.significance.methods.shrinkage import shrink
from pipeline.significance.methods.step_interval import step_interval
from pipeline.significance.methods.structural_break import Series, turning_point
from tests.calibration import worlds
from tests.calibration.base import STATISTICS, Row, holds, measure, row
from tests.calibration.compositions import compositions
from tests.calibration.controls import controls
from tests.calibration.families import families
from tests.calibration.groups import grounds, members
from tests.calibration.ledgers import ledgers
from tests.calibration.levels import gaps, margins, seasons
from tests.calibration.trends import trends

KINDS = ("rate", "average", "share")
SIZES = (6, 10, 20, 50, 200)


def intervals(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Coverage of the 95 % interval of one ratio, and of the interval that balls alone give."""
    for kind in KINDS:
        true = worlds.truth(kind)
        for matches in SIZES:
            found = worlds.window(rng, kind, (matches, sims))
            scenario = f"one {kind}, {matches} matches"
            with np.errstate(all="ignore"):
                low, high = (np.exp(end) for end in log_ratio(found.sums).interval(0.95))
            told = np.isfinite(low) & np.isfinite(high)
            inside = (low <= true) & (true <= high)
            yield row(scenario, "jackknife, log, t", "coverage", inside[told])
            if kind != "average":
                half = 1.96 * _ball_error(found)
                value = found.sums.y.sum(0) / found.sums.x.sum(0)
                yield row(scenario, "balls as independent", "coverage", abs(value - true) <= half)


def _ball_error(found: worlds.Window) -> np.ndarray:
    """The error of a mean over balls, as if no two balls had anything in common."""
    count = found.balls.sum(0)
    mean = found.sums.y.sum(0) / count
    return np.sqrt((found.squares.sum(0) / count - mean**2) / count)


def changes(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Two windows: coverage of the change, false alarms without one, on unequal windows too."""
    for kind in KINDS:
        for before, after in ((8, 8), (10, 10), (20, 20), (60, 20), (50, 50), (200, 200)):
            scenario = f"no change of a {kind}, {before} against {after} matches"
            a, b = (worlds.window(rng, kind, (count, sims)) for count in (before, after))
            compared = compare(worlds.pair(a, b), measure(kind), STATISTICS)
            found = [one.effect for one in compared if one.effect]
            inside = [holds(effect.change) for effect in found]
            yield row(scenario, "change, per cent", "coverage", inside)
            inside = [holds(effect.difference) for effect in found]
            yield row(scenario, "change, units", "coverage", inside)
            yield row(scenario, "t test", "false_alarm", [effect.p < 0.05 for effect in found])
            yield row(scenario, "shuffled matches", "false_alarm", _shuffled(compared))
            if kind != "average":
                yield row(scenario, "balls as independent", "false_alarm", _naive(a, b) < 0.05)


def _naive(a: worlds.Window, b: worlds.Window) -> np.ndarray:
    means = [w.sums.y.sum(0) / w.balls.sum(0) for w in (a, b)]
    error = np.hypot(_ball_error(a), _ball_error(b))
    return 2 * norm.sf(np.abs(means[1] - means[0]) / error)


def groups(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Two groups of the same matches, and the gap between two changes."""
    for matches in (10, 40):
        shape = (matches, sims)
        scenario = f"two groups of the same {matches} matches"
        a, b = _sharing(rng, shape)
        found = compare(worlds.pair(a, b, shared=True), measure("rate"), STATISTICS)
        yield row(scenario, "t test, left out together", "false_alarm", _low(found))
        yield row(scenario, "shuffled matches", "false_alarm", _shuffled(found))
        scenario = f"two groups that change alike, {matches} matches a window"
        (a0, b0), (a1, b1) = _sharing(rng, shape), _sharing(rng, shape, 1.2)
        gaps = gap_changes(worlds.pair(a0, a1), worlds.pair(b0, b1), measure("rate"), STATISTICS)
        yield row(scenario, "gap of two changes", "false_alarm", _low(gaps))
        yield row(scenario, "gap, shuffled matches", "false_alarm", _shuffled(gaps))
        inside = [holds(gap.effect.change) for gap in gaps]
        yield row(scenario, "gap of two changes", "coverage", inside)


def _sharing(rng: np.random.Generator, shape: tuple[int, int], level: float = 1.0):
    common = worlds.effects(rng, shape, 0.2)
    return [
        worlds.window(rng, "rate", shape, level, common * worlds.effects(rng, shape, 0.05))
        for _ in "ab"
    ]


def _low(found: list[Compared[Any]]) -> list[bool]:
    return [one.effect.p < 0.05 for one in found if one.effect]


def _shuffled(found: list[Compared[Any]]) -> list[bool]:
    """Whether shuffled matches call it, of all that were not refused."""
    return [one.effect.p_permutation < 0.05 for one in found if one.effect]


def mixes(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Coverage of both parts of a mix: shares move from 36 to 44 per cent, rates by a tenth."""
    inside: dict[str, list[bool]] = {"mix": [], "rates": []}
    for _ in range(min(sims, 1500)):
        a, b = (_kinds(rng, 60, share, level) for share, level in ((0.36, 1.0), (0.44, 0.9)))
        rates = np.array([[1.1, 0.9], [1.1, 0.81]]) * worlds.MEAN
        shares = np.array([[0.64, 0.36], [0.56, 0.44]])
        true = {
            "mix": (shares[1] - shares[0]) @ rates.mean(0),
            "rates": (rates[1] - rates[0]) @ shares.mean(0),
        }
        for name, kept in inside.items():
            low, high = (end[0] for end in jackknifed(a, b, name)[2].interval(0.95))
            kept.append(low <= true[name] <= high)
    for name, kept in inside.items():
        yield row("mix of two kinds, 60 matches a window", f"{name} part", "coverage", kept)


def _kinds(rng: np.random.Generator, matches: int, share: float, spin: float) -> Sums:
    """Pace and spin of each match: who bowls how much varies, both share the match's effect."""
    total = worlds.balls(rng, (matches, 1))
    spun = rng.binomial(total, np.clip(rng.normal(share, 0.08, (matches, 1)), 0.02, 0.98))
    x = np.hstack([total - spun, spun]).astype(float)
    effect = worlds.effects(rng, (matches, 1))
    level = np.array([1.1, 0.9 * spin]) * effect
    counts = worlds._counts(rng, x.astype(int), level)
    return Sums((counts @ worlds.RUNS).astype(float), x, x > 0)


def drifts(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """The second question under pure drift: what a plain before and after calls, and what we do."""
    for count, event, shock in ((14, 8, 0.0), (14, 8, 0.02), (14, 11, 0.02), (20, 10, 0.03)):
        after = np.arange(count) >= event
        scenario = f"pure drift, {count} seasons, {event} before, shocks {shock:.0%}"
        parts = worlds.seasons(rng, count, sims, 0.012, np.zeros(count), shock)
        step = step_and_drift(of_rates(*parts), after)[0].estimate
        yield row(scenario, "step beside the drift", "false_alarm", step.p_value() < 0.05)
        headlines = step.p_value()[: sims // 5 * 5].reshape(-1, 5)
        calls = [(holm(p) < 0.05).any() for p in headlines]
        yield row(scenario, "beyond the drift, any of five headlines", "false_alarm", calls)
        plain = _plain(*parts[:2], after)
        yield row(scenario, "plain before and after", "false_alarm", plain)
        other = worlds.seasons(rng, count, sims, 0.012, np.zeros(count), shock)
        both = of_gaps(of_rates(*parts), of_rates(*other))
        gaps = step_and_drift(both, after)[0].estimate
        yield row(scenario, "step of a gap", "false_alarm", gaps.p_value() < 0.05)


def _plain(y: np.ndarray, x: np.ndarray, after: np.ndarray) -> np.ndarray:
    """Five seasons on either side, matches independent, no drift thought of."""
    event = int(np.argmax(after))
    rates = [
        y[part].sum(0) / x[part].sum(0)
        for part in (slice(event - 5, event), slice(event, event + 5))
    ]
    matches = 5 * 40
    error = np.sqrt(2 * (worlds.MATCH_SD**2 + 2.4 / (worlds.MEAN * 105)) / matches)
    return np.abs(np.log(rates[1] / rates[0])) / error > 1.96


def turns(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """No turn: noise, and drift; a turn of known date: how often the interval has it."""
    few = min(sims, 600)
    for drift in (0.0, 0.012):
        found = [turning_point(one) for one in _series(rng, few, drift, 0.0)]
        scenario = f"no turn, drift {drift:.1%} a season"
        yield row(scenario, "turning point", "false_alarm", [f.p < 0.05 for f in found])
    found = [turning_point(one) for one in _series(rng, few, 0.012, -0.12)]
    scenario = "a turn of 11 % after season 8, drift"
    yield row(scenario, "turning point", "power", [f.p < 0.05 for f in found])
    yield row(scenario, "interval of the date", "coverage", [f.low <= 7 <= f.high for f in found])


def _series(rng: np.random.Generator, sims: int, drift: float, step: float) -> list[Series]:
    """Fourteen seasons of about 40 matches, shocks of 2 %, a step after the eighth."""
    steps = np.where(np.arange(14) >= 8, step, 0.0)
    y, x, _ = worlds.seasons(rng, 14, sims, drift, steps, 0.02)
    return [Series(*one) for one in zip(y.T, x.T, strict=True)]


def steps(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """The size of a step whose date was searched for: how often its interval has it."""
    for size in (0.0, 0.05, 0.08):
        true, inside, known = np.log1p(size), [], []
        for series in _series(rng, max(10, sims // 20), 0.012, true):
            found = turning_point(series)
            low, high = step_interval(series, found)
            inside.append(low <= true <= high)
            known.append(abs(found.step - true) <= stdtrit(series.df, 0.975) * found.error)
        scenario = f"a turn of {size:.0%} after season 8, drift"
        yield row(scenario, "interval of the step", "coverage", inside)
        yield row(scenario, "step as if its date were known", "coverage", known)


def players(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Forty players: nobody differs; and a spread of a tenth."""
    for spread in (0.0, 0.10):
        inside, apart = [], []
        for _ in range(min(sims, 800)):
            variance = rng.uniform(0.05, 0.15, 40) ** 2
            true = rng.normal(0, spread, 40)
            found = shrink(true + rng.normal(0, np.sqrt(variance)), variance)
            inside.append(np.abs(found.value - true) <= 2.02 * found.se)
            apart.append(benjamini_hochberg(found.p) < 0.05)
        scenario = f"forty players, spread {spread:.0%}"
        if spread:
            yield row(scenario, "shrunk interval", "coverage", np.ravel(inside))
        else:
            yield row(scenario, "told apart", "false_alarm", np.ravel(apart))


def power(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """How often a true change is seen, by its size and the matches there are."""
    for matches in (20, 50, 100, 200):
        for size in (0.02, 0.05, 0.10):
            a, b = (worlds.window(rng, "rate", (matches, sims), level) for level in (1, 1 + size))
            found = compare(worlds.pair(a, b), measure("rate"), STATISTICS)
            yield row(
                f"a change of {size:.0%}, {matches} matches a window",
                "t test",
                "power",
                _low(found),
            )
    after = np.arange(14) >= 8
    for size in (0.02, 0.04, 0.06, 0.08, 0.12):
        step = np.where(after, np.log1p(size), 0.0)
        parts = worlds.seasons(rng, 14, sims, 0.012, step, 0.01)
        seen = step_and_drift(of_rates(*parts), after)[0].estimate
        scenario = f"a step of {size:.0%} on a drift, 14 seasons, shocks 1%"
        yield row(scenario, "step beside the drift", "power", seen.p_value() < 0.05)


def proportions(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Shares of matches won: a half in both windows, none of a difference."""
    for matches in (12, 40, 100):
        y = [rng.binomial(1, 0.5, (matches, sims)).astype(float) for _ in "ab"]
        ones = np.ones((matches, sims))
        sides = [Sums(won, ones, ones > 0) for won in y]
        both = worlds.pair(*(worlds.Window(side, ones, ones) for side in sides))
        found = compare(both, measure("share", by_match=True), STATISTICS)
        scenario = f"matches won, {matches} a window"
        inside = [holds(one.effect.difference) for one in found]
        yield row(scenario, "Newcombe’s interval", "coverage", inside)
        yield row(scenario, "Newcombe’s interval inverted", "false_alarm", _low(found))
        wilson = [one.a.low <= 50 <= one.a.high for one in found]
        yield row(scenario, "Wilson’s interval", "coverage", wilson)


def alike(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Neighbouring periods that are alike: false steps, false dates, and what is still seen."""
    for rho in (0.0, 0.3, 0.5, 0.7):
        for count, event in ((14, 8), (28, 14)):
            after = np.arange(count) >= event
            scenario = f"{count} periods, neighbours alike by {rho}"
            for size, quantity in ((0.0, "false_alarm"), (0.08, "power")):
                few = max(25, sims // (16 if size else 8))
                y, x = _alike(rng, count, sims, rho, size * after)
                step, _ = step_and_drift(of_rates(y, x, np.arange(float(count))), after)
                seen = step.estimate.p_value() < 0.05
                name = f"{scenario}, a step of {size:.0%}"
                yield row(name, "step, neighbours allowed for", quantity, seen)
                if not size:
                    yield row(name, "step as if neighbours were not alike", quantity, _told(step))
                dates = [
                    turning_point(Series(*one)) for one in zip(y.T[:few], x.T[:few], strict=True)
                ]
                found = [date.p < 0.05 for date in dates]
                yield row(name, "date, neighbours allowed for", quantity, found)
                if size:
                    held = [date.low <= event - 1 <= date.high for date in dates]
                    yield row(name, "interval of the date, alike", "coverage", held)


def _told(step: Serial) -> np.ndarray:
    return step.plain.p_value() < 0.05


def _alike(
    rng: np.random.Generator, count: int, sims: int, rho: float, step: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Counts of periods with shocks of 2 % that are correlated by rho, on a drift."""
    shocks = worlds.shocks(rng, count, sims, 0.02, rho)
    x = rng.integers(8_000, 12_000, (count, sims)).astype(float)
    logs = 0.012 * np.arange(count)[:, None] + step[:, None] + shocks
    return np.round(0.8e3 * x * np.exp(logs)), x


ALL = (
    intervals,
    changes,
    groups,
    mixes,
    drifts,
    turns,
    players,
    families,
    power,
    proportions,
    steps,
    alike,
    ledgers,
    seasons,
    gaps,
    margins,
    grounds,
    members,
    trends,
    controls,
    compositions,
)

"""Findings for tests: each with the numbers that matter to it, and plain ones for the rest."""

from __future__ import annotations

from typing import Any, TypeVar

import msgspec

from pipeline.contracts.comparison import Comparison
from pipeline.contracts.finding import Answer, Change, Gap
from pipeline.contracts.over_time import ControlCheck, Drift, Parallel, Slope, StepTest
from pipeline.contracts.parts import Clusters, Effect, Felt, GroupChange, Margin, Side, Span

Kind = TypeVar("Kind", bound=Answer)
WIDTH = 0.01  # half of an interval that nothing else is said of


def span(value: float, half: float = WIDTH, *, low: Any = None, high: Any = None) -> Span:
    """A value with the ends of its interval, `half` to either side unless they are given."""
    return Span(
        value=value,
        low=value - half if low is None else low,
        high=value + half if high is None else high,
    )


def side(value: float | None = 4.5, **more: Any) -> Side:
    """A side of a hundred matches."""
    none = value is None
    plain: dict[str, Any] = {
        "low": None if none else value - WIDTH,
        "high": None if none else value + WIDTH,
        **{"matches": 100, "balls": 20_000, "numerator": 15_000, "denominator": 20_000},
        **{"largest": 0.02, "refused": None},
    }
    return Side(value=value, **{**plain, **more})


def group_change(change: float = 0.1, difference: float = 0.45, **more: Any) -> GroupChange:
    """One group's own change."""
    plain = {
        **{"difference": span(difference), "change": span(change)},
        **{"matches": 100, "balls": 20_000, "numerator": 15_000, "denominator": 20_000},
        **{"largest": 0.02, "refused": None},
    }
    return GroupChange(**{**plain, **more})


def effect(
    change: float | None = 0.1, difference: float = 0.45, half: float = WIDTH, **more: Any
) -> Effect:
    """A difference on both scales, `half` wide in units; of matches `change` is None."""
    plain: dict[str, Any] = {
        "difference": span(difference, half),
        "relative": None if change is None else span(change),
        **{"se": half / 2, "df_units": 198.0, "se_log": 0.005, "df": 198.0},
        **{"p": 0.001, "p_equal": 1.0, "p_permutation": 0.001},
        **{"detectable_change": 0.014, "detectable_difference": 0.06},
    }
    return Effect(**{**plain, **more})


def clusters(of: Any = "season", **more: Any) -> Clusters:
    """Five on each side, whose error is the wider; of its matches alone p would be small."""
    plain = {"a": 5, "b": 5, "wider": True, "se_match": 0.004, "df_match": 198.0, "p_match": 0.002}
    return Clusters(of=of, **{**plain, **more})


def step_test(step: float = -0.05, half: float = 0.02, **more: Any) -> StepTest:
    """A step beside a drift of two per cent a season."""
    plain: dict[str, Any] = {
        **{"slope": slope(0.02), "expected": slope(0.10, 0.05), "step": span(step, half)},
        **{"p": 0.001, "se": half / 2.2, "df": 11.0, "rank": 1, "dates": 9, "fit": None},
    }
    return StepTest(**{**plain, **more})


def slope(value: float, half: float = 0.003) -> Slope:
    """A drift with its interval; one that can be told from none unless it is under `half`."""
    return Slope(value=value, low=value - half, high=value + half)


def drift(
    verdict: Any = "beyond the drift", because: Any = None, test: Any = ..., **more: Any
) -> Drift:
    """A second verdict; one that is not testable has too few seasons before."""
    reasons = {
        "beyond the drift": "step_beyond_chance",
        "in line with the drift": "step_within_chance",
    }
    untested = verdict not in reasons
    plain: dict[str, Any] = {
        "because": because or reasons.get(verdict, "few_periods_before"),
        **{"periods_before": 3 if untested else 8, "periods_after": 6},
        **{"first": "2009", "last": "2022"},
        "test": test if test is not ... else None if untested else step_test(),
    }
    return Drift(verdict=verdict, **{**plain, **more})


def control(name: str = "overs 1 to 10", change: float | None = -0.05, **more: Any) -> ControlCheck:
    """A change beyond its control's own."""
    verdict = more.pop("verdict", "beyond the control")
    because = "beyond_chance" if verdict == "beyond the control" else "within_chance"
    relative = more.pop("relative", None if change is None else span(change))
    beyond = msgspec.structs.replace(effect(change, -0.2), relative=relative)
    plain: dict[str, Any] = {"effect": beyond, "verdict": verdict, "because": because}
    return ControlCheck(name=name, **{**plain, **more})


def parallel(verdict: Any = "parallel", value: float = 0.0, **more: Any) -> Parallel:
    """Whether a number and its control ran side by side over eight seasons."""
    plain = {"periods": 8, "per": "season", "slope": slope(value), "p": 0.01}
    return Parallel(verdict=verdict, **{**plain, **more})


def felt(value: float = 4.5, half: float = 1.0, **more: Any) -> Felt:
    """A difference in runs over ten overs."""
    plain = {**{"low": value - half, "high": value + half, "times": 10, "divided": 1}}
    return Felt(value=value, **{**plain, "of": "overs", "per": "spell", **more})


def asks(measure: str = "economy", what: Any = "change", **more: Any) -> Comparison:
    """The question of a finding of two windows."""
    return Comparison(
        measure=measure, asks=what, **{"balls": (), "sides": (("2016",), ("2017",)), **more}
    )


def answer(kind: type[Kind], /, identity: str = "b.economy", **more: Any) -> Kind:
    """A finding of any type; `identity` is beat.measure, or beat.measure.cell."""
    beat, measure, *cell = identity.split(".", 2)
    refused = more.get("refused")
    verdict = more.pop("verdict", "can't tell" if refused else "changed")
    plain: dict[str, Any] = {
        **{"id": identity, "beat": beat, "measure": measure, "asks": asks(measure)},
        **{"sides": ("before", "after"), "cell": cell[0] if cell else "all", "values": {}},
        **{"a": side(4.5), "b": side(4.95), "refused": None},
        "effect": None if refused else effect(),
        **{"margin": Margin(size=5.0, unit="percent"), "kind": "rate", "notes": []},
        "because": more.pop("because", _because(verdict, refused)),
    }
    return kind(verdict=verdict, **{**plain, **more})


def change(identity: str = "b.economy", **more: Any) -> Change:
    """A change between two windows: 4.5 to 4.95, a tenth more."""
    return answer(Change, identity, **more)


def gap(identity: str = "b.economy", **more: Any) -> Gap:
    """The second group changed a tenth more than the first."""
    return answer(Gap, identity, **{"a": group_change(0.0, 0.0), "b": group_change(), **more})


def _because(verdict: str, refused: str | None) -> str:
    if refused:
        return "refused"
    return {"changed": "beyond_chance", "held": "inside_margin"}.get(verdict, "interval_too_wide")

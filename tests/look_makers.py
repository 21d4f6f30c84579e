"""Looks for tests: any family of comparisons, with effects as the methods make them."""

from __future__ import annotations

import copy
from typing import Any, NamedTuple

import msgspec
import numpy as np
from hypothesis import strategies as st

from pipeline.config.project import Statistics
from pipeline.contracts.comparison import Against, Comparison
from pipeline.contracts.finding import Change
from pipeline.contracts.findings import Family
from pipeline.contracts.parts import Effect, Margin, Side, Span
from pipeline.significance.effects import compared, numbers_of
from pipeline.significance.methods import inference
from pipeline.significance.methods.ratio import Estimate
from pipeline.significance.printed import print_at_levels, widen
from pipeline.significance.verdicts import judge
from tests.finding_makers import asks, change, effect, side, span
from tests.view_makers import scale

SCALES = {
    "rates": scale("rate"),
    "shares": scale("share"),
    "wins": scale("share", by_match=True),
}


class Asked(NamedTuple):
    """One look: its measure, what was found of it, in how many beats, whether it is a headline."""

    measure: str
    value: float = 0.0  # of the log, or 0.4 times the share
    se: float = 0.1
    df: int = 30
    won: tuple[int, int, int, int] = (20, 40, 20, 40)  # and played, after and before
    refused: bool = False
    beats: int = 1
    headline: bool = False


WON = st.tuples(st.integers(6, 60), st.integers(6, 60)).flatmap(
    lambda n: st.tuples(st.integers(0, n[0]), st.just(n[0]), st.integers(0, n[1]), st.just(n[1]))
)
LOOK = st.builds(
    Asked,
    measure=st.sampled_from(sorted(SCALES)),
    value=st.one_of(st.floats(-0.3, 0.3), st.floats(-0.06, 0.06)),
    se=st.one_of(st.floats(0.002, 0.15), st.floats(0.004, 0.02)),
    df=st.integers(3, 400),
    won=WON,
    refused=st.sampled_from([False, False, False, True]),
    beats=st.integers(1, 3),
    headline=st.booleans(),
)
LOOKS = st.lists(LOOK, min_size=1, max_size=10)
RATE = st.floats(0.001, 0.4)  # alpha, or the tables' rate


def found(look: Asked) -> tuple[Side, Side, Effect]:
    """Both sides and the effect, as the methods make them."""
    asked = SCALES[look.measure]
    if asked.by_match:
        return _of_matches(look)
    size = np.array([look.value])
    units = size * 0.4 if asked.kind == "share" else np.expm1(size)
    logs, plain = (
        Estimate(value, np.array([look.se]), np.array([float(look.df)])) for value in (size, units)
    )
    one = compared(0, side(), side(), numbers_of(logs, plain, asked, None), asked)
    assert one.effect
    return one.a, one.b, one.effect


def _of_matches(look: Asked) -> tuple[Side, Side, Effect]:
    b, a = look.won[:2], look.won[2:]
    low, high = (100 * float(end) for end in inference.newcombe(*b, *a))
    told = effect(
        None,
        p=float(inference.newcombe_differ(*b, *a)),
        p_equal=float(inference.newcombe_equal(*b, *a, 0.03)),
        interval="newcombe",
    )
    difference = span(100 * (b[0] / b[1] - a[0] / a[1]), low=low, high=high)
    sides = [side(100 * won / of, numerator=won, denominator=of) for won, of in (a, b)]
    return sides[0], sides[1], msgspec.structs.replace(told, difference=difference)


def question(measure: str, at: int, control: str | None = None) -> Comparison:
    """The question of the look at this place, held against a control or none."""
    other = Against(competition=(control,)) if control else None
    return asks(measure, balls=(("phase", (str(at),)),), control=other)


def findings(looks: list[Asked]) -> tuple[list[Change], list[str]]:
    """All findings, a look that several beats show once in each; the ids of the headlines.

    Its second beat holds a look against a control, which is another question of the same number;
    the last beat that shows it has the headline.
    """
    made: list[Change] = []
    headlines = []
    for at, look in enumerate(looks):
        a, b, told = found(look)
        asked = SCALES[look.measure]
        for beat in range(look.beats):
            made.append(
                change(
                    f"b{beat}.{look.measure}.c{at}",
                    **{"a": a, "b": b, "kind": asked.kind},
                    asks=question(look.measure, at, "Sand Cup" if beat == 1 else None),
                    effect=None if look.refused else copy.deepcopy(told),
                    refused="few_matches" if look.refused else None,
                    margin=Margin(size=asked.margin.size, unit=asked.margin.unit),
                )
            )
        if look.headline:
            headlines.append(made[-1].id)
    return made, headlines


def judged(
    made: list[Change], headlines: list[str], alpha: float, rate: float
) -> tuple[list[Change], Family]:
    """The same judged and printed, in their order, with the family."""
    mine = copy.deepcopy(made)
    family = judge(mine, headlines, Statistics(alpha=alpha, table_rate=rate), "topic.yaml")
    print_at_levels(mine, SCALES)
    return mine, family


def told_of(finding: Change, effect_: Effect) -> tuple[Span, float]:
    """The interval that is told of an effect, and the margin on its scale."""
    if finding.kind == "share":
        return effect_.difference, finding.margin.size
    return effect_.change, finding.margin.size / 100


def at_level(finding: Change, effect_: Effect, level: float) -> Span:
    """The interval that is told, as it would be at another confidence."""
    other = copy.deepcopy(effect_)
    widen(other, level, (finding.a, finding.b), SCALES[finding.measure].per)
    return told_of(finding, other)[0]


def leaves_none_out(told: Span) -> bool:
    return told.low > 0 or told.high < 0


def outcome(finding: Change) -> Any:
    """All that its family made of it."""
    judged_as = (finding.verdict, finding.because, finding.p_adjusted, finding.adjusted_by)
    return *judged_as, finding.family_size, finding.asked_at, finding.effect

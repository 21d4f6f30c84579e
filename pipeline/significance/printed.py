"""Intervals as they are printed: at the confidence that their verdict was reached at."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import msgspec
from scipy.special import stdtrit

from pipeline.contracts.finding import Change, Gap, Turn, felt_of
from pipeline.contracts.over_time import StepTest
from pipeline.contracts.parts import Effect, Felt, GroupChange, Side, Span
from pipeline.significance.methods.inference import detectable, newcombe
from pipeline.significance.searched import at_level

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pipeline.config.views import Scale
    from pipeline.contracts.finding import Finding


def print_at_levels(findings: Sequence[Finding], scales: Mapping[str, Scale]) -> None:
    """Ends of every interval at its level, and what could have been seen where it was asked.

    A gap's sides are its groups' own changes, as their rows print them.
    """
    for finding in findings:
        if finding.effect is None:
            continue
        if isinstance(finding, Turn):
            _widen_searched(finding, finding.effect)
        else:
            per = scales[finding.measure].per
            sides = None if isinstance(finding, Gap) else (finding.a, finding.b)
            widen(finding.effect, finding.effect.level, sides, per)
        _seen(finding.effect, finding.asked_at)
        if felt := felt_of(finding):
            _on_the_field(felt, finding.effect.difference)

    for finding in findings:
        if isinstance(finding, Gap):
            finding.a, finding.b = (
                _as_its_row(finding, name, side, findings)
                for name, side in zip(finding.sides, (finding.a, finding.b), strict=True)
            )


def _as_its_row(gap: Gap, name: str, side: GroupChange, findings: Sequence[Finding]) -> GroupChange:
    """A side of a gap with the ends that the row of the same change has."""
    own = set(gap.values.items())
    for row in findings:
        if not isinstance(row, Change) or (row.beat, row.measure) != (gap.beat, gap.measure):
            continue
        more = set(row.values.items()) - own
        if own <= set(row.values.items()) and [value for _, value in more] == [name]:
            if row.effect is None or side.difference is None:
                return side
            return msgspec.structs.replace(
                side, difference=row.effect.difference, change=row.effect.relative
            )
    return side


def _widen_searched(finding: Turn, effect: Effect) -> None:
    """The step at a date that was searched for."""
    effect.difference, effect.relative = at_level(finding, effect.level)


def widen(
    effect: Effect, level: float, sides: tuple[Side, Side] | None = None, per: float = 1.0
) -> None:
    """Both intervals of an effect at another confidence; of shares of matches, of their `sides`."""
    effect.level = level
    if effect.interval == "newcombe" and sides is not None:
        a, b = ((side.numerator, side.denominator) for side in sides)
        low, high = newcombe(*b, *a, confidence=level)
        effect.difference = Span(
            value=effect.difference.value, low=float(low) * per, high=float(high) * per
        )
    else:
        effect.difference = about(effect.difference.value, effect.se, effect.df_units, level)
    if effect.relative is not None and effect.se_log is not None and effect.df is not None:
        effect.relative = of_log(effect.relative.value, effect.se_log, effect.df, level)


def widen_step(test: StepTest, level: float) -> None:
    """The step beside the drift at another confidence."""
    test.level = level
    test.step = of_log(test.step.value, test.se, test.df, level)


def _on_the_field(felt: Felt, difference: Span) -> None:
    """The same ends on the field."""
    times = felt.times / felt.divided
    felt.low, felt.high = difference.low * times, difference.high * times


def about(value: float, se: float, df: float, level: float) -> Span:
    """A value with the ends of its t interval."""
    half = float(stdtrit(df, 0.5 + level / 2)) * se
    return Span(value=value, low=value - half, high=value + half)


def of_log(change: float, se: float, df: float, level: float) -> Span:
    """A relative change with its ends, of an error on the log scale."""
    span = about(math.log1p(change), se, df, level)
    return Span(value=change, low=math.expm1(span.low), high=math.expm1(span.high))


def _seen(effect: Effect, rate: float) -> None:
    """The smallest true change that would be called four times in five, at this error rate."""
    units = detectable(effect.se, effect.df_units, rate)
    effect.detectable_difference = float(units)
    if effect.detectable_change is None or effect.se_log is None or effect.df is None:
        return
    logs = detectable(effect.se_log, effect.df, rate)
    effect.detectable_change = math.expm1(logs)

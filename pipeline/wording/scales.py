"""On which scale a change is told: a share in points, anything else in per cent."""

from __future__ import annotations

from typing import NamedTuple

from pipeline.contracts.codes import MeasureKind
from pipeline.contracts.finding import Finding
from pipeline.contracts.over_time import ControlCheck
from pipeline.contracts.parts import GroupChange, Span
from pipeline.wording import numbers, phrases

POINTS = phrases.POINTS


class Scaled(NamedTuple):
    """A change with its interval, in the unit that it is told in."""

    span: Span
    unit: str

    def said(self, halves: bool = True) -> str:
        """The size alone, to what its interval can bear: 'about six per cent'."""
        return phrases.size(self.span.value, self.span.half, 1, self.unit, halves)

    def reach(self) -> str:
        """The interval in words: 'between five and ten per cent down'."""
        return phrases.interval_said(self.span.low, self.span.high, self.unit)

    def could_be(self, ways: tuple[str, str] | None = phrases.TIME) -> str:
        """The interval as what it could be: 'anywhere from five to ten per cent down'."""
        return phrases.range_said(self.span.low, self.span.high, self.unit, ways)

    def way(self) -> str:
        return "up" if self.span.value > 0 else "down"

    def shown(self) -> str:
        """'+1.1 pts', '−3.3%'."""
        if self.unit == POINTS:
            return numbers.points(self.span.value)
        return f"{numbers.shown(self.span.value, 1, signed=True)}%"

    def interval(self) -> str:
        """'−3.0 to +0.8'."""
        return numbers.between(self.span.low, self.span.high, 1)


def scaled(difference: Span, relative: Span | None, kind: MeasureKind) -> Scaled:
    """A difference in units, or the relative one, as it is told."""
    if kind == "share":
        return Scaled(difference, POINTS)
    if relative is None:
        raise ValueError("only a share is told without its relative change")
    ends = {name: getattr(relative, name) * 100 for name in ("value", "low", "high")}
    return Scaled(Span(**ends), "per cent")


def change_of(finding: Finding) -> Scaled:
    """The change, or the difference of groups, of a finding that was not refused."""
    return scaled(finding.told.difference, finding.told.relative, finding.kind)


def sign_of(finding: Finding) -> int:
    """1 for more, -1 for less, on the scale that is told; in units a gap may go the other way."""
    value = change_of(finding).span.value
    return (value > 0) - (value < 0)


def rose_or_fell(finding: Finding) -> str:
    return "rose" if sign_of(finding) > 0 else "fell"


def beyond(control: ControlCheck, kind: MeasureKind) -> Scaled:
    """The change beyond the control's."""
    return scaled(control.effect.difference, control.effect.relative, kind)


def own_change(group: GroupChange, kind: MeasureKind) -> Scaled | None:
    """One group's own change, as a side of a gap; None where it has none."""
    if group.difference is None:
        return None
    return scaled(group.difference, group.change, kind)

"""A finding's numbers as they stand in a table or on a card: shown, never said."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.finding import Finding, Gap
from pipeline.contracts.parts import GroupChange, Side
from pipeline.text import slug
from pipeline.wording import numbers
from pipeline.wording.confidence import interval_heading
from pipeline.wording.scales import change_of, own_change

if TYPE_CHECKING:
    from pipeline.config.measure import Measure

NONE = "–"


class Card(NamedTuple):
    """A headline's number, the end of the fact's id that it is, and the two lines under it."""

    number: str
    fact: str
    sides: str
    detail: str


def both_shown(finding: Finding, measure: Measure) -> tuple[str, str]:
    """Both values; of a gap, both groups' own changes."""
    if isinstance(finding, Gap):
        return _own(finding, finding.a), _own(finding, finding.b)
    return _value(finding.a, measure.decimals), _value(finding.b, measure.decimals)


def _value(side: Side, decimals: int) -> str:
    return NONE if side.value is None else numbers.shown(side.value, decimals)


def _own(finding: Gap, group: GroupChange) -> str:
    change = own_change(group, finding.kind)
    return change.shown() if change else NONE


def difference_shown(finding: Finding, measure: Measure) -> str:
    """The difference in the measure's units; of a share in points."""
    if finding.kind == "share":
        return change_of(finding).shown()
    return numbers.shown(finding.told.difference.value, measure.decimals, signed=True)


def detectable_shown(finding: Finding) -> str:
    """The smallest true change that such data would show four times in five."""
    effect = finding.told
    if finding.kind == "share":
        seen = effect.detectable_difference
        return f"{numbers.shown(seen, 1)} pts" if seen else NONE
    seen_change = effect.detectable_change
    return NONE if seen_change is None else numbers.percent(seen_change, 1, signed=False)


def card_of(finding: Finding, sides: tuple[str, str], measure: Measure) -> Card:
    """A change's own number: of a share in points, else in per cent, with the units under it."""
    change, share = change_of(finding), finding.kind == "share"
    difference = difference_shown(finding, measure)
    unit = "" if isinstance(finding, Gap) else f" {measure.unit}"
    (first, second), (a, b) = sides, both_shown(finding, measure)
    units = "" if share else f"{difference} {measure.unit}; "
    heading = interval_heading(finding.told.level)
    return Card(
        difference if share else change.shown(),
        "difference" if share else "change",
        f"{first} {a}, {second} {b}{unit}",
        f"{units}{heading} {change.interval()} {'points' if share else 'per cent'}",
    )


def fact_ends(finding: Finding) -> dict[str, str]:
    """The end of the fact's id that stands behind each number of a row."""
    first, second = (slug(side) for side in finding.sides)
    return {"a": first, "b": second, "difference": "difference", "change": "change"}

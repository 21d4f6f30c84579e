"""What a card leads with: the number that is said, in figures; of what can't be told, just that."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.finding import Finding, Gap, Groups, Turn
from pipeline.wording import numbers, of_kinds, phrases
from pipeline.wording.labels import FROM, break_shown
from pipeline.wording.refusals import refused_in_short
from pipeline.wording.scales import POINTS, change_of

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.project import Format

OPEN = "can’t tell"


class Lead(NamedTuple):
    """'down nearly', '9%', '': the figure that the eye takes, with the words around it."""

    before: str
    figure: str
    after: str = ""

    def __str__(self) -> str:
        return " ".join(part for part in self if part)


def lead_of(finding: Finding, beat: AnyBeat, form: Format) -> Lead:
    """'down nearly 9%', 'any change under 3%', 'between 2016 and 2017', 'can’t tell'."""
    if finding.refused:
        return Lead("", refused_in_short(finding))
    if finding.verdict == "can't tell":
        return Lead("", OPEN)
    if finding.verdict == "held":
        return Lead(f"any {moved(finding)} under", margin_figure(finding))
    if isinstance(finding, Turn) and finding.turn:
        return _date(finding.turn.last, finding.turn.next)
    return _size(finding, of_kinds.sides(finding, beat, form))


def _size(finding: Finding, sides: tuple[str, str]) -> Lead:
    """The size of a change, or of a difference of groups, as it is said."""
    change, (first, second) = change_of(finding), sides
    told = phrases.sized(change.span.value, change.span.half, 1, change.unit == POINTS)
    size = figure(told.value, told.decimals, change.unit)
    if isinstance(finding, Groups):
        higher = "higher" if change.span.value > 0 else "lower"
        return Lead(told.near, size, f"{higher}: {second}")
    against = f"against {first}" if isinstance(finding, Gap) else ""
    return Lead(f"{change.way()} {told.near}", size, against)


def _date(last: str, following: str) -> Lead:
    if FROM in following:
        return Lead("at", break_shown(last, following))
    return Lead("between", f"{last} and {following}")


def moved(finding: Finding) -> str:
    """What a difference of its kind is called, whichever way it went."""
    if isinstance(finding, Turn):
        return "break"
    return "gap" if isinstance(finding, Groups | Gap) else "change"


def margin_figure(finding: Finding) -> str:
    """'3%', '0.6 points': what counts as none."""
    unit = POINTS if finding.margin.unit == "points" else "per cent"
    return figure(finding.margin.size, 1, unit)


def figure(value: float, decimals: int, unit: str) -> str:
    """A size without its sign, short as a card has room for: '9%', '2.5 points', '1 point'."""
    shown = numbers.shown(abs(value), decimals)
    if decimals:
        shown = shown.rstrip("0").rstrip(".")
    if unit != POINTS:
        return f"{shown}%"
    return f"{shown} point" if shown == "1" else f"{shown} points"

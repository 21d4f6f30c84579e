"""A difference on the field: runs or balls of an innings, a spell, a season."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, felt_of
from pipeline.contracts.parts import Felt
from pipeline.wording import cricket, numbers, phrases

if TYPE_CHECKING:
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

PER = {
    "innings": "Over an innings",
    "those overs": "Over those {times} overs",
    "spell": "In a spell of {times} overs",
    "ten wickets": "For a side bowled out",
    "season": "Over a season",
    "year": "Over a year",
}
AS_OVERS = 2  # from here on balls are said as overs too


def felt_said(finding: Finding, measure: Measure, form: Format) -> str | None:
    """A changed number as runs or balls of an innings, a spell, a season."""
    felt = felt_of(finding)
    if not felt or finding.verdict != "changed" or not felt.per:
        return None
    said = felt_amount(felt, measure)
    if said.startswith("less than"):
        return None
    more = "more" if felt.value > 0 else "fewer"
    opening = PER[felt.per].format(times=numbers.said(felt_overs(felt, form), 0))
    return f"{opening}, that is {said} {more}{_as_overs(felt, measure, form)}."


def felt_amount(felt: Felt, measure: Measure) -> str:
    """'about three runs', to what the interval can bear."""
    return phrases.size(felt.value, (felt.high - felt.low) / 2, 1, counted(measure))


def _as_overs(felt: Felt, measure: Measure, form: Format) -> str:
    """Many balls as overs too: ': two and a half overs'."""
    balls, an_over = round(abs(felt.value)), form.balls_per_over
    if counted(measure) != "balls" or felt.per != "innings" or balls < AS_OVERS * an_over:
        return ""
    rest = balls % an_over
    return f": {cricket.overs_said(balls, an_over)}" if 2 * rest in (0, an_over) else ""


def felt_overs(felt: Felt, form: Format) -> float:
    """How many overs a count of balls is (counts of overs are that already)."""
    return felt.times / form.balls_per_over if felt.of == "balls" else felt.times


def counted(measure: Measure) -> str:
    """What the numerator counts, in the plural: 'runs', 'dot balls'."""
    if measure.counted:
        return measure.counted
    return "balls" if measure.kind == "share" else measure.unit.split(" ")[0]

"""A difference on the field: runs or balls of an innings, a spell, a season."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.finding import Felt, Finding
from pipeline.wording import cricket, numbers, phrases

if TYPE_CHECKING:
    from pipeline.config.measure import Measure

PER = {
    "innings": "Over an innings",
    "those overs": "Over those {times} overs",
    "spell": "In a spell of {times} overs",
    "ten wickets": "For a side bowled out",
    "season": "Over a season",
}
AS_OVERS = 12  # balls: from here on they are said as overs too


def felt_said(finding: Finding, measure: Measure) -> str | None:
    """A changed number as runs or balls of an innings, a spell, a season."""
    felt: Felt | None = finding["felt"]
    if not felt or finding["verdict"] != "changed" or not felt.per:
        return None
    said = felt_amount(felt, measure)
    if said.startswith("less than"):
        return None
    more = "more" if felt.value > 0 else "fewer"
    opening = PER[felt.per].format(times=numbers.said(felt_overs(felt), 0))
    return f"{opening}, that is {said} {more}{_as_overs(felt, measure)}."


def felt_amount(felt: Felt, measure: Measure) -> str:
    """'about three runs', to what the interval can bear."""
    return phrases.size(felt.value, (felt.high - felt.low) / 2, 1, counted(measure))


def _as_overs(felt: Felt, measure: Measure) -> str:
    """Many balls as overs too: ': two and a half overs'."""
    balls = round(abs(felt.value))
    if counted(measure) != "balls" or felt.per != "innings" or balls < AS_OVERS:
        return ""
    rest = balls % 6
    return f": {cricket.overs_said(balls)}" if rest in (0, 3) else ""


def felt_overs(felt: Felt) -> float:
    """How many overs a count of balls is (counts of overs are that already)."""
    return felt.times / 6 if felt.of == "balls" else felt.times


def counted(measure: Measure) -> str:
    """What the numerator counts, in the plural: 'runs', 'dot balls'."""
    if measure.counted:
        return measure.counted
    return "balls" if measure.kind == "share" else measure.unit.split(" ")[0]

"""A difference on the field: runs or balls of an innings, a spell, a season."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, felt_of
from pipeline.contracts.parts import Felt
from pipeline.text import capitalised
from pipeline.voice.sentence import Told
from pipeline.wording import cricket, numbers, phrases

if TYPE_CHECKING:
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

PER = {
    "innings": "over an innings",
    "those overs": "over those {times} overs",
    "spell": "every {times} overs",
    "ten wickets": "for a side bowled out",
    "season": "over a season",
    "year": "over a year",
}
FEW = 3  # of what is felt: fewer than that in halves, for between one and two is much
AS_OVERS = 2  # from here on balls are said as overs too


def felt_said(finding: Finding, measure: Measure, form: Format) -> Told | None:
    """A changed number as runs or balls of an innings, a spell, a season."""
    slots = _felt(finding, measure, form)
    if not slots:
        return None
    return Told("felt.overs" if "overs" in slots else "felt.changed", **slots)


def felt_drawn(finding: Finding, measure: Measure, form: Format) -> str:
    """The same on a frame, without its full stop: always in these words; '' where it is not felt.

    A frame is not drawn anew when the voice changes.
    """
    slots = _felt(finding, measure, form)
    if not slots:
        return ""
    overs = f": {slots['overs']}" if "overs" in slots else ""
    return capitalised(f"{slots['over']}, that is {slots['felt']}{overs}")


def _felt(finding: Finding, measure: Measure, form: Format) -> dict[str, str]:
    """What fills its slots; nothing of what can't be felt, or can't be told."""
    felt = felt_of(finding)
    if not felt or finding.verdict != "changed" or not felt.per:
        return {}
    said = felt_amount(felt, measure)
    if said.startswith("less than"):
        return {}
    more = "more" if felt.value > 0 else "fewer"
    over = PER[felt.per].format(times=numbers.said(felt_overs(felt, form), 0))
    overs = _as_overs(felt, measure, form)
    return {"over": over, "felt": f"{said} {more}", **({"overs": overs} if overs else {})}


def felt_amount(felt: Felt, measure: Measure) -> str:
    """'about three runs', to what the interval can bear."""
    half = (felt.high - felt.low) / 2
    told = phrases.sized(felt.value, half, 1, halves=abs(felt.value) < FEW)
    return f"{told.near} {phrases.amount(told.value, told.decimals, counted(measure))}"


def _as_overs(felt: Felt, measure: Measure, form: Format) -> str:
    """Many balls as overs too: 'two and a half overs'; else nothing."""
    balls, an_over = round(abs(felt.value)), form.balls_per_over
    if counted(measure) != "balls" or felt.per != "innings" or balls < AS_OVERS * an_over:
        return ""
    rest = balls % an_over
    return cricket.overs_said(balls, an_over) if 2 * rest in (0, an_over) else ""


def felt_overs(felt: Felt, form: Format) -> float:
    """How many overs a count of balls is (counts of overs are that already)."""
    return felt.times / form.balls_per_over if felt.of == "balls" else felt.times


def counted(measure: Measure) -> str:
    """What the numerator counts, in the plural: 'runs', 'dot balls'."""
    if measure.counted:
        return measure.counted
    return "balls" if measure.kind == "share" else measure.unit.split(" ")[0]

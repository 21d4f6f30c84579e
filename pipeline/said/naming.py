"""What a number is, in a sentence: 'the change in spin’s economy in the middle overs'."""

from __future__ import annotations

from pipeline.contracts.finding import control_of
from pipeline.said.numbers_of import Number, OfBeat, OfFinding, OfTopic
from pipeline.text import slug
from pipeline.wording import of_kinds
from pipeline.wording.script import spelled
from pipeline.wording.subject import balls_of, cell_subject

NAMED = {
    "drift": "the drift of {}",
    "step": "the step in {}",
    "yardstick": "how far {} moves with no event",
    "date": "the date of the break in {}",
    "of-change": "the part of the change in {} that is who did what",
    "like-for-like": "the change in {} like for like",
    "held-still": "the change in {} with what else changed held still",
    "same-in": "the count of other ways in which {} comes out the same",
    "luck-allowed-for": "the change in {}, with luck allowed for,",
}
SHARE = "share-"


def part_of(number: Number) -> str:
    """What of its finding it is: 'change', 'before', 'step'; '' of none."""
    return number.part if isinstance(number, OfFinding) else ""


def subject_of(number: Number) -> str:
    """What it is of: the finding's subject, the measure's, else what was counted."""
    match number:
        case OfFinding():
            return of_kinds.measured(number.finding, number.beat, number.measure, number.form)
        case OfBeat():
            return cell_subject({}, number.beat, number.measure, number.form)
        case OfTopic():
            return number.fact.definition or number.fact.unit


def name_of(number: Number) -> str:
    """A noun phrase without the value."""
    fact, what = number.fact, subject_of(number)
    match number:
        case OfFinding():
            return _of_finding(number, what)
        case OfBeat() if fact.unit == "players":
            return f"the count of players {fact.definition}"
        case OfBeat() if fact.unit == "per cent of what separates them":
            return f"the part of {fact.definition}"
        case OfBeat():
            return f"{what} in {fact.id.removeprefix(f'{fact.beat}.{fact.measure}.')}"
        case OfTopic():
            return f"the count of {what}"


def _of_finding(number: OfFinding, what: str) -> str:
    finding, part = number.finding, number.part
    sides = [slug(side) for side in finding.sides]
    if part in sides:
        return of_kinds.side_named(
            finding, sides.index(part), number.beat, number.measure, number.form, number.event
        )
    if part in NAMED:
        return NAMED[part].format(what)
    if part.startswith(SHARE):
        group = balls_of(finding.values, number.form)
        return f"{group} as a share of the balls {part.removeprefix(SHARE)}"
    control = control_of(finding)
    if part == "beyond-control" and control:
        return f"the change in {what}, set against {control.name},"
    change = of_kinds.change_named(finding, number.beat, number.measure, number.form)
    _, _, per = number.fact.unit.partition(", ")
    return f"{change}, {spelled(per)}," if part == "felt" and per else change

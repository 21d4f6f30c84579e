"""What a fact is, in a sentence: 'the change in spin’s economy in the middle overs'."""

from __future__ import annotations

from pipeline.errata.versions import Told
from pipeline.text import possessive, slug
from pipeline.wording import of_kinds
from pipeline.wording.script import spelled
from pipeline.wording.subject import cell_subject

NAMED = {
    "drift": "the drift of {}",
    "step": "the step in {}",
    "date": "the date of the break in {}",
    "luck-allowed-for": "the change in {}, with luck allowed for,",
}


def which(told: Told) -> str:
    """What of its finding a fact is: 'change', 'before', 'step'; '' of none."""
    if not told.finding:
        return ""
    return told.fact["id"].removeprefix(f"{told.finding['id']}.")


def subject_of(told: Told) -> str:
    """What the number is of: the finding's subject, the measure's, else what was counted."""
    finding, beat, measure = told.finding, told.beat, told.measure
    if not beat or not measure:
        return told.fact["definition"]
    if finding is None:
        return cell_subject({}, beat, measure, told.form)
    return of_kinds.measured(finding, beat, measure, told.form)


def what_it_is(told: Told) -> str:
    """A noun phrase without the value."""
    finding, what, part = told.finding, subject_of(told), which(told)
    if not finding:
        return _of_series(told, what)
    sides = [slug(side) for side in finding["sides"]]
    if part in sides:
        at = sides.index(part)
        return of_kinds.side_named(finding, at, told.beat, told.measure, told.form, told.event)
    if part in NAMED:
        return NAMED[part].format(what)
    if part.startswith("share-"):
        (group,) = finding["values"].values()
        return f"{possessive(group)} share of the balls {part.removeprefix('share-')}"
    if part == "beyond-control":
        return f"the change in {what}, set against {finding['control']['name']},"
    if part == "felt":
        _, _, per = told.fact["unit"].partition(", ")
        return f"{_change(told)}{f', {spelled(per)},' if per else ''}"
    return _change(told)


def _change(told: Told) -> str:
    """The difference of the two sides, as its kind of beat names it."""
    return of_kinds.change_named(told.finding, told.beat, told.measure, told.form)


def _of_series(told: Told, what: str) -> str:
    """A season's value, or a count."""
    key = f"{told.fact['beat']}.{told.fact['measure']}."
    if told.fact["unit"] == "players" or not told.beat:
        return f"the count of {what}"
    return f"{what} in {told.fact['id'].removeprefix(key)}"

"""What a fact is, in a sentence: 'the change in spin’s economy in the middle overs'."""

from __future__ import annotations

from pipeline.errata.versions import Told
from pipeline.text import possessive, slug
from pipeline.wording.kinds.gap import gap_subject
from pipeline.wording.kinds.mix import who_did
from pipeline.wording.script import spelled
from pipeline.wording.subject import sides_said, subject

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
    if finding and finding["about"] == "gap":
        return gap_subject(finding, beat, measure, told.form)[1]
    if not beat or not measure:
        return told.fact["definition"]
    return subject(finding or {"values": {}}, beat, measure, told.form)


def what_it_is(told: Told) -> str:
    """A noun phrase without the value."""
    finding, what, part = told.finding, subject_of(told), which(told)
    if not finding:
        return _of_series(told, what)
    sides = [slug(side) for side in finding["sides"]]
    if part in sides:
        return _side(told, sides.index(part))
    if part in NAMED:
        return NAMED[part].format(what)
    if part.startswith("share-"):
        (group,) = finding["values"].values()
        return f"{possessive(group)} share of the balls {part.removeprefix('share-')}"
    if part == "beyond-control":
        return f"the change in {what}, set against {finding['control']['name']},"
    if part == "felt":
        _, _, per = told.fact["unit"].partition(", ")
        return f"{_change(told, what)}{f', {spelled(per)},' if per else ''}"
    return _change(told, what)


def _change(told: Told, what: str) -> str:
    """The difference of the two sides, by what the finding is about."""
    match told.finding["about"]:
        case "gap":
            against, _ = gap_subject(told.finding, told.beat, told.measure, told.form)
            return f"the change in {what}, set against {against},"
        case "groups":
            return f"the difference in {what} {sides_said(told.finding, told.beat, told.form)[1]}"
        case "mix":
            return f"what a change in {who_did(told.beat)} did to {what}"
        case "rates":
            return f"the change in {what}, with the same mix,"
    return f"the change in {what}"


def _side(told: Told, at: int) -> str:
    """One side's value; of a gap, that group's own change."""
    finding = told.finding
    if finding["about"] == "gap":
        (cut,) = told.beat["between"]
        own = {**finding, "values": {cut: finding["sides"][at], **finding["values"]}}
        return f"the change in {subject(own, told.beat, told.measure, told.form)}"
    side = sides_said(finding, told.beat, told.form)[at]
    if finding["about"] != "groups" and told.event:
        side = f"{side} {told.event['name']}"
    return f"{subject_of(told)} {side}"


def _of_series(told: Told, what: str) -> str:
    """A season's value, or a count."""
    key = f"{told.fact['beat']}.{told.fact['measure']}."
    if told.fact["unit"] == "players" or not told.beat:
        return f"the count of {what}"
    return f"{what} in {told.fact['id'].removeprefix(key)}"

"""The draft of a correction: what was said, what is right, why, and whether the verdict stands.

Plain sentences for a person to edit. Of causes it says only what the corrections on record say.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from pipeline.errata.naming import what_it_is, which
from pipeline.errata.versions import Record, Told
from pipeline.text import capitalised, listed
from pipeline.wording import numbers
from pipeline.wording.change import rose_or_fell
from pipeline.wording.refusals import refusal_said
from pipeline.wording.scales import change_of
from pipeline.wording.second_verdict import second
from pipeline.wording.subject import subject

View = dict[str, Any]
MOST_REASONS = 3  # told one by one; more are counted


def draft(wrong: list[Record], old: Told, new: Told | None, now: Record, why: View) -> str:
    """One paragraph on the editions, which said the same; `why` is of the newest of them."""
    words = wrong[0].view["words"]
    opening = f"Correction. In ‘{words['title']}’, {_editions(wrong)}, "
    sentences = [opening + _was(old, new), _is(old, new, now), *_why(why), *_verdict(old, new)]
    return " ".join(sentence for sentence in sentences if sentence)


def day(iso: str) -> str:
    """'2026-11-25' as '25 November 2026'."""
    found = date.fromisoformat(iso)
    return f"{found.day} {found:%B %Y}"


def _editions(wrong: list[Record]) -> str:
    if len(wrong) == 1:
        return f"edition {wrong[0].number} of {day(wrong[0].date)}"
    numbered = listed([str(record.number) for record in wrong])
    return f"editions {numbered}, the first of {day(wrong[0].date)}"


def _as_said(old: Told, new: Told | None) -> bool:
    """Only the printed figure moved, and what was said of it holds."""
    return new is not None and old.fact["spoken"] == new.fact["spoken"]


def _is_change(told: Told) -> bool:
    """Whether it is the change itself, called one: 'fell by just over seven per cent'."""
    finding = told.finding
    if not finding or finding["about"] != "change" or finding["verdict"] != "changed":
        return False
    return which(told) == ("difference" if finding["kind"] == "share" else "change")


def _was(old: Told, new: Told | None) -> str:
    """What was said, or printed where only that is wrong."""
    if _as_said(old, new) and old.fact["display"] != new.fact["display"]:
        return f"we printed {what_it_is(old)} as {old.fact['display']}."
    if _is_change(old):
        what = subject(old.finding, old.beat, old.measure, old.form)
        return (
            f"we said that {what} {rose_or_fell(old.finding)} by {change_of(old.finding).said()}."
        )
    return f"we gave {what_it_is(old)} as {old.fact['spoken']}."


def _moved(told: Told) -> str:
    """'fell by just over seven per cent'."""
    return f"{rose_or_fell(told.finding)} by {change_of(told.finding).said()}"


def _is(old: Told, new: Told | None, now: Record) -> str:
    if new is None:
        return _gone(old, now)
    if _as_said(old, new):
        if old.fact["display"] == new.fact["display"]:
            return "The number is the same."
        return f"It is {new.fact['display']}; as it was said, it holds."
    if _is_change(new):
        return f"It {_moved(new)}."
    return f"It is {new.fact['spoken']}."


def _gone(old: Told, now: Record) -> str:
    """Why there is no number now: there is too little for one, or it is not asked any more."""
    name = old.fact["finding"]
    finding = next((f for f in now.findings["findings"] if f["id"] == name), None)
    if finding and finding["refused"]:
        return f"{capitalised(refusal_said(finding))}, so there is no number worth saying."
    return "The brief no longer has that number."


def _why(why: View) -> list[str]:
    """The reasons on record; that settings or data are others is said as that, not as a cause."""
    fixes = why["corrections"]
    reasons = dict.fromkeys((fix["reason"], fix["source"]) for fix in fixes["new"])
    said = [f"The reason on record: ‘{reason}’ ({source})." for reason, source in reasons]
    if len(reasons) > MOST_REASONS:
        count = capitalised(numbers.said(len(reasons), 0))
        said = [f"{count} things have been corrected in its data since."]
    if fixes["withdrawn"]:
        said.append("A correction of the data that it rested on has been withdrawn.")
    if why["settings"]:
        said.append("How it is asked or counted has been changed since.")
    return said or ["Why it moved is not on record."]


def _verdict(old: Told, new: Told | None) -> list[str]:
    """What of the conclusion stands or falls."""
    if not old.finding or new is None or not new.finding:
        return []
    was, now = (told.finding["verdict"].replace("'", "’") for told in (old, new))
    if was != now:
        return [f"The verdict does not stand: it was ‘{was}’, and is ‘{now}’."]
    before, after = second(old.finding), second(new.finding)
    if before == after:
        return [f"The verdict is the same: {was}."]
    return [
        f"The verdict is the same: {was}.",
        f"What is said of the drift does not stand: it was ‘{before}’, and is ‘{after}’.",
    ]

"""The draft of a correction: what was said, what is right, why, and whether the verdict stands.

Plain sentences for a person to edit. Of causes it says only what the corrections on record say.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TypeGuard

from pipeline.contracts.errata import Why
from pipeline.contracts.finding import Change
from pipeline.errata.conclusion import stands
from pipeline.errata.number import Number, OfFinding
from pipeline.errata.records import Archived, Record
from pipeline.said.naming import name_of
from pipeline.text import capitalised, listed
from pipeline.wording import numbers
from pipeline.wording.refusals import refusal_said
from pipeline.wording.scales import change_of, rose_or_fell
from pipeline.wording.subject import subject

MOST_REASONS = 3  # told one by one; more are counted


def draft(wrong: Sequence[Archived], old: Number, new: Number | None, now: Record, why: Why) -> str:
    """One paragraph on the editions, which said the same; `why` is of the newest of them."""
    opening = f"Correction. In ‘{wrong[0].view.words.title}’, {_editions(wrong)}, "
    sentences = [opening + _was(old, new), _is(old, new, now), *_why(why), *stands(old, new)]
    return " ".join(sentences)


def day(given: date) -> str:
    """'25 November 2026'."""
    return f"{given.day} {given:%B %Y}"


def _editions(wrong: Sequence[Archived]) -> str:
    first = day(wrong[0].date)
    if len(wrong) == 1:
        return f"edition {wrong[0].number} of {first}"
    numbered = listed([str(record.number) for record in wrong])
    return f"editions {numbered}, the first of {first}"


def _was(old: Number, new: Number | None) -> str:
    """What was said, or printed where only that is wrong."""
    if new and old.fact.spoken == new.fact.spoken and old.fact.display != new.fact.display:
        return f"we printed {name_of(old)} as {old.fact.display}."
    if _is_change(old):
        what = subject(old.finding, old.beat, old.measure, old.form)
        return f"we said that {what} {_moved(old)}."
    return f"we gave {name_of(old)} as {old.fact.spoken}."


def _is_change(number: Number) -> TypeGuard[OfFinding]:
    """Whether it is the change itself, called one: 'fell by just over seven per cent'."""
    if not isinstance(number, OfFinding) or not isinstance(number.finding, Change):
        return False
    told = "difference" if number.finding.kind == "share" else "change"
    return number.finding.verdict == "changed" and number.part == told


def _moved(number: OfFinding) -> str:
    return f"{rose_or_fell(number.finding)} by {change_of(number.finding).said()}"


def _is(old: Number, new: Number | None, now: Record) -> str:
    if new is None:
        return _gone(old, now)
    if old.fact.display == new.fact.display:
        if old.fact.spoken == new.fact.spoken:
            return "The number is the same."
        return f"The number is the same; its interval bears that it is said as {new.fact.spoken}."
    if old.fact.spoken == new.fact.spoken:  # what was said holds, whatever is printed
        return f"It is {new.fact.display}; as it was said, it holds."
    if _is_change(new):
        return f"It {_moved(new)}."
    return f"It is {new.fact.spoken}."


def _gone(old: Number, now: Record) -> str:
    """Why there is no number now: there is too little for one, or it is not asked any more."""
    finding = now.finding(old.fact.finding)
    if finding and finding.refused:
        return f"{capitalised(refusal_said(finding))}, so there is no number worth saying."
    return "The brief no longer has that number."


def _why(why: Why) -> list[str]:
    """The reasons on record; that settings or data are others is said as that, not as a cause."""
    fixes = why.corrections
    reasons = dict.fromkeys((fix.reason, fix.source) for fix in fixes.new)
    said = [f"The reason on record: ‘{reason}’ ({source})." for reason, source in reasons]
    if len(reasons) > MOST_REASONS:
        count = capitalised(numbers.said(len(reasons), 0))
        said = [f"{count} things have been corrected in its data since."]
    if fixes.withdrawn:
        said.append("A correction of the data that it rested on has been withdrawn.")
    if why.settings:
        said.append("How it is asked or counted has been changed since.")
    if why.earlier:
        then, now = why.earlier
        more = "more" if now > then else "fewer"
        said.append(f"It is counted with {more} earlier looks than then, which can turn a verdict.")
    return said or ["Why it moved is not on record."]

"""The check of a file in a few lines: how much of it is right, then each place to look at."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pipeline.script.check_marks import Mark, corrections, for_a_person, marks_of, to_mend
from pipeline.script.file_checked import FileChecked
from pipeline.terminal import WIDTH, headed, wrap
from pipeline.wording.script_checked import state_of, state_said


def table(checked: FileChecked) -> Iterator[str]:
    """Lines to print."""
    marks = marks_of(checked)
    yield f"{checked.check.file}"
    yield f"  {state_said(state_of(checked.check))}"
    yield from _listed("To mend", to_mend(marks))
    yield from _listed("For a person to check, by risk", for_a_person(marks))
    if publish := corrections(marks):
        yield from ["", "Corrections to publish", *(f"  {line}" for line in publish)]


def _listed(title: str, marks: Sequence[Mark]) -> Iterator[str]:
    if marks:
        yield from ["", title]
    for mark in marks:
        yield from headed(mark.place, f"{mark.what}: “{mark.said}”")
        if mark.told:
            yield from wrap(mark.told, WIDTH, " " * 14, " " * 14)

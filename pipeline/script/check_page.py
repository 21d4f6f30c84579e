"""The check as one page: each sentence with its marks, and beside it what is said of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.facts import Fact
from pipeline.script.check_marks import Mark, corrections, for_a_person, marks_of, to_mend
from pipeline.script.file_checked import FileChecked
from pipeline.templating import environment, script, style
from pipeline.wording.script_checked import clock, state_of, state_said

if TYPE_CHECKING:
    from pipeline.config.views import BriefView

NOTHING = "It says no number and makes no claim."


class Piece(NamedTuple):
    """Words of a sentence: a number with its mark, or none; `claims` are marks that they are in."""

    text: str
    number: Mark | None
    claims: list[Mark]


class Row(NamedTuple):
    """A sentence: its heading where that is a new one, its place, its words, its notes."""

    heading: str
    place: str
    pieces: list[Piece]
    notes: list[Mark]


class FilePart(NamedTuple):
    """One file: what is said of the whole, what is to be done, and all that is said in it."""

    file: str
    captions: bool
    state: str
    rows: list[Row]
    mend: list[Mark]
    person: list[Mark]
    publish: list[str]


def check_page(view: BriefView, checked: Sequence[FileChecked], facts: Sequence[Fact]) -> str:
    """HTML that needs no file beside it; numbers lead to their facts in brief.html."""
    parts = [_part(at, one) for at, one in enumerate(checked, start=1)]
    page = environment().get_template("script-check.html.jinja")
    return page.render(
        css=[style(name) for name in ("fonts-screen.css", "script-check.css")],
        js=script("script-check.js"),
        language=view.project.language,
        publisher=view.project.title,
        paper=view.project.paper,
        topic=view.topic,
        title=view.words.title,
        parts=parts,
        listed={fact.id for fact in facts if fact.is_listed},
        nothing=NOTHING,
    )


def _part(at: int, checked: FileChecked) -> FilePart:
    marks = [mark._replace(name=f"{at}-{mark.name}") for mark in marks_of(checked)]
    state = state_of(checked.check)
    return FilePart(
        file=state.file,
        captions=state.captions,
        state=state_said(state),
        rows=list(_rows(checked, marks)),
        mend=to_mend(marks),
        person=for_a_person(marks),
        publish=corrections(marks),
    )


def _rows(checked: FileChecked, marks: Sequence[Mark]) -> Iterator[Row]:
    own: dict[int, list[Mark]] = {}
    for mark in marks:
        own.setdefault(mark.sentence, []).append(mark)
    heading = ""
    for at, passage in enumerate(checked.passages):
        here = own.get(at, [])
        new = passage.heading if passage.heading != heading else ""
        heading = passage.heading
        place = str(passage.line) if passage.start is None else clock(passage.start)
        notes = [mark for mark in here if mark.asks]
        yield Row(new, place, list(pieces_of(passage.text, here)), notes)


def pieces_of(text: str, marks: Iterable[Mark]) -> Iterator[Piece]:
    """The text in pieces, none of which is partly in a mark; of numbers the first that is there."""
    marks = list(marks)
    edges = sorted({0, len(text), *(end for mark in marks for end in (mark.begins, mark.ends))})
    numbers = [mark for mark in marks if not mark.is_claim]
    claims = [mark for mark in marks if mark.is_claim]
    for begins, ends in pairwise(edges):
        number = next((m for m in numbers if m.begins <= begins and ends <= m.ends), None)
        inside = [m for m in claims if m.begins <= begins and ends <= m.ends]
        yield Piece(text[begins:ends], number, inside)

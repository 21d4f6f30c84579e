"""A script as it is written: Markdown with headings, cues, lines, and slots for numbers.

Whatever is in the file is read or told with its line; nothing in it is run.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal, NamedTuple

from pipeline.csv_files import read_text_of
from pipeline.errors import OF_ONE_KIND, Problem, UserError
from pipeline.markdown import plain

MOST = 1_000_000  # characters of a script: some hundred hours of talk
SLOT = "write {{ fact-id | form }}, or \\{{ for two braces"
NOTHING = "\0"  # where a comment stood; no text file has one
BLANK = f" \t\v\f{NOTHING}"
Kind = Literal["title", "heading", "chart", "sponsor", "note", "line"]

_COMMENT = re.compile(r"(?<!\\)<!--(.*?)(?:-->|\Z)", re.DOTALL)
_TOKEN = re.compile(r"\\[^\n]|\{\{[^{}]*\}\}|\{\{|\}\}|\*\*?|[^\\{}*]+|.", re.DOTALL)
_WRITTEN = re.compile(rf"[^\n]*\n[\s{NOTHING}]*|[^\n]+")  # of one line, and what is blank after it
_BETWEEN = re.compile(rf"(?<![ \t])[ \t]*[\n{NOTHING}][\s{NOTHING}]*")
_HEADING = re.compile(r"(#{1,6})(?:[ \t]+|$)(.*)")
_TIMES = re.compile(r"\s*\(\d+:\d\d[^()]*\)\s*$")  # of the draft: counted anew
_ITEM = re.compile(r"(?:[-*+]|\d{1,2}[.)])[ \t]+")  # no year is one
_RULE = re.compile(r"(?:[-*_=][ \t]*){3,}$")
_CUE = re.compile(r"(chart|sponsor):[ \t]*(.*)", re.IGNORECASE)
_SECONDS = re.compile(r"\(?(?:(\d{1,3}):(\d\d)|(\d{1,5}) ?s(?:econds)?)\)?$")


class Slot(NamedTuple):
    """A place for a number: the fact's id and the form, with the line and column that it is at."""

    fact: str
    form: str
    line: int
    column: int


class Mark(NamedTuple):
    """Where emphasis begins or ends."""

    opens: bool


Piece = str | Slot | Mark


@dataclass(frozen=True)
class Block:
    """A heading, a cue or a line to say; `seconds` of a sponsor's slot.

    `lines` has the line of the file that each piece begins at; no text is of two lines.
    """

    kind: Kind
    line: int
    pieces: tuple[Piece, ...]
    seconds: int = 0
    lines: tuple[int, ...] = field(default=(), compare=False)

    @property
    def slots(self) -> list[Slot]:
        return [piece for piece in self.pieces if isinstance(piece, Slot)]


def read_script(path: Path) -> list[Block]:
    """The blocks of a kept script. Raises UserError with what is no slot, or why it's unread."""
    return blocks_of(read_text_of(path), str(path))


def blocks_of(text: str, file: str) -> list[Block]:
    """The blocks of a text, in their order; `file` is named in what is raised."""
    text = not_too_long(text, file).removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    reading = _Reading(text, file)
    found = list(reading.blocks())
    if reading.problems:
        raise UserError(sorted(reading.problems))
    return found


def not_too_long(text: str, file: str) -> str:
    """The same. Raises UserError of what can hardly be a script."""
    if len(text) > MOST:
        message = f"{len(text):,} characters; a script has at most {MOST:,}: is it the right file?"
        raise UserError(Problem(file, message))
    return text


class _Reading:
    """A text being read; places are characters from its beginning."""

    def __init__(self, text: str, file: str) -> None:
        self.file, self.problems = file, list[Problem]()
        self.starts = [0, *(at.end() for at in re.finditer("\n", text))]
        self.text = _COMMENT.sub(self._blank, text)

    def _blank(self, comment: re.Match[str]) -> str:
        """Nothing in its place, so that all else stays at its line."""
        if not comment[0].endswith("-->"):
            self._wrong(comment.start(), "'<!--' is not closed by '-->'; close it, or take it out")
        return re.sub(r"[^\n]", NOTHING, comment[0])

    def blocks(self) -> Iterator[Block]:
        """Paragraphs are one line each; a heading, a cue, an item of a list begins a new one."""
        waiting: list[tuple[int, int]] = []
        titled = False
        for start, end in self._lines():
            written = self.text[start:end]
            begins = start + len(written) - len(written.lstrip(BLANK))
            stripped = written.strip(BLANK)
            heading = _HEADING.match(stripped)
            item = _ITEM.match(stripped)
            ends = not stripped or _RULE.match(stripped) or heading or item or stripped[0] == ">"
            if ends and waiting:
                yield self._line(waiting)
                waiting = []
            if not stripped or _RULE.match(stripped):
                continue
            stop = begins + len(stripped)
            if heading:
                kind: Kind = "heading" if titled or heading[1] != "#" else "title"
                titled = True
                yield self._heading(kind, begins + heading.start(2), stop)
            elif stripped[0] == ">":
                yield from self._cue(begins, stop)
            else:
                waiting.append((begins + (item.end() if item else 0), stop))
        if waiting:
            yield self._line(waiting)

    def _lines(self) -> Iterator[tuple[int, int]]:
        for start, after in zip(self.starts, [*self.starts[1:], len(self.text) + 1], strict=True):
            yield start, after - 1

    def _heading(self, kind: Kind, start: int, end: int) -> Block:
        written = self.text[start:end].rstrip("# \t")
        return self._block(kind, start, start + len(_TIMES.sub("", written)))

    def _line(self, parts: list[tuple[int, int]]) -> Block:
        return self._block("line", parts[0][0], parts[-1][1])

    def _cue(self, start: int, end: int) -> Iterator[Block]:
        """A chart by its id, a sponsor's slot with its time, or any other note."""
        marked = self.text[start:end]
        start += len(marked) - len(marked.lstrip("> \t"))
        if start >= end:
            return
        cue = _CUE.match(self.text[start:end])
        if cue is None:
            yield self._block("note", start, end)
            return
        start, text, seconds = start + cue.start(2), cue[2], 0
        kind: Kind = "chart" if cue[1].lower() == "chart" else "sponsor"
        if kind == "sponsor" and (time := _SECONDS.search(text)):
            minutes, rest, alone = time.groups()
            seconds = int(alone) if alone else 60 * int(minutes) + int(rest)
            end = start + len(text[: time.start()].rstrip())
        yield self._block(kind, start, end, seconds)

    def _block(self, kind: Kind, start: int, end: int, seconds: int = 0) -> Block:
        found = list(self._pieces(start, end))
        marked = _marked([piece for piece, _ in found])
        joined = list(_joined(zip(marked, (line for _, line in found), strict=True)))
        pieces, lines = tuple(piece for piece, _ in joined), tuple(line for _, line in joined)
        return Block(kind, self._place(start)[0], pieces, seconds, lines)

    def _pieces(self, start: int, end: int) -> Iterator[tuple[str | Slot, int]]:
        """Texts as they are written, slots, and marks of emphasis as texts; each with its line."""
        for token in _TOKEN.finditer(self.text, start, end):
            written = token[0]
            if written in ("{{", "}}"):
                other = "is not closed by '}}'" if written == "{{" else "has no '{{' before it"
                self._wrong(token.start(), f"'{written}' {other}; {SLOT}")
            elif written.startswith("{{"):
                slot = self._slot(token.start(), written[2:-2])
                yield slot, slot.line
            else:
                for part in _WRITTEN.finditer(written):
                    yield part[0], self._place(token.start() + part.start())[0]

    def _slot(self, at: int, inside: str) -> Slot:
        fact, bar, form = (part.strip() for part in inside.partition("|"))
        if not fact or (bar and not form) or "|" in form:
            self._wrong(at, f"'{{{{{_short(inside)}}}}}' is no slot; {SLOT}")
        return Slot(fact, form or "said", *self._place(at))

    def _place(self, at: int) -> tuple[int, int]:
        """Line and column from one."""
        line = bisect_right(self.starts, at)
        return line, at - self.starts[line - 1] + 1

    def _wrong(self, at: int, message: str) -> None:
        if len(self.problems) < OF_ONE_KIND:  # more of them are told of by nobody
            self.problems.append(Problem(self.file, message, *self._place(at)))


def _short(inside: str) -> str:
    words = " ".join(inside.split())
    return words if len(words) <= 40 else f"{words[:40]}..."


def _marked(pieces: list[str | Slot]) -> Iterator[Piece]:
    """Pairs of one or two asterisks around words as emphasis; one without its fellow stays."""
    opened: dict[int, int] = {}
    waiting: dict[str, int] = {}
    for at, piece in enumerate(pieces):
        if not isinstance(piece, str) or piece not in ("*", "**"):
            continue
        if piece in waiting and not _spaced(pieces, at - 1, -1):
            opened[waiting.pop(piece)] = at
        elif not _spaced(pieces, at + 1, 0):
            waiting[piece] = at
    closed = set(opened.values())
    for at, piece in enumerate(pieces):
        yield Mark(at in opened) if at in opened or at in closed else piece


def _spaced(pieces: list[str | Slot], at: int, end: int) -> bool:
    """Whether there is a space, or nothing, on that side of a mark."""
    piece = pieces[at] if 0 <= at < len(pieces) else " "
    return isinstance(piece, str) and piece[end].isspace()


def _joined(pieces: Iterable[tuple[Piece, int]]) -> Iterator[tuple[Piece, int]]:
    """Texts of a line that stand beside each other as one, without escapes; each with its line."""
    written, begins = "", 0
    for piece, line in pieces:
        is_text = isinstance(piece, str)
        if written and not (is_text and line == begins):
            yield _text(written), begins
            written = ""
        if isinstance(piece, str):
            written, begins = written + piece, line
        else:
            yield piece, line
    if written:
        yield _text(written), begins


def _text(written: str) -> str:
    return plain(_BETWEEN.sub(" ", written))

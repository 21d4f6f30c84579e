"""Scripts as they are said: the kept one with its numbers filled in, or plain text, in sentences.

Headings, cues and notes are not said; a heading is kept with what stands under it.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence

from pipeline.contracts.facts import Fact
from pipeline.slots.filled import checked_slots
from pipeline.slots.marked_up import Block, Mark, Slot
from pipeline.transcripts.passage import Passage, Place
from pipeline.transcripts.sentence_ends import sentence_spans
from pipeline.wording.fact_forms import in_form

_NUMBERED = re.compile(r"^\d{1,2}[.)]\s+")
_BULLET = re.compile(r"^\s*(?:[-*+•]|\d{1,2}[.)])\s+")
_ENDED = re.compile(r"[.!?…:][\"'”’)\]]*$")
WRAPPED = 50  # characters: a line that is shorter, and ends without a sign, is a line of its own


def of_blocks(blocks: Sequence[Block], facts: Sequence[Fact], file: str) -> list[Passage]:
    """The sentences of a kept script. Raises UserError with each slot that can't be filled."""
    known = {fact.id: fact for fact in facts}
    checked_slots(blocks, known, file)
    found, heading, last = list[Passage](), "", 0
    for block in blocks:
        if block.kind == "heading":
            heading = _NUMBERED.sub("", _filled(block, known)[0])
        elif block.kind == "line":
            found += _of_block(block, known, heading, block.line > last + 1)
        last = max(block.line, *block.lines)
    return found


def of_text(text: str) -> list[Passage]:
    """The sentences of plain text: lines of a paragraph are one, unless they end before."""
    found: list[Passage] = []
    last = 0
    for paragraph in _paragraphs(text):
        apart, last = paragraph[0][0] > last + 1, paragraph[-1][0]
        said = " ".join(line for _, line in paragraph)
        starts, at = [], 0
        for _, line in paragraph:
            starts.append(at)
            at += len(line) + 1
        found += [
            Passage(
                said[begins:ends],
                paragraph[bisect_right(starts, begins) - 1][0],
                begins=apart and not said[:begins].strip(),
            )
            for begins, ends in sentence_spans(said)
        ]
    return found


def _paragraphs(text: str) -> Iterator[list[tuple[int, str]]]:
    """(number, text) of lines that belong together."""
    waiting: list[tuple[int, str]] = []
    for number, written in enumerate(text.splitlines(), start=1):
        line = " ".join(_BULLET.sub("", written).split())
        if waiting and (not line or _BULLET.match(written) or _is_whole(waiting[-1][1], line)):
            yield waiting
            waiting = []
        if line:
            waiting.append((number, line))
    if waiting:
        yield waiting


def _is_whole(line: str, following: str) -> bool:
    """Whether a line ends where it ends: it has a sign, or is short and a capital follows."""
    return bool(_ENDED.search(line)) or (len(line) < WRAPPED and following[:1].isupper())


def _of_block(
    block: Block, known: Mapping[str, Fact], heading: str, apart: bool
) -> Iterator[Passage]:
    """`apart` where a blank line stands before it."""
    text, slots, turns = _filled(block, known)
    starts = [at for at, _ in turns]
    for begins, ends in sentence_spans(text):
        own = tuple(
            Place(slot.begins - begins, slot.ends - begins, slot.fact)
            for slot in slots
            if begins <= slot.begins and slot.ends <= ends
        )
        line = turns[bisect_right(starts, begins) - 1][1]
        first = apart and not text[:begins].strip()
        yield Passage(text[begins:ends], line, heading=heading, slots=own, begins=first)


def _filled(
    block: Block, known: Mapping[str, Fact]
) -> tuple[str, list[Place], list[tuple[int, int]]]:
    """The text, the numbers out of slots, and (character, line) where each piece begins."""
    text, slots, turns = "", list[Place](), list[tuple[int, int]]()
    for piece, line in zip(block.pieces, block.lines, strict=True):
        if isinstance(piece, Mark):
            continue
        turns.append((len(text), line))
        if isinstance(piece, Slot):
            said = in_form(known[piece.fact], piece.form) or ""
            slots.append(Place(len(text), len(text) + len(said), piece.fact))
            text += said
        else:
            text += piece
    return text, slots, turns

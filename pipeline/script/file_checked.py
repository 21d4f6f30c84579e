"""A script or captions held against the facts of a topic, whole: for stage and command."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

from msgspec import structs

from pipeline.contracts.facts import Fact
from pipeline.contracts.script_check import NumberChecked, ScriptCheck, SentenceChecked
from pipeline.hashes import file_hash
from pipeline.transcripts.passage import Passage
from pipeline.transcripts.read_in import has_times, passages_of

Judge = Callable[[Sequence[Passage]], list[SentenceChecked]]
UNDECIDED = ("unsupported", "for a person")


class FileChecked(NamedTuple):
    """What the check says, and the sentences as they were read; one of each."""

    check: ScriptCheck
    passages: list[Passage]


def file_checked(path: Path, topic: str, facts: Sequence[Fact], judge: Judge) -> FileChecked:
    """The check of one file. Raises UserError when it can't be read, with its line."""
    passages = passages_of(path, facts)
    by_id = {fact.id: fact for fact in facts}
    judged = zip(judge(passages), passages, strict=True)
    check = ScriptCheck(
        topic=topic,
        file=path.as_posix(),
        sha256=file_hash(path),
        captions=has_times(path),
        sentences=[_with_slots(sentence, passage, by_id) for sentence, passage in judged],
    )
    return FileChecked(check, passages)


def _with_slots(
    sentence: SentenceChecked, passage: Passage, facts: dict[str, Fact]
) -> SentenceChecked:
    """A number out of a slot is its fact's, even where the words around it name no subject."""
    if not passage.slots:
        return sentence
    found = [_of_slot(number, passage, facts) for number in sentence.numbers]
    return structs.replace(sentence, numbers=found)


def _of_slot(number: NumberChecked, passage: Passage, facts: dict[str, Fact]) -> NumberChecked:
    if number.result not in UNDECIDED:
        return number
    for slot in passage.slots:
        if slot.begins < number.ends and number.begins < slot.ends:
            fact = facts[slot.fact]
            return structs.replace(
                number,
                result="supported",
                fact=fact.id,
                verdict=fact.verdict,
                right=None,
                why="filled from the fact",
                risk=0,
            )
    return number

"""A script or captions held against the facts of a topic, whole: for stage and command."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

from msgspec import structs

from pipeline.contracts.facts import Fact
from pipeline.contracts.script_check import NumberChecked, ScriptCheck, SentenceChecked
from pipeline.hashes import file_hash
from pipeline.said.targets import units_of_fact
from pipeline.said.tokens import tokens_of
from pipeline.said.units import unit_after
from pipeline.said.why import RISK
from pipeline.transcripts.passage import Passage
from pipeline.transcripts.read_in import has_times, passages_of

Judge = Callable[[Sequence[Passage]], list[SentenceChecked]]
AS_SAID = ("supported", "not a statistic")


class FileChecked(NamedTuple):
    """What the check says, and the sentences as they were read; one of each."""

    check: ScriptCheck
    passages: list[Passage]


def file_checked(path: Path, topic: str, facts: Sequence[Fact], judge: Judge) -> FileChecked:
    """The check of one file. Raises UserError when it can't be read, with its line."""
    passages = passages_of(path, facts)
    check = ScriptCheck(
        topic=topic,
        file=path.as_posix(),
        sha256=file_hash(path),
        captions=has_times(path),
        sentences=with_slots(judge(passages), passages, facts),
    )
    return FileChecked(check, passages)


def with_slots(
    judged: Sequence[SentenceChecked], passages: Sequence[Passage], facts: Sequence[Fact]
) -> list[SentenceChecked]:
    """A number out of a slot is its fact's, whatever the words around it name.

    Only what they say of its own way and its own unit is still flagged: 'up by' of what fell,
    'percentage points' after what is counted in per cent.
    """
    by_id = {fact.id: fact for fact in facts}
    return [
        structs.replace(one, numbers=[_of_slot(number, passage, by_id) for number in one.numbers])
        for one, passage in zip(judged, passages, strict=True)
    ]


def _of_slot(number: NumberChecked, passage: Passage, facts: dict[str, Fact]) -> NumberChecked:
    for slot in passage.slots:
        if slot.begins < number.ends and number.begins < slot.ends:
            fact = facts[slot.fact]
            if unit := _other_unit(passage.text[slot.ends :], fact):
                return structs.replace(
                    number,
                    result="wrong unit",
                    fact=fact.id,
                    verdict=fact.verdict,
                    right=fact.spoken,
                    why=f"Filled from the fact, which is {fact.spoken}; “{unit}” is another unit.",
                    risk=RISK["wrong unit"],
                )
            of_it = number.result == "wrong direction" and number.fact == slot.fact
            if of_it or number.result in AS_SAID:
                return number
            return structs.replace(
                number,
                result="supported",
                fact=fact.id,
                verdict=fact.verdict,
                right=None,
                edition=None,
                why="filled from the fact",
                risk=0,
            )
    return number


def _other_unit(after: str, fact: Fact) -> str:
    """The unit that is typed right after a slot, where the fact is counted in another."""
    tokens = tokens_of(after)
    unit = unit_after(tokens, 0)
    if unit is None or unit.name in units_of_fact(fact):
        return ""
    return after[tokens[0].begins : tokens[unit.last - 1].ends]

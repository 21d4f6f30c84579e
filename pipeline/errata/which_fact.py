"""Which topic and which facts an id means: of what is built now, or of an archived edition."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from pipeline.asked_fact import topic_of
from pipeline.contracts.facts import Fact
from pipeline.editions.reading import MAKE, VERIFY, read_facts
from pipeline.editions.store import editions
from pipeline.errors import Problem, UserError


def asked_for(name: str, topic: str | None, output: Path) -> tuple[str, list[str]]:
    """(topic, ids of facts) of a fact's id, or of a finding's, which means all its facts.

    Raises UserError when nothing is built, or when no topic, or more than one, has it.
    """
    archive = output / "archive"
    topics = {path.parent.name for path in output.glob("*/facts.json")}
    topics |= {path.name for path in archive.glob("*") if editions(path)}
    chosen = sorted(topics & {topic} if topic else topics)
    if not chosen:
        what = f"topic '{topic}'" if topic else "topic"
        message = f"no built or archived {what} here; run make brief first"
        raise UserError(Problem(str(output), message))
    having, found = topic_of(name, {each: _each_once(output, each) for each in chosen})
    return having, [fact.id for fact in found]


def _each_once(output: Path, topic: str) -> list[Fact]:
    """The topic's facts, those of the newest brief first; of each id as the newest has it."""
    found: dict[str, Fact] = {}
    for fact in _facts(output, topic):
        found.setdefault(fact.id, fact)
    return list(found.values())


def _facts(output: Path, topic: str) -> Iterator[Fact]:
    """The facts as built now, then those of the editions, the newest first."""
    built = output / topic / "facts.json"
    if built.is_file():
        yield from read_facts(built.parent, MAKE)
    folder = output / "archive" / topic
    for number in reversed(editions(folder)):
        yield from read_facts(folder / str(number) / "data", VERIFY)

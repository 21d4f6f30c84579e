"""What is said that the data do not hold: background with its sources, facts of old episodes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from pipeline.asked_fact import chief, no_fact
from pipeline.contracts.editions import Citation
from pipeline.contracts.facts import Fact
from pipeline.editions.reading import VERIFY, read_facts
from pipeline.editions.store import editions, read_edition
from pipeline.errors import Problem, UserError
from pipeline.topic_places import dotted

if TYPE_CHECKING:
    from pipeline.config.topic import Background, Cited

NEEDS_SOURCE, NOT_CHECKED = "needs a source", "not yet checked"


@dataclass(frozen=True)
class Statement:
    """A sentence of the background, where it stands, what it lacks, who checked it and when."""

    say: str
    source: str | None
    mark: str | None
    checked: str


def background(statements: Sequence[Background]) -> list[Statement]:
    """Each statement with where it stands and who checked it; what lacks either is marked."""
    return [Statement(item.say, item.source, _mark(item), _checked_by(item)) for item in statements]


def _mark(item: Background) -> str | None:
    if not item.source:
        return NEEDS_SOURCE
    return None if item.checked else NOT_CHECKED


def _checked_by(item: Background) -> str:
    if not item.checked:
        return ""
    return f"checked {item.checked.isoformat()}" + (f" by {item.by}" if item.by else "")


def caution(statements: Sequence[Background]) -> list[str]:
    """A line for the top sheet, when something is said without a source."""
    count = sum(not item.source for item in statements)
    if not count:
        return []
    noun = "background statement needs" if count == 1 else "background statements need"
    return [f"{count} {noun} a source before it is said on air."]


def citations(see_also: Sequence[Cited], archive: Path, file: str) -> list[Citation]:
    """Facts of archived editions with edition and date, and what a later edition says instead.

    `archive` holds `<topic>/<edition>/data/facts.json` and `edition.json`. Raises UserError for an
    edition or a fact that is not there.
    """
    places = [dotted(("see_also", at, "fact")) for at in range(len(see_also))]
    found = [
        _citation(item, archive, file, where) for item, where in zip(see_also, places, strict=True)
    ]
    problems = [each for each in found if isinstance(each, Problem)]
    if problems:
        raise UserError(problems)
    return [each for each in found if isinstance(each, Citation)]


def _citation(item: Cited, archive: Path, file: str, where: str) -> Citation | Problem:
    """The fact, or what there is instead of its edition or of it."""
    place, _, name = item.fact.partition(":")
    topic, _, number = place.partition("/")
    if int(number) not in (there := editions(archive / topic)):
        named = ", ".join(f"{topic}/{each}" for each in there) or "none"
        message = f"no archived edition '{place}' (there: {named})"
        return Problem(file, message, where=where)
    facts, day = _edition(archive / topic / number)
    fact = chief(name, facts)
    if fact is None:
        message = f"edition {place} has no fact '{name}'{no_fact(name, [facts])}"
        return Problem(file, message, where=where)
    return Citation(
        say=item.say,
        fact=item.fact,
        display=fact.display,
        spoken=fact.spoken,
        edition=f"{topic}, edition {number}, {day}",
        later=_later(archive / topic, int(number), fact),
    )


def _edition(folder: Path) -> tuple[list[Fact], date]:
    """Its facts, and its date."""
    return read_facts(folder / "data", VERIFY), read_edition(folder).date


def _later(folder: Path, edition: int, fact: Fact) -> str | None:
    """What the newest edition says, if it is a later one and says something else."""
    newest = editions(folder)[-1]
    if newest == edition:
        return None
    facts, day = _edition(folder / str(newest))
    later = next((each.display for each in facts if each.id == fact.id), None)
    if later is None:
        return f"edition {newest} ({day}) no longer has it"
    return f"edition {newest} ({day}) says {later}" if later != fact.display else None

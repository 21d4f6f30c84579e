"""Facts, corrections and editions as tests need them, what does not matter filled in."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any

from pipeline.contracts.editions import Edition
from pipeline.contracts.facts import Fact, Facts
from pipeline.contracts.files import as_json
from pipeline.contracts.selection import Fix
from pipeline.editions.reading import MAKE, read_facts


def fact(identity: str, display: str, **more: Any) -> Fact:
    said = {"spoken": f"about {display}", "unit": "runs an over", "value": 1.0, "verdict": "held"}
    return Fact(**{"id": identity, "display": display, **said, **more})


def fix(**more: Any) -> Fix:
    made: dict[str, Any] = {
        **{"level": "innings", "place": {"match": "m1", "innings": "1"}, "field": "runs_batter"},
        **{"old": "1", "new": "4", "reason": "A four, scored as a single", "source": "Scorebook"},
        **{"by": "R", "date": date(2026, 11, 25)},
    }
    return Fix(**{**made, **more})


def facts_of(built: Path, topic: str) -> dict[str, Fact]:
    """By id, of a topic that is built."""
    return {fact.id: fact for fact in read_facts(built / "output" / topic, MAKE)}


def write_facts(folder: Path, facts: Iterable[Fact]) -> None:
    (folder / "facts.json").write_text(as_json(Facts(facts=list(facts))), "utf-8")


def edition(**more: Any) -> Edition:
    made: dict[str, Any] = {
        **{"topic": "rope", "title": "The rope", "question": "Is it the rope?", "edition": 1},
        **{"publisher": "Us", "date": date(2026, 11, 25), "fingerprint": "0" * 8},
        **{"content": "", "code": "", "commit": None, "software": {}, "rebuild": "", "sources": []},
    }
    return Edition(**{**made, **more})


def archive_facts(archive: Path, about: Edition, *facts: Fact) -> Path:
    """An edition's folder with no more of it than what it is and its facts."""
    folder = archive / about.topic / str(about.edition)
    (folder / "data").mkdir(parents=True)
    (folder / "data" / "edition.json").write_text(as_json(about), "utf-8")
    write_facts(folder / "data", facts)
    return folder

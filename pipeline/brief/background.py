"""What is said that the data do not hold: background with its sources, facts of old episodes."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pipeline.editions.store import editions
from pipeline.errors import Problem, UserError, did_you_mean

View = dict[str, Any]
NEEDS_SOURCE, NOT_CHECKED = "needs a source", "not yet checked"


def background(statements: list[View]) -> list[View]:
    """Each statement with where it stands and who checked it; what lacks either is marked."""
    return [
        {"say": item["say"], "source": item["source"], "mark": _mark(item), "checked": _who(item)}
        for item in statements
    ]


def _mark(item: View) -> str | None:
    if not item["source"]:
        return NEEDS_SOURCE
    return None if item["checked"] else NOT_CHECKED


def _who(item: View) -> str:
    if not item["checked"]:
        return ""
    return f"checked {item['checked']}" + (f" by {item['by']}" if item["by"] else "")


def caution(statements: list[View]) -> list[str]:
    """A line for the top sheet, when something is said without a source."""
    count = sum(not item["source"] for item in statements)
    if not count:
        return []
    noun = "background statement needs" if count == 1 else "background statements need"
    return [f"{count} {noun} a source before it is said on air."]


def cited(see_also: list[View], archive: Path, file: str) -> list[View]:
    """Facts of archived editions with edition and date, and what a later edition says instead.

    `archive` holds `<topic>/<edition>/data/facts.json` and `edition.json`. Raises UserError for an
    edition or a fact that is not there.
    """
    found, problems = [], []
    for item in see_also:
        place, _, name = item["fact"].partition(":")
        topic, _, edition = place.partition("/")
        try:
            facts, about = _edition(archive / topic / edition)
        except (OSError, ValueError):
            there = editions(archive / topic)
            named = ", ".join(f"{topic}/{number}" for number in there) or "none"
            message = f"no archived edition '{place}' (there: {named})"
            problems.append(Problem(file, message, where="see_also"))
            continue
        if name not in facts:
            message = f"edition {place} has no fact '{name}'{did_you_mean(name, facts)}"
            problems.append(Problem(file, message, where="see_also"))
            continue
        fact = facts[name]
        found.append(
            {
                "say": item["say"],
                "fact": item["fact"],
                "display": fact["display"],
                "spoken": fact["spoken"],
                "edition": f"{topic}, edition {edition}, {about['date']}",
                "later": _later(archive / topic, int(edition), name, fact),
            }
        )
    if problems:
        raise UserError(problems)
    return found


def _edition(folder: Path) -> tuple[dict[str, View], View]:
    facts = json.loads((folder / "data" / "facts.json").read_text("utf-8"))
    about = json.loads((folder / "data" / "edition.json").read_text("utf-8"))
    return {fact["id"]: fact for fact in facts}, about


def _later(folder: Path, edition: int, name: str, fact: View) -> str | None:
    """What the newest later edition says, if that is something else."""
    for number in reversed([n for n in editions(folder) if n > edition]):
        facts, about = _edition(folder / str(number))
        if name not in facts:
            return f"edition {number} ({about['date']}) no longer has it"
        if facts[name]["display"] != fact["display"]:
            return f"edition {number} ({about['date']}) says {facts[name]['display']}"
        return None
    return None

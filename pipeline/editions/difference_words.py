"""What differs, in words: causes, and moved numbers as was and is; for a terminal and a page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.text import capitalised
from pipeline.wording import labels, numbers

View = dict[str, Any]
MOST = 12  # of a kind of cause, written out; the rest are counted
LONGEST = 60  # signs of a setting's value
NOTHING = "Nothing on record explains it: data, corrections, settings and code are the same."


def causes(found: View) -> list[str]:
    """Sentences on what both were made of; any of it may be behind what moved."""
    cause = found["causes"]
    said = []
    if cause["data"]:
        said.append(f"The topic’s data differ: {' then '.join(cause['data'])}.")
    for word in ("new", "withdrawn"):
        fixes = [f"{word} correction: {fix_said(fix)}." for fix in cause["corrections"][word]]
        said += _first(fixes, f"{word} correction")
    settings = [
        f"setting {item['where']}: was {_short(item['was'])}, is {_short(item['is'])}."
        for item in cause["settings"]
    ]
    said += _first(settings, "setting")
    if cause["code"]:
        said.append("The program’s code or its libraries differ.")
    return said or [NOTHING]


def _first(lines: list[str], noun: str) -> list[str]:
    """The first of many, and how many more there are."""
    more = len(lines) - MOST
    kept = [capitalised(line) for line in lines[:MOST]]
    return kept + ([f"And {numbers.counted(more, f'more {noun}')}."] if more > 0 else [])


def fix_said(fix: View) -> str:
    """A correction in one line: where, from what to what, why."""
    where = ", ".join(f"{name} {value}" for name, value in fix["place"].items())
    change = f"{labels.field_label(fix['field'])} was {fix['old'] or 'blank'}"
    return f"{where}: {change}, is {fix['new'] or 'blank'} ({fix['reason']}; {fix['source']})"


def _short(value: Any) -> str:
    if value is None:
        return "not set"
    text = str(value)
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 1]}…"


def shown(facts: list[View]) -> Iterator[tuple[str, str, str]]:
    """(id, was, is) of every fact that is new, gone, or shown, said or called otherwise."""
    for fact in facts:
        was, now = (_side(fact[side], fact["what"]) for side in ("old", "new"))
        if was != now:
            yield fact["id"], was, now


def _side(side: View | None, what: list[str]) -> str:
    """A number with what else of it moved: '−7.4%, changed'."""
    if side is None:
        return "–"
    parts = [side["display"]]
    parts += [f"“{side['spoken']}”"] if "spoken" in what and "display" not in what else []
    parts += [side["verdict"] or "no verdict"] if "verdict" in what else []
    return ", ".join(parts)

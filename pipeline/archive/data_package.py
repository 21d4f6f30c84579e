"""The CSV tables of an edition as a Data Package 2.0: what each column is, so that software can."""

from __future__ import annotations

import csv
import re
from pathlib import Path
from typing import Any

from pipeline.archive.bag import digests
from pipeline.contracts.editions import Credit, Edition
from pipeline.contracts.facts import Summary
from pipeline.text import capitalised
from pipeline.topic_files import TABLES, WHAT

Described = dict[str, Any]  # by the names of the profile
PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json"
TEXT = (
    *("id", "unit", "display", "spoken", "interval", "finding", "beat", "measure", "definition"),
    *(
        "arithmetic",
        "query",
        "verdict",
        "second",
        "unit_said",
        "period",
        "cell",
        "kind",
        "what",
        "refused",
    ),
)
DAYS = ("first", "last")
KNOWN = {
    "kind": "which other way of asking a headline",
    "what": "what that way is of: a window, what is left out, a match, what is held still",
    "same": "whether it comes out as the headline does",
    "refused": "why there is no number",
    "id": "the fact's id, as in the brief's index",
    "value": "the value, unrounded, in the unit of its row or measure",
    "low": "lower end of the value's interval",
    "high": "upper end of the value's interval",
    "level": "confidence of the interval: of the value, or of difference and change",
    "unit": "what the value is counted in",
    "display": "the value as printed in the brief",
    "spoken": "the value as said aloud",
    "interval": "the interval as printed in the brief",
    "scale": "what a line multiplies the value and its ends by",
    "digits": "digits after the point that a line says the value with",
    "unit_said": "what follows the number in a line",
    "finding": "id of the comparison in findings.json",
    "beat": "part of the episode that the row is of",
    "measure": "the measure's name in config/measures.yaml",
    "definition": "the measure, or what was counted, in plain words",
    "arithmetic": "how the value comes from the numbers behind it",
    "query": "the beat whose query in findings.json it rests on",
    "headline": "whether it is one of the topic's headline numbers",
    "verdict": "changed, held, or can't tell; empty where nothing was compared",
    "second": "the verdicts against the drift and the control, where there are any",
    "period": "season as the match files name it, or the year, quarter or month",
    "first": "day of the first match behind the value",
    "last": "day of the last match behind the value",
    "part": "whether it is of part of a period, too short an end to be held against the others",
    "cell": "part of the balls that the row is of; 'all' for all of the beat's",
    "matches": "matches behind the value",
    "balls": "valid balls behind the value (balls faced, or decided matches, for such measures)",
    "difference": "second side less first, in units of the measure",
    "change": "second side against first, as a part of the first: 0.05 is 5 per cent more",
    "shrunk_change": "the change with luck allowed for, as a part of the first side",
    "shrunk_moved": "whether the player's own change is told from none, with luck allowed for",
    "shrunk_apart": "whether the player is told from the mean of those of the kind",
}
ENDS = {"low": "lower", "high": "upper"}


def data_package(payload: Path, edition: Edition, summary: Summary) -> Described:
    """datapackage.json of the brief's tables and of the numbers behind each chart."""
    charts = sorted((payload / "charts").glob("*.csv"))
    tables = [(payload / name, capitalised(WHAT[name])) for name in TABLES]
    tables += [(path, f"The numbers drawn in the chart {path.stem}") for path in charts]
    credits = edition.sources
    return {
        "$schema": PROFILE,
        "name": edition.topic,
        "id": edition.name,
        "title": edition.title,
        "description": summary.question,
        "version": str(edition.edition),
        "licenses": [
            {"path": "README.md", "title": licence}
            for licence in dict.fromkeys(source.licence for source in credits)
        ],
        "sources": [
            {"title": source.credit, **({"path": source.url} if _is_web(source) else {})}
            for source in credits
        ],
        "resources": [_resource(payload, path, title) for path, title in tables],
    }


def _is_web(source: Credit) -> bool:
    return bool(re.match(r"https?://", source.url or ""))


def _resource(payload: Path, path: Path, title: str) -> Described:
    size, sums = digests(path)
    return {
        "name": re.sub(r"[^a-z0-9._-]", "-", path.stem.lower()),
        "type": "table",
        "path": path.relative_to(payload).as_posix(),
        "title": title,
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": size,
        "hash": f"sha256:{sums['sha256']}",
        "schema": {"fields": _fields(path), "missingValues": [""]},
    }


def _fields(path: Path) -> list[Described]:
    """Each column with the narrowest type that all its cells have."""
    with path.open(encoding="utf-8", newline="") as file:
        header, *rows = csv.reader(file)
    columns = [{row[at] for row in rows} - {""} for at in range(len(header))]
    return [
        {"name": name, "type": _type(name, cells), "description": _description(name)}
        for name, cells in zip(header, columns, strict=True)
    ]


def _type(name: str, cells: set[str]) -> str:
    """A label or an id may look like a number; it is text all the same."""
    if name in TEXT:
        return "string"
    if not cells:
        return "any"
    if name in DAYS:
        return "date"
    if cells <= {"True", "False"}:
        return "boolean"
    if name.endswith(("matches", "balls")) and all(re.fullmatch(r"\d+", c) for c in cells):
        return "integer"
    return "number" if all(_is_number(cell) for cell in cells) else "string"


def _is_number(cell: str) -> bool:
    return re.fullmatch(r"-?\d+(\.\d+)?([eE][+-]?\d+)?", cell) is not None


def _description(name: str) -> str:
    """'before_low': the lower end of a side's interval; sides are named by what they are."""
    if name in KNOWN:
        return KNOWN[name]
    stem, _, last = name.rpartition("_")
    if last in ENDS and stem in ("difference", "change"):
        return f"{ENDS[last]} end of the interval of {stem}, of the confidence in level"
    if last in ENDS and stem == "shrunk":
        return f"{ENDS[last]} end of the 95 % interval of {stem}"
    return f"{stem}: {KNOWN.get(last, 'as drawn')}"

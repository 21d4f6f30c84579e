"""What is compared: an edition, or a brief that is built now, in the same shape."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any, NamedTuple

from pipeline.contracts.facts import Charts, charts_of_format_0
from pipeline.contracts.files import read_json
from pipeline.editions.store import read_about
from pipeline.errors import Problem, UserError
from pipeline.hashes import file_hash
from pipeline.provenance import code_hash

View = dict[str, Any]
DRAWN = (".csv", ".svg")
_BEAT = re.compile(r"## \d+\. (.+) \([\d:]+\)")


class Side(NamedTuple):
    """One of the two: its name and all that it says and was made of.

    `settings` is what its stages saw of the configuration, by stage; `charts` has, by chart, the
    checksums of its numbers and of its drawing; `lines` the lines to say, by beat.
    """

    name: str
    topic: str
    facts: list[View]
    lines: dict[str, list[str]]
    charts: dict[str, dict[str, str]]
    settings: View
    corrections: list[View]
    fingerprint: str
    code: str


def edition_side(folder: Path) -> Side:
    """An archived edition. Raises UserError when it is none, or lacks what is compared."""
    data = folder / "data"
    about = read_about(folder)
    try:
        return Side(
            f"edition {about['edition']} of {about['topic']} ({about['date']})",
            about["topic"],
            read(data / "facts.json"),
            lines_of(text(data / "talking-points.md")),
            charts_of(data / "charts"),
            read(data / "config" / "merged.json"),
            read(data / "corrections.json"),
            about["fingerprint"],
            about["code"],
        )
    except (KeyError, TypeError, OSError):
        message = "not what an edition holds; run python -m pipeline verify on it"
        raise UserError(Problem(str(folder), message)) from None


def built_side(topic: str, out: Path, settings: View) -> Side:
    """What is in the topic's folder of outputs now; `settings` as its stages see them."""
    findings = read(out / "findings.json")
    return side_of(
        topic,
        findings,
        read(out / "facts.json"),
        text(out / "talking-points.md"),
        out / "charts",
        settings,
    )


def side_of(
    topic: str, findings: View, facts: list[View], points: str, charts: Path, settings: View
) -> Side:
    """A brief as it is being made."""
    return Side(
        f"{topic} as it is built now",
        topic,
        facts,
        lines_of(points),
        charts_of(charts),
        settings,
        findings["corrections"],
        findings["fingerprint"],
        code_hash(),
    )


def lines_of(points: str) -> dict[str, list[str]]:
    """The talking points' lines by beat, and the answer in one breath under its own name."""
    found: dict[str, list[str]] = {"The answer": []}
    beat = "The answer"
    for line in points.splitlines()[3:]:  # after the title and the question
        title = _BEAT.fullmatch(line)
        if title:
            beat = title[1]
            found[beat] = []
        elif line.startswith("## "):
            break  # background is the topic's own words
        elif beat == "The answer" and line:
            found[beat].append(line)
        elif line.startswith("- "):
            found[beat].append(line.removeprefix("- "))
    return found


def charts_of(folder: Path) -> dict[str, dict[str, str]]:
    path = folder / "charts.json"
    made = read_json(path, Charts, _what(path), charts_of_format_0).charts
    return {
        chart.chart: {ending: file_hash(folder / f"{chart.chart}{ending}") for ending in DRAWN}
        for chart in made
    }


def read(path: Path) -> Any:
    """A JSON file of one of the two. Raises UserError with what was expected."""
    try:
        return json.loads(text(path))
    except ValueError as error:
        raise UserError(Problem(str(path), f"not readable JSON ({error}); {_what(path)}")) from None


def text(path: Path) -> str:
    try:
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        raise UserError(Problem(str(path), f"can't be read; {_what(path)}")) from None


def _what(path: Path) -> str:
    if "data" in path.parts:
        return "run python -m pipeline verify on the edition"
    return "run make brief"

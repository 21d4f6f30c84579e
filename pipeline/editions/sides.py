"""What is compared: an edition, or a brief that is built now, in the same shape."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

from msgspec import structs

from pipeline.contracts.editions import Merged, Settings
from pipeline.contracts.facts import Fact
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fix
from pipeline.editions.reading import (
    MAKE,
    VERIFY,
    read_charts,
    read_earlier,
    read_facts,
    read_fixes,
    read_settings,
    read_text,
)
from pipeline.editions.store import read_edition
from pipeline.errors import Problem, UserError
from pipeline.hashes import file_hash
from pipeline.markdown import plain
from pipeline.provenance import code_hash

_BEAT = re.compile(r"## \d+\. (.+) \([\d:]+\)")
ANSWER = "The answer"
CAREFUL = "Careful: "  # what the talking points put before cautions


class ChartSums(NamedTuple):
    """Checksums of a chart's numbers and of its drawing."""

    numbers: str
    drawing: str


class Side(NamedTuple):
    """One of the two: its name and all that it says and was made of.

    `earlier` are the looks of earlier builds that its headlines are counted with; `settings` is
    what its stages saw of the configuration, by stage; `lines` the lines to say, by beat.
    """

    name: str
    topic: str
    facts: list[Fact]
    lines: dict[str, list[str]]
    charts: dict[str, ChartSums]
    settings: Settings
    corrections: list[Fix]
    fingerprint: str
    code: str
    earlier: int = 0


def edition_side(folder: Path) -> Side:
    """An archived edition. Raises UserError when it is none, or lacks what is compared."""
    data = folder / "data"
    edition = read_edition(folder)
    return Side(
        f"edition {edition.edition} of {edition.topic} ({edition.date})",
        edition.topic,
        read_facts(data, VERIFY),
        lines_of(read_text(data / "talking-points.md", VERIFY)),
        chart_sums(data, VERIFY),
        by_stage(read_settings(data, VERIFY)),
        read_fixes(data, VERIFY),
        edition.fingerprint,
        edition.code,
        read_earlier(data, VERIFY),
    )


def built_side(topic: str, out: Path, settings: Merged) -> Side:
    """What is in the topic's folder of outputs now; `settings` as its stages see them."""
    return side_of(
        topic,
        read_json(out / "findings.json", Findings, MAKE),
        read_facts(out, MAKE),
        read_text(out / "talking-points.md", MAKE),
        out,
        by_stage(settings),
    )


def side_of(
    topic: str, findings: Findings, facts: list[Fact], points: str, out: Path, settings: Settings
) -> Side:
    """A brief as it is being made; its charts are in `out` already."""
    return Side(
        f"{topic} as it is built now",
        topic,
        facts,
        lines_of(points),
        chart_sums(out, MAKE),
        settings,
        findings.corrections,
        findings.fingerprint,
        code_hash(),
        findings.family.earlier,
    )


def by_stage(settings: Merged) -> Settings:
    return structs.asdict(settings)


def lines_of(points: str) -> dict[str, list[str]]:
    """The talking points' lines by beat, and the answer in one breath under its own name."""
    found: dict[str, list[str]] = {ANSWER: []}
    beat = ANSWER
    for line in points.splitlines()[3:]:  # after the title and the question
        title = _BEAT.fullmatch(line)
        if title:
            beat = plain(title[1])
            found.setdefault(beat, [])  # beats without titles of their own may share one
        elif line.startswith("## "):
            break  # background is the topic's own words
        elif beat == ANSWER and line and not line.startswith(CAREFUL):
            found[beat].append(plain(line))
        elif line.startswith("- "):
            found[beat].append(plain(line.removeprefix("- ")))
    return found


def chart_sums(folder: Path, mend: str) -> dict[str, ChartSums]:
    """By chart, in the order of the beats."""
    found = {}
    for chart in read_charts(folder, mend):
        stem = folder / "charts" / chart.chart
        found[chart.chart] = ChartSums(_sum(f"{stem}.csv", mend), _sum(f"{stem}.svg", mend))
    return found


def _sum(path: str, mend: str) -> str:
    try:
        return file_hash(path)
    except OSError as error:
        raise UserError(Problem(path, f"can't be read ({error.strerror}); {mend}")) from None

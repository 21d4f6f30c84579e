"""What only the page has: what stands behind each number, and the files an editor takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, TypedDict

from pipeline.contracts.facts import ChartMade, Fact
from pipeline.contracts.findings import Findings
from pipeline.templating import data_uri
from pipeline.wording.provenance_lines import behind

if TYPE_CHECKING:
    from pipeline.config.views import BriefView

# What a frame's name ends in, and what it is called; larger ones and steps stay beside the page.
FRAMES = {
    "": "light",
    "dark": "dark",
    "clear": "transparent",
    "blind": "blind",
    "reveal": "blind, shown",
}


class Behind(TypedDict):
    """What the page's script shows behind a number: (heading, words) pairs, a query's name."""

    shown: str
    said: str
    lines: list[tuple[str, str]]
    query: str | None


class File(NamedTuple):
    """A file inside the page: what the link says, its name, its data."""

    label: str
    name: str
    href: str


@dataclass(frozen=True)
class Screen:
    """The page's own parts: `known` the facts it has, `beside` how many frames it has not."""

    behind: dict[str, Behind]
    queries: dict[str, str]
    known: set[str]
    files: dict[str, list[File]]
    beside: dict[str, int]


def on_screen(
    view: BriefView,
    findings: Findings,
    charts: Sequence[ChartMade],
    facts: Sequence[Fact],
    out: Path,
) -> Screen:
    """`out` is the topic's folder; facts are those the index lists."""
    return Screen(
        behind=_behind(view, findings, facts),
        queries=findings.queries,
        known={fact.id for fact in facts},
        files={chart.chart: list(_files(chart, out / "charts")) for chart in charts},
        beside={chart.chart: _beside(chart) for chart in charts},
    )


def _behind(view: BriefView, findings: Findings, facts: Sequence[Fact]) -> dict[str, Behind]:
    by_id = {finding.id: finding for finding in findings.findings}
    return {
        fact.id: {
            "shown": fact.display,
            "said": fact.spoken,
            "lines": list(
                behind(
                    fact,
                    by_id[fact.finding] if fact.finding else None,
                    view.measures[fact.measure] if fact.measure else None,
                )
            ),
            "query": fact.query,
        }
        for fact in facts
    }


def _files(chart: ChartMade, folder: Path) -> Iterator[File]:
    """Frames at 1920x1080 and the data."""
    name = chart.chart
    for file in chart.frames:
        if label := FRAMES.get(_ending(name, file)):
            yield File(label, file, data_uri(folder / file, "image/png"))
    yield File("vector", f"{name}.svg", data_uri(folder / f"{name}.svg", "image/svg+xml"))
    yield File("data", f"{name}.csv", data_uri(folder / f"{name}.csv", "text/csv"))


def _ending(chart: str, file: str) -> str:
    return file.removeprefix(chart).removesuffix(".png").lstrip(".")


def _beside(chart: ChartMade) -> int:
    """How many frames (4K, steps) lie in charts/ and not in the page."""
    return sum(_ending(chart.chart, file) not in FRAMES for file in chart.frames)

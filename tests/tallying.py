"""Tally a topic over tiny invented matches: its text in, its rows and its selection out."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.selection import Selection
from pipeline.metrics.tally import tally
from pipeline.tables import played
from tests.builders import cleaned, match
from tests.conftest import ROOT

HEAD = """title: A question
question: What happened?
data: {competition: Pebble Cup, format: one-day}
event: {name: the hail, date: 2020-01-01, before: 1 seasons, after: 1 seasons}
"""
DECLARED = """  {name}:
    {{label: {name}, numerator: {sums[0]}, denominator: {sums[1]}, per: 6, kind: rate,
    unit: runs an over, spoken: an over, decimals: 2, rise_favours: batting, margin: 5 %,
    defined: {name}}}
"""


def played_in(year: int, balls: list[dict], **info: Any) -> dict[str, Any]:
    """A match of the year's season, on 1 June unless `dates` are given."""
    return match(balls, **{"season": str(year), "dates": [f"{year}-06-01"], **info})


def tallied(
    folder: Path,
    matches: list[dict],
    beats: str,
    measures: dict[str, tuple[str, str]] | None = None,
    head: str = HEAD,
) -> tuple[list[dict[str, Any]], Selection]:
    """Rows and selection of a topic of these beats (YAML lines of a list).

    `measures` are declared beside the demo's: a name with its numerator and denominator.
    """
    data = cleaned(folder / "clean", only={f"m{i}.json": m for i, m in enumerate(matches, 1)})
    return tallied_of(data, folder, beats, measures, head)


def tallied_of(
    data: Path,
    folder: Path,
    beats: str,
    measures: dict[str, tuple[str, str]] | None = None,
    head: str = HEAD,
) -> tuple[list[dict[str, Any]], Selection]:
    """The same of matches that are clean already, in the folder `data`."""
    config = shutil.copytree(ROOT / "config", folder / "config")
    with (config / "measures.yaml").open("a", encoding="utf-8") as file:
        for name, sums in (measures or {}).items():
            file.write(DECLARED.format(name=name, sums=sums))
    (config / "topics" / "asked.yaml").write_text(f"{head}beats:\n{beats}\n", "utf-8")
    rows, selection = tally(views.metrics(load(config, only="asked"), "asked"), played(data), [])
    return rows.to_pylist(), selection

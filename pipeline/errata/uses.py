"""What else used a number: charts and frames, rows, printed places, later briefs that cite it."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from pipeline.asked_fact import chief
from pipeline.charts.chart import Chart
from pipeline.charts.compose import charts_of
from pipeline.charts.drawings import rows_of
from pipeline.config.like import read_topic
from pipeline.config.topic_names import FOLDER, SUFFIX
from pipeline.contracts.errata import ChartUse, CitedBy, RowUse, Wording
from pipeline.editions.reading import VERIFY, read_charts
from pipeline.editions.store import editions
from pipeline.errata.hearing import heard, places
from pipeline.errata.number import Number, OfFinding
from pipeline.errata.records import Archived, Record


def drawn(record: Record, number: Number, wordings: Sequence[Wording]) -> list[ChartUse]:
    """The charts that draw it."""
    name = f"{number.fact.beat}.{number.fact.measure}"
    chart = next((c for c in charts_of(record.view, record.findings) if c.name == name), None)
    if chart is None or not _is_drawn(chart, number):
        return []
    made = next(each for each in read_charts(record.folder, VERIFY) if each.chart == name)
    said = [(wording.old, wording.bare) for wording in wordings]
    return [
        ChartUse(
            chart=name,
            files=[*made.frames, f"{name}.svg", f"{name}.csv"],
            title=made.title,
            title_says=any(places(heard(made.title), said)),
        )
    ]


def _is_drawn(chart: Chart, number: Number) -> bool:
    """A series is drawn whole; of rows, the finding's own must be among those there is room for."""
    if chart.series is not None:
        return True
    rows = {finding.id for finding in rows_of(chart)}
    return isinstance(number, OfFinding) and number.finding.id in rows


def rows(record: Record, names: list[str]) -> list[RowUse]:
    """The facts' lines in facts.csv."""
    with (record.folder / "facts.csv").open(encoding="utf-8", newline="") as file:
        table = csv.DictReader(file)
        return [RowUse(id=row["id"], line=table.line_num) for row in table if row["id"] in names]


def printed(record: Record, number: Number) -> list[str]:
    """Where the pages print it beside the lines to say."""
    found = []
    if isinstance(number, OfFinding):
        name = number.finding.id
        found += ["card on the top sheet"] if name in record.findings.headlines else []
        expected = {item.finding for item in record.view.expected}
        found += ["what people say, on the top sheet"] if name in expected else []
        found += ["table of its beat", "index of facts"]
    elif number.fact.beat is None:
        found += ["data line of the top sheet", "index of facts"]
    return found


def citations(config: Path, archive: Path, record: Archived, names: list[str]) -> list[CitedBy]:
    """Topics and archived editions whose see_also cites one of the facts of this edition."""
    place = f"{record.view.topic}/{record.number}:"
    return [
        CitedBy(by=by, file=file, cites=item["fact"])
        for by, path in _topic_files(config, archive)
        for item, file in _cites(path)
        if str(item.get("fact")).startswith(place)
        and _cited(item["fact"].removeprefix(place), record) in names
    ]


def _cites(path: Path) -> Iterator[tuple[dict[str, Any], str]]:
    """What a topic cites, and the file where it stands: its own, or that of one that it is like.

    A mistake in it is told where that topic is made.
    """
    document = read_topic(path).document
    listed = document.tree.get("see_also")
    file = Path(document.problem(("see_also",), "").file).as_posix()
    for item in listed if isinstance(listed, list) else ():
        if isinstance(item, dict):
            yield item, file


def _cited(name: str, record: Record) -> str | None:
    """The id in full of the fact that is cited."""
    fact = chief(name, record.side.facts)
    return fact.id if fact else None


def _topic_files(config: Path, archive: Path) -> Iterator[tuple[str, Path]]:
    """(who, file) of every topic as it is now, and of every edition."""
    for path in sorted((config / FOLDER).glob(f"*{SUFFIX}")):
        yield f"topic {path.stem}", path
    for folder in sorted(archive.glob("*")):
        for number in editions(folder):
            kept = folder / str(number) / "data" / "config" / FOLDER
            for path in kept.glob(f"{folder.name}{SUFFIX}"):  # not those that it is like
                yield f"edition {number} of {folder.name}", path

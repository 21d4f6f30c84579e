"""What else used a number: charts and frames, rows, printed places, later briefs that cite it."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pipeline.charts.chart import Chart
from pipeline.charts.compose import charts_of
from pipeline.charts.drawings import rows_of
from pipeline.config.yaml_files import read_yaml
from pipeline.editions.reading import VERIFY, read_charts
from pipeline.editions.store import editions
from pipeline.errata.forms import Form
from pipeline.errata.hearing import heard, places
from pipeline.errata.versions import Record, Told

View = dict[str, Any]


def drawn(record: Record, told: Told, forms: list[Form]) -> list[View]:
    """The charts that draw it: files in charts/, the title, and whether the title says it."""
    name = f"{told.fact['beat']}.{told.fact['measure']}"
    chart = next((c for c in charts_of(record.view, record.findings) if c.name == name), None)
    if chart is None or not _is_drawn(chart, told):
        return []
    made = next(chart for chart in read_charts(record.folder, VERIFY) if chart.chart == name)
    in_title = any(places(heard(made.title), [(form.old, form.bare) for form in forms]))
    files = [*made.frames, f"{name}.svg", f"{name}.csv"]
    return [{"chart": name, "files": files, "title": made.title, "title_says": in_title}]


def _is_drawn(chart: Chart, told: Told) -> bool:
    """A series is drawn whole; of rows, the finding's own must be among those there is room for."""
    if chart.series is not None:
        return True
    return told.finding is not None and told.finding["id"] in {row.id for row in rows_of(chart)}


def rows(record: Record, names: list[str]) -> list[View]:
    """The facts' lines in facts.csv, as a spreadsheet counts them."""
    with (record.folder / "facts.csv").open(encoding="utf-8", newline="") as file:
        table = csv.DictReader(file)
        return [{"id": row["id"], "line": table.line_num} for row in table if row["id"] in names]


def printed(record: Record, told: Told) -> list[str]:
    """Where the pages print it beside the lines to say."""
    found = []
    finding = told.finding
    if finding and finding["id"] in record.findings["headlines"]:
        found.append("card on the top sheet")
    if finding and any(item["finding"] == finding["id"] for item in record.view["expected"]):
        found.append("what people say, on the top sheet")
    if finding:
        found.append("table of its beat")
    if told.fact["beat"] is None:
        found.append("data line of the top sheet")
    return [*found, "index of facts"] if finding or told.fact["beat"] is None else found


def citations(config: Path, archive: Path, cited: list[str]) -> list[View]:
    """Topics and archived editions whose see_also cites one of `cited` ('topic/edition:fact')."""
    return [
        {"by": by, "file": path.as_posix(), "cites": item["fact"]}
        for by, path in _topic_files(config, archive)
        for item in read_yaml(path).tree.get("see_also") or []
        if item.get("fact") in cited
    ]


def _topic_files(config: Path, archive: Path) -> Iterator[tuple[str, Path]]:
    """(who, file) of every topic as it is now, and of every edition."""
    for path in sorted((config / "topics").glob("*.yaml")):
        yield f"topic {path.stem}", path
    for folder in sorted(archive.glob("*")):
        for number in editions(folder):
            kept = folder / str(number) / "data" / "config" / "topics"
            for path in sorted(kept.glob("*.yaml")):
                yield f"edition {number} of {folder.name}", path

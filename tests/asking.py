"""Ask a topic of the built demo without the workflow: its text in, its findings out."""

from __future__ import annotations

import shutil
from pathlib import Path

import duckdb

from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.files import as_json
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.in_memory import numbers_of

HEAD = """title: A question
question: What happened?
data: {competition: Tidewater Shield, format: one-day}
event: {name: the long grass, date: 2017-03-01, before: 5 seasons, after: 5 seasons}
"""


def ask(built: Path, folder: Path, beats: str, headlines: str, head: str = HEAD) -> Findings:
    """Findings of a topic of these beats (YAML lines of a list) on the built demo's data."""
    config = folder / "config"
    if not config.exists():
        shutil.copytree(built / "config", config)
    text = f"{head}headlines: {headlines}\nbeats:\n{beats}"
    (config / "topics" / "asked.yaml").write_text(text, "utf-8")
    project = load(config, only="asked")
    asking = (views.metrics(project, "asked"), views.significance(project, "asked"))
    found = numbers_of(*asking, built / "output" / "data").findings
    as_json(found)  # which holds no number that is none
    return found


def by_id(found: Findings) -> dict[str, Finding]:
    return {finding.id: finding for finding in found.findings}


def rows(query: str, values: list | None = None) -> list[tuple]:
    """What a query answers; each on its own connection, since an unfinished one blocks the next."""
    return duckdb.connect().execute(query, values).fetchall()

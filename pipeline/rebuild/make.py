"""Every stage of one topic in this process, from match files to pages, as in the workflow."""

from __future__ import annotations

from contextlib import chdir
from pathlib import Path
from typing import Any

from pipeline.brief.__main__ import write_brief
from pipeline.charts.__main__ import write_charts
from pipeline.clean.__main__ import clean
from pipeline.config import views
from pipeline.config.load import load
from pipeline.ingest.__main__ import ingest
from pipeline.metrics.__main__ import write_tallies
from pipeline.significance.__main__ import write_findings

View = dict[str, Any]
OUT = Path("output")


def made(work: Path, about: View, around: View) -> Path:
    """The topic's folder of outputs in the project folder `work`.

    `around` is what the edition took from earlier ones, which are not there.
    """
    with chdir(work):
        make(about["topic"], about["edition"], around)
    return work / OUT / about["topic"]


def make(topic: str, edition: int | None = None, around: View | None = None) -> None:
    """All stages in the working folder. Paths are relative, as in the workflow, since they stand in
    the queries."""
    out, data = OUT / topic, OUT / "data"
    config = load(Path("config"), only=topic)
    for name, source in config.sources.items():
        ingest(source, data / name)
    clean(config, data)
    write_tallies(views.metrics(config, topic), out, data)
    write_findings(views.significance(config, topic), out)
    write_charts(views.charts(config, topic), out)
    write_brief(views.brief(config, topic), out, edition, OUT / "archive", around)

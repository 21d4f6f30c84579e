"""Every stage of one topic in this process, from match files to pages, as in the workflow."""

from __future__ import annotations

from contextlib import chdir
from pathlib import Path
from typing import Any

from pipeline.brief.stage import write_brief
from pipeline.charts.stage import write_charts
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config, load
from pipeline.ingest.stage import ingest
from pipeline.metrics.stage import write_tallies
from pipeline.significance.stage import write_findings

View = dict[str, Any]
OUT = Path("output")
DATA = OUT / "data"


def made(work: Path, about: View, around: View) -> Path:
    """The topic's folder of outputs in the project folder `work`.

    `around` is what the edition took from earlier ones, which are not there.
    """
    topic = about["topic"]
    with chdir(work):
        config = load(Path("config"), only=topic)
        make_data(config)
        make_topic(config, topic, about["edition"], around)
    return work / OUT / topic


def make_data(config: Config) -> None:
    """The clean tables, in the working folder; paths are relative, as in the workflow."""
    for name, source in config.sources.items():
        ingest(source, DATA / name)
    clean(views.clean(config), DATA)


def make_topic(
    config: Config, topic: str, edition: int | None = None, around: View | None = None
) -> None:
    """The stages of a topic, in the working folder; the tables' paths stand in the queries."""
    out = OUT / topic
    write_tallies(views.metrics(config, topic), out, DATA)
    write_findings(views.significance(config, topic), out)
    write_charts(views.charts(config, topic), out)
    write_brief(views.brief(config, topic), out, edition, OUT / "archive", around)

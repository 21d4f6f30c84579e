"""The stages in this process, one after the other: the functions that the workflow runs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.brief.stage import write_brief
from pipeline.charts.stage import write_charts
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.ingest.stage import ingest
from pipeline.metrics.stage import write_tallies
from pipeline.significance.stage import write_findings

View = dict[str, Any]
BEFORE_BRIEF = ("metrics", "significance", "charts")


def make_data(config: Config, data: Path) -> None:
    """Every source's tables, and the clean ones."""
    for name, source in config.sources.items():
        ingest(source, data / name)
    clean(views.clean(config), data)


def make_topic(
    config: Config,
    topic: str,
    out: Path,
    data: Path,
    *,
    edition: int | None = None,
    archive: Path | None = None,
    around: View | None = None,
    paper: bool = True,
) -> None:
    """Every file of a topic in its folder `out`; for the last four see `write_brief`."""
    for stage in BEFORE_BRIEF:
        make_stage(stage, getattr(views, stage)(config, topic), out, data)
    write_brief(views.brief(config, topic), out, edition, archive, around, paper)


def make_stage(stage: str, view: View, out: Path, data: Path) -> None:
    """The files of one of the stages before the brief, from its view and those of the earlier."""
    if stage == "metrics":
        write_tallies(view, out, data)
    elif stage == "significance":
        write_findings(view, out)
    elif stage == "charts":
        write_charts(view, out)
    else:
        raise ValueError(f"'{stage}' is none of {', '.join(BEFORE_BRIEF)}")

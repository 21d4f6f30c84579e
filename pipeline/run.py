"""The stages in this process, one after the other: the functions that the workflow runs."""

from __future__ import annotations

from pathlib import Path

from pipeline.brief.stage import write_brief
from pipeline.charts.stage import write_charts
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.config.views import ChartsView, MetricsView, SignificanceView
from pipeline.contracts.editions import Around
from pipeline.ingest.stage import ingest
from pipeline.metrics.stage import write_tallies
from pipeline.script.stage import write_check
from pipeline.significance.stage import write_findings

BEFORE_BRIEF = ("metrics", "significance", "charts")  # of every topic


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
    around: Around | None = None,
    paper: bool = True,
) -> None:
    """Every file of a topic in its folder `out`; for the last four see `write_brief`."""
    for view_of in (views.metrics, views.significance, views.charts):
        make_stage(view_of(config, topic), out, data)
    others = around.script if around else None
    write_check(views.brief(config, topic), out, archive, others)
    write_brief(views.brief(config, topic), out, edition, archive, around, paper)


def make_stage(view: MetricsView | SignificanceView | ChartsView, out: Path, data: Path) -> None:
    """The files of the stage that is given such a view, from it and from those of the earlier."""
    match view:
        case MetricsView():
            write_tallies(view, out, data)
        case SignificanceView():
            write_findings(view, out)
        case ChartsView():
            write_charts(view, out)

"""Settings of an edition with all that views have today, so that only what differs is told."""

from __future__ import annotations

from pathlib import Path

from pipeline.config.event_views import View
from pipeline.config.views import BriefView, ChartsView, MetricsView, SignificanceView, plain
from pipeline.contracts.editions import Settings
from pipeline.editions.reading import VERIFY, read_settings, read_view
from pipeline.editions.sides import Side, edition_side

VIEWS: dict[str, type[View]] = {
    "metrics": MetricsView,
    "significance": SignificanceView,
    "charts": ChartsView,
    "brief": BriefView,
}


def archived_side(folder: Path) -> Side:
    """An archived edition to be compared with one of another version, or with what is built."""
    return edition_side(folder)._replace(settings=settings_today(folder / "data"))


def settings_today(folder: Path) -> Settings:
    """By stage; `folder` is the edition's data/."""
    read = read_settings(folder, VERIFY)
    views = {stage: read_view(folder, kind, stage, VERIFY) for stage, kind in VIEWS.items()}
    seen = {stage: plain(view) for stage, view in views.items()}
    return {"ingest": read.ingest, "clean": read.clean, **seen}

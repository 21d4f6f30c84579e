"""Settings of an edition with all that views have today, so that only what differs is told."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.config.event_views import View
from pipeline.config.views import BriefView, ChartsView, MetricsView, SignificanceView, plain
from pipeline.contracts.editions import Settings
from pipeline.date_forms import ISO
from pipeline.editions.reading import VERIFY, read_settings, read_view
from pipeline.editions.sides import Side, edition_side
from pipeline.open_layouts.match_types import in_words

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
    return {"ingest": _ingest_today(read.ingest), "clean": _clean_today(read.clean), **seen}


def _ingest_today(sources: dict[str, Any]) -> dict[str, Any]:
    """Keys that sources have gained, with what they stood for when nobody could set them."""
    return {name: {"date_format": ISO, **source} for name, source in sources.items()}


def _clean_today(view: dict[str, Any]) -> dict[str, Any]:
    """Match types in our words."""
    words = {in_words(word) for word in view.get("match_types", [])}
    return {**view, "match_types": sorted(words)} if words else view

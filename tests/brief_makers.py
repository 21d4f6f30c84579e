"""Views and findings of a brief, as the stage is given them, without files."""

from __future__ import annotations

from typing import Any

from pipeline.config.kinds import AnyBeat
from pipeline.config.measure import Measure
from pipeline.config.project import Project
from pipeline.config.topic import Topic
from pipeline.config.views import BriefView
from pipeline.contracts.facts import ChartMade
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Family, Findings, Sample
from tests.chart_makers import ECONOMY, charts_view
from tests.seasons import season, selection, timing, windows

FOURS = Measure.model_validate(
    {
        **{"label": "fours", "numerator": "four", "denominator": "legal", "per": 100},
        **{"kind": "share", "unit": "per cent of balls", "spoken": "per cent", "decimals": 1},
        **{"rise_favours": "batting", "margin": "0.6 points", "defined": "balls hit for four"},
    }
)


def topic(beats: list[AnyBeat], **more: Any) -> Topic:
    """A topic's words around these beats."""
    asked = [beat.model_dump(exclude_none=True) for beat in beats]
    plain = {"title": "A question", "question": "What happened?", "data": {"format": "one-day"}}
    return Topic.model_validate({"beats": asked, **plain, **more})


def brief_view(beats: list[AnyBeat], **more: Any) -> BriefView:
    """The brief of these beats, of economy and fours."""
    measures = {"economy": ECONOMY, "fours": FOURS}
    plain: dict[str, Any] = {
        **dict(charts_view(beats=beats, measures=measures)),
        **{"file": "topic.yaml", "words": topic(beats), "expected": []},
        "project": Project(title="Us"),
    }
    return BriefView(**{**plain, **more})


def family(**more: Any) -> Family:
    """A family of comparisons; one of them can't be called."""
    counts = dict.fromkeys(("headlines", "tables", "refused", "changed", "held"), 0)
    plain: dict[str, Any] = {"looked_at": 1234, "cant_tell": 1, "alpha": 0.05, "table_rate": 0.1}
    return Family(**{**counts, **plain, "looks": [], **more})


def findings_of(*findings: Finding, **more: Any) -> Findings:
    """These findings of a topic of two seasons, with nothing beside them."""
    seasons = [season(2016), season(2017)]
    chosen = selection(seasons, windows(["2016"], ["2017"]))
    keys = dict.fromkeys(f"{each.beat}.{each.measure}" for each in findings)
    plain: dict[str, Any] = {
        **{"data": chosen.data, "fingerprint": "0" * 8, "corrections": [], "seasons": seasons},
        **{"timing": chosen.timing, "headlines": [], "series": {}, "lists": {}, "queries": {}},
        **{"findings": list(findings), "family": family()},
        "samples": {key: Sample(matches=100, balls=20_000) for key in keys},
    }
    if "windows" in more:
        plain["timing"] = timing(seasons, more.pop("windows"))
    return Findings(**{**plain, **more})


def chart_made(name: str, **more: Any) -> ChartMade:
    """A chart of the beat and measure that it is called after."""
    beat, measure = name.split(".")
    plain: dict[str, Any] = {
        **{"chart": name, "beat": beat, "measure": measure, "title": "A title", "alt": "Rows."},
        **{"rows_left_out": 0, "hold_seconds": 7.6, "frames": [f"{name}.png"]},
    }
    return ChartMade(**{**plain, **more})

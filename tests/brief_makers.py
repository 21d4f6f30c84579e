"""Views of a brief, as the stage is given them, without configuration files."""

from __future__ import annotations

from typing import Any

from pipeline.config.kinds import AnyBeat
from pipeline.config.measure import Measure
from pipeline.config.project import Project
from pipeline.config.topic import Topic
from pipeline.config.views import BriefView
from tests.chart_makers import ECONOMY, charts_view

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

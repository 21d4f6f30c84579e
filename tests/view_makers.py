"""Views of an invented topic as the stages are given them, without configuration files."""

from __future__ import annotations

from typing import Any

import pandas as pd

from pipeline.config.fields import Margin
from pipeline.config.kinds import AnyBeat
from pipeline.config.project import Format, Statistics
from pipeline.config.topic import Data
from pipeline.config.views import MetricsView, Scale, SignificanceView, Sums
from pipeline.contracts.selection import BeatSelection, Cell, ControlSelection
from pipeline.significance.question import Question
from tests.seasons import event, season, selection, windows

ONE_DAY = Format(label="one-day", match_types=["domestic one-day"], overs=50)
ECONOMY = ("runs_total", "legal")
STATISTICS = Statistics(permutations=99)


def scale(kind: Any = "rate", per: float | None = None, **more: Any) -> Scale:
    """Runs an over; a share in per cent, with a margin in points."""
    share = kind == "share"
    margin = Margin(size=3.0, unit="points") if share else Margin(size=5.0, unit="percent")
    plain = {"by_match": False, "per_wicket": kind == "average", "an_innings": False}
    usual = 100 if share else 6
    return Scale(per=per or usual, kind=kind, **{"margin": margin, **plain, **more})


def metrics_view(beats: list[AnyBeat], **more: Any) -> MetricsView:
    """All one-day matches; `measures` are sums by name, economy where there are none."""
    measures = more.pop("measures", {"economy": ECONOMY})
    plain = {"file": "topic.yaml", "data": Data(format="one-day"), "format": ONE_DAY}
    sums = {name: Sums(numerator=y, denominator=x) for name, (y, x) in measures.items()}
    return MetricsView(beats=beats, measures=sums, **{**plain, "event": None, "lists": {}, **more})


def significance_view(beats: list[AnyBeat], **more: Any) -> SignificanceView:
    """An event in 2017; every measure is a rate unless `measures` say what it is."""
    measures = {name: scale() for beat in beats for name in beat.measures}
    plain = {
        **{"file": "topic.yaml", "statistics": STATISTICS, "headlines": [], "also": []},
        **{"event": event("2017-03-01"), "format": ONE_DAY, "measures": measures},
    }
    return SignificanceView(beats=beats, **{**plain, **more})


def question(
    beat: AnyBeat, rows: pd.DataFrame, control: ControlSelection | None = None
) -> Question:
    """A beat's question of its first measure, in the windows of 2015 and 2016, 2017 and 2018."""
    cells = [Cell(id="all", values={}, known=True)]
    chosen = selection(
        [season(year) for year in range(2009, 2023)],
        windows(["2015", "2016"], ["2017", "2018"]),
        {beat.id: BeatSelection(query="", cells=cells, control=control)},
    )
    return Question(beat, beat.measures[0], rows, significance_view([beat]), chosen)

"""Which balls a topic compares, and which it reads beside them: each once over all its beats."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.selection import Season, Windows, of_the_trend
from pipeline.metrics.query import balls_of
from pipeline.metrics.windows import window_sql
from pipeline.sql import quoted_list

if TYPE_CHECKING:
    from pipeline.config.views import MetricsView


def compared_and_counted(
    view: MetricsView, seasons: list[Season], windows: Windows | None
) -> tuple[str, str]:
    """(the condition of the balls in some beat's windows or groups, of those that are counted).

    What is counted and not compared is behind the drift, or a point of a series. `where` of the
    beats names players by id.
    """
    trend = _of_the_trend(view, seasons, windows)
    compared, counted = [], []
    for beat in view.beats:
        _, conditions = balls_of(beat, view, windows)
        read = " AND ".join(f"({condition})" for condition in conditions)
        counted.append(f"{read} AND {trend}" if beat.traits.compares == "windows" else read)
        if beat.traits.compares == "groups":
            compared.append(read)
        elif windows:
            compared.append(f"{read} AND {window_sql(windows)} <> 'outside'")
    return _any(compared), _any(counted)


def _of_the_trend(view: MetricsView, seasons: list[Season], windows: Windows | None) -> str:
    """The condition of the seasons behind a drift: beats of windows read others, to no end."""
    if view.event is None or windows is None:
        return "true"
    kept = [each.label for each in of_the_trend(seasons, windows, view.event.trend_from)]
    return f"m.season IN ({quoted_list(kept)})"


def _any(conditions: list[str]) -> str:
    return " OR ".join(f"({one})" for one in dict.fromkeys(conditions)) or "false"

"""Which balls a topic compares, and which it reads beside them: each once over all its beats."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.selection import Windows
from pipeline.metrics.query import balls_of
from pipeline.metrics.windows import window_sql

if TYPE_CHECKING:
    from pipeline.config.views import MetricsView


def compared_and_counted(view: MetricsView, windows: Windows | None) -> tuple[str, str]:
    """(the condition of the balls in some beat's windows or groups, of those that some beat reads).

    What is read and not compared is behind the drift, or a point of a series. `where` of the
    beats names players by id.
    """
    compared, counted = [], []
    for beat in view.beats:
        _, conditions = balls_of(beat, view, windows)
        read = " AND ".join(f"({condition})" for condition in conditions)
        counted.append(read)
        if beat.traits.compares == "groups":
            compared.append(read)
        elif windows:
            compared.append(f"{read} AND {window_sql(windows)} <> 'outside'")
    return _any(compared), _any(counted)


def _any(conditions: list[str]) -> str:
    return " OR ".join(f"({one})" for one in dict.fromkeys(conditions)) or "false"

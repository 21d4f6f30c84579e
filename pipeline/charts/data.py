"""The numbers behind a chart, unrounded, as CSV."""

from __future__ import annotations

from typing import Any

from pipeline.charts.chart import Chart
from pipeline.contracts.finding import Finding, Gap, Player
from pipeline.contracts.findings import Point
from pipeline.contracts.panel import Choice
from pipeline.contracts.parts import GroupChange, Side, Span
from pipeline.csv_files import csv_text

EVERY = ("finding", "cell", "verdict")  # columns that stand there when nothing was found
WAY = tuple(Choice.__struct_fields__)  # columns of a headline asked again
Cells = dict[str, Any]  # of one line, by column


def data_of(chart: Chart) -> str:
    """A line a point of a series, a finding, or a way to ask it again.

    The columns are those of the longest line.
    """
    if chart.again:
        lines = [_choice(choice) for choice in _choices(chart)]
    elif chart.series is not None:
        lines = [_point(point) for point in chart.series]
    else:
        lines = [_finding(finding) for finding in chart.findings]
    nothing = WAY if chart.again else EVERY
    longest = max(lines, key=len, default=dict.fromkeys(nothing))
    return csv_text(lines, list(longest))


def _choices(chart: Chart) -> list[Choice]:
    panel = chart.findings[0].panel
    return panel.choices if panel else []


def _choice(choice: Choice) -> Cells:
    """One way to ask a headline again; its value in points of a share, else a fraction."""
    return {name: getattr(choice, name) for name in WAY}


def _point(point: Point) -> Cells:
    days = {
        "first": point.first.isoformat() if point.first else None,
        "last": point.last.isoformat() if point.last else None,
    }
    return {"period": point.label, **days, "part": point.part, **_side(point)}


def _finding(finding: Finding) -> Cells:
    """One finding as drawn; the sides are named by what they are."""
    a, b = _names(finding)
    effect = finding.effect
    return {
        "finding": finding.id,
        "cell": finding.cell,
        **{f"{a}_{key}": value for key, value in _side(finding.a).items()},
        **{f"{b}_{key}": value for key, value in _side(finding.b).items()},
        **_ends("difference", effect.difference if effect else None),
        **_ends("change", effect.relative if effect else None),
        "level": effect.level if effect else None,
        **_shrunk(finding),
        "verdict": finding.verdict,
    }


def _names(finding: Finding) -> tuple[str, str]:
    """The sides by what they are; of a gap, which stands among changes, by their places."""
    return ("before", "after") if isinstance(finding, Gap) else finding.sides


def _side(side: Side | GroupChange) -> Cells:
    """Value, ends and counts; of a group that is a side of a gap, its difference."""
    ends: Side | Span | None = side if isinstance(side, Side) else side.difference
    return {
        "value": ends.value if ends else None,
        "low": ends.low if ends else None,
        "high": ends.high if ends else None,
        "matches": side.matches,
        "balls": side.balls,
    }


def _ends(name: str, span: Span | None) -> Cells:
    return {
        name: span.value if span else None,
        f"{name}_low": span.low if span else None,
        f"{name}_high": span.high if span else None,
    }


def _shrunk(finding: Finding) -> Cells:
    """A player's change drawn in."""
    if not isinstance(finding, Player) or finding.shrunk is None:
        return {}
    shrunk = finding.shrunk
    return {
        "shrunk_change": shrunk.change,
        "shrunk_low": shrunk.low,
        "shrunk_high": shrunk.high,
        "shrunk_moved": shrunk.moved,
        "shrunk_apart": shrunk.apart,
    }

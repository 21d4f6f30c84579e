"""Charts of an invented topic: findings as rows, series, and the view they are drawn with."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Chart
from pipeline.charts.frame import frame
from pipeline.charts.theme import theme_of
from pipeline.config.kinds import AnyKind
from pipeline.config.kinds.base import kind_of
from pipeline.config.project import Source
from pipeline.config.theme import Theme
from pipeline.config.views import ChartsView
from pipeline.config.yaml_files import read_yaml
from pipeline.contracts.codes import Unit
from pipeline.contracts.finding import Change, Finding, Player, Turn
from pipeline.contracts.findings import Point, Sample
from pipeline.contracts.over_time import TurningDate
from pipeline.contracts.parts import Shrunk, Span
from pipeline.contracts.timing import Period, Timing, Windows
from tests.conftest import ROOT
from tests.finding_makers import answer, change, effect, gap, group_change, side, span
from tests.seasons import windows
from tests.word_makers import ECONOMY, EVENT, FORM

THEME = Theme.model_validate(read_yaml(ROOT / "config" / "theme.yaml").tree)
WINDOWS = windows(["2012", "2016"], ["2017", "2021"])
SIDES = ("before", "after")
SCORERS = Source(
    id="scorers",
    path="data",
    layout="match-json",
    title="Pebble Cup",
    publisher="Pebble Cup scorers",
    licence="CC0",
    retrieved=date(2026, 11, 25),
    credit="Data: Pebble Cup scorers",
    notice="Invented data",
)


def charts_view(**more: Any) -> ChartsView:
    """What a chart is drawn with beside its own beat."""
    plain = {
        **{"topic": "asked", "event": EVENT, "also": [], "beats": [], "format": FORM},
        **{"measures": {"economy": ECONOMY}, "credits": [SCORERS], "theme": THEME},
        **{"frames": ["light"], "headlines": []},
    }
    return ChartsView(**{**plain, **more})


def chart(
    kind: type[AnyKind],
    findings: Sequence[Finding],
    series: list[Point] | None = None,
    chosen: Windows | None = WINDOWS,
    **beat: Any,
) -> Chart:
    """The economy of a beat of this kind; the points of a series are the seasons there are."""
    made: Any = kind(id="b", kind=kind_of(kind), measure="economy", **beat)
    sample = Sample(matches=400, balls=54_321)
    when = timing_of(series or [], made.point or "season", chosen)
    return Chart("b.economy", made, ECONOMY, list(findings), series, sample, [SCORERS], when)


def timing_of(series: list[Point], unit: Unit, chosen: Windows | None) -> Timing:
    """The points as periods, each in the window that names it."""
    periods = [
        Period(
            label=one.label,
            first=one.first or date(2012, 4, 1),
            last=one.last or date(2012, 9, 30),
            matches=40,
            **{side: 40 for side in SIDES if chosen and one.label in _seasons(chosen, side)},
        )
        for one in series
    ]
    return Timing(windows=chosen, unit=unit, periods={unit: periods})


def _seasons(chosen: Windows, side: str) -> list[str]:
    window = chosen.before if side == "before" else chosen.after
    return window.seasons or []


def drawn(made: Chart, theme: str = "light", **how: Any) -> Canvas:
    """Its frame."""
    return frame(made, charts_view(), theme_of(THEME, theme), **how)


def row(name: str, a: float | None, b: float | None, half: float = 0.03, **more: Any) -> Change:
    """A change of a ground's economy; without a value on a side it is refused."""
    told = {**numbers(a, b, half), "values": {"ground": name}}
    return change(f"b.economy.{name}", **{**told, **more})


def numbers(a: float | None, b: float | None, half: float = 0.03) -> dict[str, Any]:
    """Both values with their intervals, and what they come to."""
    sides = {
        name: side(value, low=value and value * 0.97, high=value and value * 1.03, matches=40)
        for name, value in (("a", a), ("b", b))
    }
    if not a or not b:
        return {**sides, "refused": "no_balls"}
    moved = b / a - 1
    return {**sides, "effect": effect(moved, b - a, relative=span(moved, half))}


def gap_and_groups(
    phase: str, pace: tuple[float, float], spin: tuple[float, float]
) -> list[Finding]:
    """How much more spin's economy changed than pace's in a phase, then each one's own change."""
    one, other = (after / before - 1 for before, after in (pace, spin))
    sides = {"a": group_change(one), "b": group_change(other), "sides": ("pace", "spin")}
    values = {"phase": phase}
    found: list[Finding] = [
        gap(f"b.economy.{phase}", values=values, effect=effect(other - one), **sides)
    ]
    for kind, ends in (("pace", pace), ("spin", spin)):
        found.append(row(f"{kind}-{phase}", *ends, values={"bowler_kind": kind, **values}))
    return found


def player(
    name: str, moved: float, drawn_in: Span, apart: bool = True, sure: bool = True
) -> Player:
    """A bowler's economy from five: as it came out, and drawn in."""
    shrunk = Shrunk(
        change=drawn_in.value,
        low=drawn_in.low,
        high=drawn_in.high,
        **{"apart": apart, "moved": sure, "mean": 0.0, "group": "pace", "of": 9},
    )
    told = numbers(5.0, 5 * (1 + moved))
    return answer(Player, f"b.economy.{name}", **told, shrunk=shrunk, values={"bowler": name})


def point(label: str, year: int, value: float | None) -> Point:
    """A summer of forty matches."""
    made = side(value, low=value and value - 0.2, high=value and value + 0.2, matches=40)
    plain = {name: getattr(made, name) for name in made.__struct_fields__}
    days = {"first": date(year, 4, 1), "last": date(year, 9, 30)}
    return Point(label=label, **days, **plain)


def turned(points: list[Point], at: int) -> Turn:
    """A break after the point at `at`, sure to one on either side; the level is five."""
    labels = [each.label for each in points]
    turn = TurningDate(
        last=labels[at],
        next=labels[at + 1],
        low=labels[at - 1],
        high=labels[at + 1],
        points=len(points),
        dates=len(points) - 4,
        sup_f=20.0,
        event=None,
        second=None,
        every="season",
        fit=[(label, 5.0) for label in labels],
    )
    sides = ("earlier", "later")
    return answer(Turn, "b.economy", **numbers(5.0, 4.6), turn=turn, sides=sides)

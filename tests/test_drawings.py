"""Drawings: every mark and every line stands where its number is."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pipeline.charts.canvas import Canvas
from tests.league import FIVE, drawn, league, scored
from tests.tallying import HEAD, played_in


def marks(canvas: Canvas, solid: bool) -> list[tuple[float, float]]:
    """Centres of the round marks, the hollow or the solid ones, in the order of drawing."""
    found = []
    for axes in canvas.figure.axes:
        for line in axes.lines:
            full = line.get_markerfacecolor() == line.get_markeredgecolor()
            if line.get_marker() == "o" and full is solid:
                found.append((float(line.get_xdata()[0]), float(line.get_ydata()[0])))
    return found


def strokes(canvas: Canvas) -> list[list[tuple[float, float]]]:
    """The points of every line without a mark."""
    return [
        [(float(x), float(y)) for x, y in zip(line.get_xdata(), line.get_ydata(), strict=True)]
        for axes in canvas.figure.axes
        for line in axes.lines
        if line.get_marker() in ("None", "", None)
    ]


def near(points: Any) -> list[Any]:
    return [pytest.approx(point) for point in points]


def uneven(year: int, day: int, worth: tuple[int, ...]) -> dict:
    """Twenty overs of two balls; those of each ten overs are worth so much, and more by day."""
    found = played_in(year, [], dates=[f"{year}-06-{day:02}"])
    for over in range(20):
        balls = scored(year, worth[over // 10] + day % 3, 2)["innings"][0]["overs"][0]["deliveries"]
        found["innings"][0]["overs"].append({"over": over, "deliveries": balls})
    found["innings"][0]["overs"] = found["innings"][0]["overs"][1:]
    return found


@pytest.fixture(scope="module")
def two_seasons(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Seven matches, then nine, in which the first overs rise and the later ones fall."""
    made = [uneven(2019, day, (4, 9)) for day in range(1, 8)]
    made += [uneven(2020, day, (6, 7)) for day in range(1, 10)]
    return league(tmp_path_factory.mktemp("two") / "league", made)


def test_each_side_of_a_comparison_has_its_mark_at_its_own_value(two_seasons: Path):
    beats = "  - {id: a, kind: before_after, measure: run_rate, by: phase}"
    found, canvases = drawn(two_seasons, beats)
    rows = list(found.values())
    for side, solid in (("a", False), ("b", True)):
        values = [(row[side]["value"], at + 0.5) for at, row in enumerate(rows)]
        assert marks(canvases["a.run_rate"], solid) == near(values)
    bars = [stroke for stroke in strokes(canvases["a.run_rate"]) if len(stroke) == 2]
    for at, row in enumerate(rows):
        ends = [row["change_low"] * 100, row["change_high"] * 100]
        assert near((end, at + 0.5) for end in ends) in bars


def test_a_profile_has_both_windows_with_whole_intervals(two_seasons: Path):
    beats = "  - {id: a, kind: phases, measure: run_rate, bands: [1-10, 11-20]}"
    found, canvases = drawn(two_seasons, beats)
    bands = [found["a.run_rate.1-10"], found["a.run_rate.11-20"]]
    lines = strokes(canvases["a.run_rate"])
    for side, shift, solid in (("a", -0.13, False), ("b", 0.13, True)):
        values = [(at + shift, row[side]["value"]) for at, row in enumerate(bands)]
        assert marks(canvases["a.run_rate"], solid) == near(values) and near(values) in lines
        for at, row in enumerate(bands):
            ends = [(at + shift, row[side][end]) for end in ("low", "high")]
            assert near(ends) in lines


@pytest.mark.parametrize(("date", "after"), [("2017-01-01", 8), ("2017-06-03", 9)])
def test_the_line_of_the_drift_is_broken_at_the_event(tmp_path: Path, date: str, after: int):
    """A season that the event fell inside is on neither piece."""
    made = [
        scored(year, (95 if year < 2017 else 85) + day + year % 3, 120, day)
        for year in range(2009, 2023)
        for day in range(1, 7)
    ]
    beats = "  - {id: a, kind: trend, measure: run_rate}"
    project = league(tmp_path / "league", made)
    found, canvases = drawn(project, beats, FIVE.replace("2017-01-01", date))
    fit = {int(label) - 2009: value for label, value in found["a.run_rate"]["drift"]["fit"]}
    assert set(fit) == {*range(8), *range(after, 14)}
    lines = strokes(canvases["a.run_rate"])
    for places in (range(8), range(after, 14)):
        assert near((place, fit[place]) for place in places) in lines


def test_seasons_stand_in_the_colour_of_their_window(tmp_path: Path):
    """Hollow before and outside, solid after; the lines across are at each window's value."""
    made = [scored(year, 60 + day, 60, day) for year in range(2018, 2022) for day in range(1, 7)]
    made += [scored(2021, 90, 60, 20)]
    beats = "  - {id: a, kind: trend, measure: run_rate}"
    found, canvases = drawn(league(tmp_path / "league", made), beats, HEAD)
    assert [x for x, _ in marks(canvases["a.run_rate"], True)] == [2.0]
    assert [x for x, _ in marks(canvases["a.run_rate"], False)] == [0.0, 1.0, 3.0]
    for place, side in ((1, "a"), (2, "b")):
        value = found["a.run_rate"][side]["value"]
        ends = [(place - 0.4, value), (place + 0.4, value)]
        assert near(ends) in strokes(canvases["a.run_rate"])

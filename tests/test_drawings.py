"""Drawings: every mark and every line stands where its number is."""

from __future__ import annotations

from datetime import date as date_of
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from pipeline.charts.canvas import Canvas
from pipeline.charts.data import data_of
from pipeline.charts.of_kinds import DRAWINGS, drawing_of
from pipeline.config.kinds import KINDS
from pipeline.config.kinds.before_after import BeforeAfter
from pipeline.config.kinds.gap import Gap as GapBeat
from pipeline.config.kinds.mix import Mix as MixBeat
from pipeline.config.kinds.players import Players
from pipeline.config.kinds.turning_point import TurningPoint
from pipeline.contracts.finding import Mix, Rates
from pipeline.errors import UserError
from tests import chart_makers
from tests.chart_makers import chart, gap_and_groups, player, point, row, turned
from tests.finding_makers import answer, effect, span
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


def middle_of(year: int) -> float:
    """Of six matches on the first days of June."""
    return date_of(year, 6, 1).toordinal() + 2.5


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
        values = [(getattr(each, side).value, at + 0.5) for at, each in enumerate(rows)]
        assert marks(canvases["a.run_rate"], solid) == near(values)
    bars = [stroke for stroke in strokes(canvases["a.run_rate"]) if len(stroke) == 2]
    for at, each in enumerate(rows):
        ends = [each.told.change.low * 100, each.told.change.high * 100]
        assert near((end, at + 0.5) for end in ends) in bars


def test_a_profile_has_both_windows_with_whole_intervals(two_seasons: Path):
    beats = "  - {id: a, kind: phases, measure: run_rate, bands: [1-10, 11-20]}"
    found, canvases = drawn(two_seasons, beats)
    bands = [found["a.run_rate.1-10"], found["a.run_rate.11-20"]]
    lines = strokes(canvases["a.run_rate"])
    for side, shift, solid in (("a", -0.13, False), ("b", 0.13, True)):
        sides = [getattr(band, side) for band in bands]
        values = [(at + shift, each.value) for at, each in enumerate(sides)]
        assert marks(canvases["a.run_rate"], solid) == near(values) and near(values) in lines
        for at, each in enumerate(sides):
            assert near((at + shift, end) for end in (each.low, each.high)) in lines


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
    fit = {int(label) - 2009: value for label, value in found["a.run_rate"].drift.test.fit}
    assert set(fit) == {*range(8), *range(after, 14)}
    day = float(date_of.fromisoformat(date).toordinal())
    ends = []
    for places in (range(8), range(after, 14)):
        points = [(middle_of(2009 + place), fit[place]) for place in places]
        (line,) = [each for each in strokes(canvases["a.run_rate"]) if points[1] in near(each)]
        inner = line[:-1] if places.start == 0 else line[1:]
        assert inner == near(points)
        (end,) = [point for point in line if point[0] == day]
        ends.append(end[1])
    step = found["a.run_rate"].drift.test.step.value
    assert ends[1] / ends[0] == pytest.approx(1 + step)


def test_seasons_stand_in_the_colour_of_their_window(tmp_path: Path):
    """Hollow before and outside, solid after; the lines across are at each window's value."""
    made = [scored(year, 60 + day, 60, day) for year in range(2018, 2022) for day in range(1, 7)]
    made += [scored(2021, 90, 60, 20)]
    beats = "  - {id: a, kind: trend, measure: run_rate}"
    found, canvases = drawn(league(tmp_path / "league", made), beats, HEAD)
    canvas = canvases["a.run_rate"]
    middles = [middle_of(year) for year in range(2018, 2022)]
    middles[3] += 7  # its last match is a fortnight after the others' last
    assert [x for x, _ in marks(canvas, True)] == middles[2:3]
    assert [x for x, _ in marks(canvas, False)] == [*middles[:2], middles[3]]
    (axes,) = [axes for axes in canvas.figure.axes if axes.lines]
    day = np.diff(axes.get_xlim())[0] / axes.get_window_extent(canvas.renderer).width
    half = 2 * canvas.sizes.mark * day  # longer than the window's five days, which none would see
    assert half > 5
    for middle, side in ((middles[1], "a"), (middles[2], "b")):
        value = getattr(found["a.run_rate"], side).value
        assert near([(middle - half, value), (middle + half, value)]) in strokes(canvas)


def test_every_kind_of_beat_has_its_drawing_and_no_other_has_one():
    assert list(DRAWINGS) == sorted(KINDS)
    other = BeforeAfter.model_construct(id="b", kind="guess", measure=["economy"])
    with pytest.raises(KeyError, match="guess"):
        drawing_of(other)


def test_a_gap_is_drawn_as_an_interval_alone_under_the_values_of_its_groups():
    """Pace from 5 to 5.1 and spin from 4.5 to 4.9; the table has phases that the frame has not."""
    made = [
        finding
        for phase in ("powerplay", "middle", "death", "last")
        for finding in gap_and_groups(phase, pace=(5.0, 5.1), spin=(4.5, 4.9))
    ]
    between = {"bowler_kind": ["pace", "spin"]}
    whole = chart(GapBeat, made, between=between, by="phase")
    rows = DRAWINGS["gap"].rows(whole)
    names = [finding.id.removeprefix("b.economy.") for finding in rows]
    assert names[:3] == ["pace-powerplay", "spin-powerplay", "powerplay"] and len(names) == 9
    assert DRAWINGS["gap"].left_out(whole) == 3
    canvas = chart_makers.drawn(whole)
    places = [(5.0, 0.5), (4.5, 1.5), (5.0, 3.5), (4.5, 4.5), (5.0, 6.5), (4.5, 7.5)]
    assert marks(canvas, False) == near(places)
    gap = rows[2].told.change
    assert near([(gap.low * 100, 2.5), (gap.high * 100, 2.5)]) in strokes(canvas)


def test_the_stair_of_a_mix_climbs_by_its_parts():
    """From 5 to 5.5: 0.2 by who did what, 0.3 by the rates, each from where the last one ended."""
    parts = [
        answer(kind, f"b.economy.{name}", effect=effect(0.05, size, half=0.1))
        for kind, name, size in ((Mix, "mix", 0.2), (Rates, "rates", 0.3))
    ]
    whole = row("all", 5.0, 5.5, values={})
    of_groups = [row(kind, 5.0, 6.0, values={"bowler_kind": kind}) for kind in ("pace", "spin")]
    canvas = chart_makers.drawn(chart(MixBeat, [whole, *parts, *of_groups], by="bowler_kind"))
    bars = [bar for axes in canvas.figure.axes for bar in axes.patches]
    assert [(bar.get_y(), bar.get_height()) for bar in bars] == near([(5.0, 0.2), (5.2, 0.3)])
    lines = strokes(canvas)
    assert near([(1, 5.1), (1, 5.3)]) in lines and near([(2, 5.4), (2, 5.6)]) in lines
    said = {text.get_text() for axes in canvas.figure.axes for text in axes.texts}
    assert {"+0.20", "+0.30"} <= said  # which way each went
    for at, level in ((0, 5.0), (3, 5.5)):
        assert near([(at - 0.3, level), (at + 0.3, level)]) in lines


def test_players_stand_from_the_largest_rise_down_and_a_long_list_by_its_ends():
    """Of fifteen the six that rose most and the six that fell most; as came out, and drawn in."""
    raw = [0.02 * at - 0.13 for at in range(15)]
    made = [player(f"p{at}", size, span(size / 2, 0.04)) for at, size in enumerate(raw)]
    none = answer(type(made[0]), "b.economy.p99", refused="few_matches", shrunk=None)
    whole = chart(Players, [row("all", 5.0, 5.1), *made, none], role="bowler", at_least="9 balls")
    kept = [*raw[:8:-1], *raw[5::-1]]
    assert [f.told.change.value for f in DRAWINGS["players"].rows(whole)] == near(kept)
    assert DRAWINGS["players"].left_out(whole) == 4
    canvas = chart_makers.drawn(whole)
    for solid, share in ((False, 100), (True, 50)):
        places = [(size * share, at + 0.5) for at, size in enumerate(kept)]
        assert marks(canvas, solid) == near(places)
    for at, size in enumerate(kept):
        ends = [(size / 2 + half) * 100 for half in (-0.04, 0.04)]
        assert near((end, at + 0.5) for end in ends) in strokes(canvas)


def test_a_turning_point_shades_its_interval_and_has_a_level_on_each_side():
    points = [point(str(year), year, 5.0 + (year > 2015)) for year in range(2010, 2020)]
    canvas = chart_makers.drawn(chart(TurningPoint, [turned(points, 5)], points))
    middles = [date_of(year, 4, 1).toordinal() + 91.0 for year in range(2010, 2020)]
    assert [x for x, _ in marks(canvas, False)] == middles[:6]
    assert [x for x, _ in marks(canvas, True)] == middles[6:]
    (band,) = [patch for axes in canvas.figure.axes for patch in axes.patches]
    ends = [date_of(2014, 9, 30).toordinal(), date_of(2017, 4, 1).toordinal()]
    assert [band.get_x(), band.get_x() + band.get_width()] == near(ends)
    lines = strokes(canvas)
    assert near((at, 5.0) for at in middles[:6]) in lines
    assert near((at, 5.0) for at in middles[6:]) in lines
    own = (date_of(2015, 9, 30).toordinal() + date_of(2016, 4, 1).toordinal()) / 2
    (date,) = [line for line in lines if line[0][0] == own]
    assert date[0][1] == 0 and date[1][0] == own and date[1][1] >= 1  # from the bottom to its name


SUMMERS = [scored(year, 60 + day, 60, day) for year in (2018, 2019, 2020) for day in range(1, 9)]
OUTSIDE = "where: {season: '2018'}"  # of both windows
NOT_COMPARED = "leave no balls.* in the seasons that are compared"


@pytest.mark.parametrize(
    ("beat", "why"),
    [
        ("kind: phases, measure: run_rate, bands: [11-20]", "none of its balls is in any of its"),
        (f"kind: phases, measure: run_rate, {OUTSIDE}", NOT_COMPARED),
        (f"kind: before_after, measure: run_rate, {OUTSIDE}", NOT_COMPARED),
        (f"kind: share, of: {{bowler_kind: spin}}, {OUTSIDE}", NOT_COMPARED),
        (f"kind: mix, measure: run_rate, by: bowler_kind, {OUTSIDE}", NOT_COMPARED),
    ],
)
def test_what_has_no_ball_to_draw_is_refused_before_it_is_drawn(
    tmp_path: Path, beat: str, why: str
):
    """Grounds, groups and bands that a topic names may have no ball in its windows."""
    project = league(tmp_path / "league", SUMMERS)
    with pytest.raises(UserError, match=rf"beats\[1\].*{why}"):
        drawn(project, f"  - {{id: a, {beat}}}")


@pytest.mark.parametrize(
    ("beat", "words"),
    [
        (
            "kind: gap, measure: run_rate, between: {phase: [powerplay, death]}",
            "too little to say",
        ),
        ("kind: players, measure: run_rate, role: batter, at_least: 9999 balls", "Nobody has"),
    ],
)
def test_a_drawing_without_a_row_says_so(tmp_path: Path, beat: str, words: str):
    project = league(tmp_path / "league", SUMMERS)
    _, canvases = drawn(project, f"  - {{id: a, {beat}}}")
    (canvas,) = canvases.values()
    assert any(text.get_text().startswith(words) for text in canvas.texts)


@pytest.mark.parametrize("kind", ["before_after", "gap", "groups", "mix", "phases", "share"])
def test_of_a_chart_without_findings_the_data_have_a_header_and_the_words_say_why(kind: str):
    whole = chart(BeforeAfter, [])
    assert data_of(whole) == "finding,cell,verdict\n"
    assert DRAWINGS[kind].described(whole, chart_makers.FORM).startswith("Economy. ")
    assert list(DRAWINGS[kind].rows(whole)) == [] and DRAWINGS[kind].left_out(whole) == 0

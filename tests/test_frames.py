"""Frames for the video: safe areas, sizes, contrast, no text on text, blind frames, steps."""

from __future__ import annotations

import csv
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from pydantic import ValidationError

from pipeline.charts.chart import Chart
from pipeline.charts.compose import render
from pipeline.charts.contact import contact_sheet
from pipeline.charts.frame import frame
from pipeline.charts.hold import hold_seconds
from pipeline.charts.theme import theme_of
from pipeline.config.frame_files import SETS, STEPS, chart_files
from pipeline.config.kinds.before_after import BeforeAfter
from pipeline.config.kinds.gap import Gap as GapBeat
from pipeline.config.kinds.mix import Mix as MixBeat
from pipeline.config.kinds.phases import Phases
from pipeline.config.kinds.players import Players
from pipeline.config.kinds.trend import Trend
from pipeline.config.kinds.turning_point import TurningPoint
from pipeline.config.theme import MARKS, TEXT, Palette, Theme, blended, contrast
from pipeline.config.topic import OtherEvent
from pipeline.contracts.facts import Charts
from pipeline.contracts.files import read_json
from pipeline.contracts.finding import Mix, Rates
from pipeline.contracts.findings import Point
from tests.chart_makers import (
    EVENT,
    THEME,
    chart,
    charts_view,
    drawn,
    gap_and_groups,
    player,
    point,
    row,
    turned,
)
from tests.fact_makers import facts_of
from tests.finding_makers import answer, effect, span
from tests.frame_checks import SAFE, boxes, check
from tests.seasons import windows

LONG = "Ýmirsdóttir-Ńowakowska Óttar van der Skógarfjörður of Upper Saltmarsh Regis"


names = st.one_of(
    st.text("abcdefgh ÅÉłñ", min_size=1, max_size=60).map(lambda s: s.strip() or "x"), st.just(LONG)
)
values = st.one_of(st.none(), st.floats(0.01, 9_000), st.floats(-40, -0.5))


@given(data=st.data(), count=st.integers(1, 60))
@settings(max_examples=15, deadline=None)
def test_no_text_stands_on_another_in_a_comparison(data: st.DataObject, count: int):
    rows = []
    for at in range(count):
        a, b = (data.draw(values) for _ in "ab")
        rows.append(row(f"{data.draw(names)}{at}", a, b, data.draw(st.floats(0.001, 3.0))))
    check(drawn(chart(BeforeAfter, rows)))


@given(data=st.data(), count=st.integers(0, 40))
@settings(max_examples=10, deadline=None)
def test_no_text_stands_on_another_in_a_list_of_players(data: st.DataObject, count: int):
    rows = []
    for at in range(count):
        size, half = data.draw(st.floats(-0.8, 2.0)), data.draw(st.floats(0.01, 0.9))
        apart = data.draw(st.booleans())
        rows.append(player(f"{data.draw(names)} {at}", size, span(size * 0.4, half), apart))
    check(drawn(chart(Players, rows, role="bowler", at_least="300 balls")))


def series(count: int, rng: np.random.Generator, missing: bool = False) -> list[Point]:
    points = []
    for at in range(count):
        value = None if missing and at % 5 == 2 else float(5 + rng.normal(0, 0.3))
        season = f"{1990 + at}" if count < 40 else f"{1990 + at}/{(1991 + at) % 100:02d}"
        points.append(point(season, 1990 + at, value))
    return points


@given(
    count=st.integers(4, 60),
    events=st.integers(0, 5),
    seed=st.integers(0, 99),
    missing=st.booleans(),
)
@settings(max_examples=15, deadline=None)
def test_no_text_stands_on_another_in_a_trend(count: int, events: int, seed: int, missing: bool):
    rng = np.random.default_rng(seed)
    points = series(count, rng, missing)
    also = [
        OtherEvent(
            name=f"event {n} {'of a long name' * (n % 3)}",
            date=date(1990 + int(rng.integers(1, count)), 6, 1),
        )
        for n in range(events)
    ]
    chosen = windows([points[0].label, points[1].label], [points[-1].label])
    made = chart(Trend, [row("all", 5.0, 5.5, values={})], points, chosen)
    event = EVENT.model_copy(update={"date": points[2].first})
    check(frame(made, charts_view(also=also, event=event), theme_of(THEME, "light")))


@pytest.mark.parametrize("count", [1, 3, 10, 25, 50])
def test_no_text_stands_on_another_in_a_profile(count: int):
    bands = [
        row(f"{n}-{n}", 5 + n / 9, 5.5 + n / 9, values={"band": f"{n}-{n}"})
        for n in range(1, count + 1)
    ]
    check(drawn(chart(Phases, bands, bands=1)))


@pytest.mark.parametrize("size", [-1234.5, -0.05, 0.0001, 0.4])
def test_no_text_stands_on_another_in_a_split(size: float):
    half = effect(0.01, size / 2, half=0.1)
    mix = answer(Mix, "b.economy.mix", effect=half, verdict="held")
    rates = answer(Rates, "b.economy.rates", effect=half, verdict="held")
    whole = row("all", 5.0, 5.0 + size, values={})
    check(drawn(chart(MixBeat, [whole, mix, rates], by="bowler_kind")))


def test_gap_rows_stand_under_their_groups():
    phases = ("middle", "death")
    made = [f for name in phases for f in gap_and_groups(name, pace=(5.0, 5.3), spin=(5.0, 5.3))]
    canvas = drawn(chart(GapBeat, made, between={"bowler_kind": ["pace", "spin"]}, by="phase"))
    check(canvas)
    said = [words for words, _ in boxes(canvas)]
    order = [
        said.index(name)
        for name in ("Pace, overs 11–40", "Spin, overs 11–40", "Spin against pace, overs 11–40")
    ]
    assert order == sorted(order)


def test_a_blind_frame_says_nothing_of_when_and_keeps_its_shape(tmp_path: Path):
    points = series(14, np.random.default_rng(2))
    made = chart(TurningPoint, [turned(points, 6)], points, blind=True)
    hidden, shown = drawn(made, blind=True), drawn(made, still=True)
    said = " ".join(words for words, _ in boxes(hidden))
    for word in ("19", "20", EVENT.name, "data’s own date", "before", "after"):
        assert word not in said, word
    assert "1996" in " ".join(words for words, _ in boxes(shown))
    shapes = [
        [
            tuple(np.round(axes.get_position().bounds, 9)) + axes.get_ylim()
            for axes in canvas.figure.axes
        ]
        for canvas in (hidden, shown)
    ]
    assert shapes[0] == shapes[1]
    colours = {line.get_markeredgecolor() for axes in hidden.figure.axes for line in axes.lines}
    assert not {THEME.light.first, THEME.light.second} & colours
    render(made, charts_view(), tmp_path)
    with Image.open(tmp_path / "b.economy.blind.png") as picture:
        assert not picture.info or set(picture.info) <= {"dpi"}
    data = (tmp_path / "b.economy.blind.png").read_bytes()
    assert b"1996" not in data and b"tIME" not in data


def of_grounds() -> Chart:
    grounds = (("Coast", 5.4), ("Inland", 4.6), (LONG, 5.1))
    return chart(BeforeAfter, [row(name, 5.0, b) for name, b in grounds])


@pytest.fixture(scope="module")
def everything(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One chart in every set."""
    folder = tmp_path_factory.mktemp("frames")
    about = render(of_grounds(), charts_view(frames=list(SETS)), folder)
    contact_sheet(about.frames, theme_of(THEME, "light"), folder, folder / "contact-sheet.png")
    assert about.frames == [
        n for n in chart_files("b.economy", list(SETS), False) if n.endswith("png")
    ]
    return folder


def test_exact_sizes_at_both_resolutions(everything: Path):
    for path in everything.glob("b.economy*.png"):
        size = (3840, 2160) if "4k" in path.name else (1920, 1080)
        with Image.open(path) as picture:
            assert picture.size == size, path.name


@pytest.mark.parametrize(
    "name",
    ["b.economy.png", "b.economy.dark.png", "b.economy.light-4k.png", "b.economy.dark-4k.png"],
)
def test_nothing_is_drawn_outside_the_safe_area(everything: Path, name: str):
    with Image.open(everything / name) as picture:
        plain = picture.convert("RGB")
        ground = Image.new("RGB", plain.size, plain.getpixel((0, 0)))
        inked = np.abs(np.asarray(plain, int) - np.asarray(ground, int)).max(2) > 12
    rows, columns = np.where(inked.any(1))[0], np.where(inked.any(0))[0]
    left, top, right, bottom = SAFE[2 if "4k" in name else 1]
    assert columns[0] >= left - 1 and columns[-1] <= right and rows[0] >= top and rows[-1] <= bottom


def test_transparent_frames_are_clear_at_the_corners_and_solid_behind_the_words(everything: Path):
    for name in ("b.economy.clear.png", "b.economy.clear-4k.png"):
        with Image.open(everything / name) as picture:
            assert picture.mode == "RGBA"
            width, height = picture.size
            for corner in ((0, 0), (width - 1, 0), (0, height - 1), (width - 1, height - 1)):
                assert picture.getpixel(corner)[3] == 0
            middle = picture.getpixel((width // 2, round(height * 0.035) + 12))
            assert middle[3] == round(THEME.plate.opacity * 255)
            ground = getattr(THEME, THEME.plate.of).ground
            straight = tuple(int(ground[at : at + 2], 16) for at in (1, 3, 5))
            assert (
                max(abs(a - b) for a, b in zip(middle[:3], straight, strict=True)) <= 2
            )  # straight alpha


def test_the_build_comes_step_by_step_to_the_whole_frame(everything: Path):
    inked = []
    for number in range(1, STEPS + 1):
        with Image.open(everything / f"b.economy.step-{number}.png") as picture:
            inked.append(int((np.asarray(picture.convert("L")) < 250).sum()))
    assert inked == sorted(inked) and len(set(inked)) == STEPS
    last, whole = (everything / f"b.economy{name}.png" for name in (f".step-{STEPS}", ""))
    assert last.read_bytes() == whole.read_bytes()


def test_the_same_chart_has_the_same_bytes(everything: Path, tmp_path: Path):
    view = charts_view(frames=["light", "dark", "clear"])
    render(of_grounds(), view, tmp_path)
    for path in tmp_path.iterdir():
        assert path.read_bytes() == (everything / path.name).read_bytes(), path.name


def test_the_contact_sheet_holds_every_frame(everything: Path):
    with Image.open(everything / "contact-sheet.png") as sheet:
        assert sheet.width == 4 * (480 + 24) + 24
        assert sheet.height == 3 * (270 + 34 + 24) + 24  # ten frames in rows of four


@pytest.mark.slow
@pytest.mark.parametrize("topic", ["long-grass", "sea-air", "who-paid"])
def test_the_numbers_drawn_are_the_csv_and_the_facts(built: Path, topic: str):
    folder = built / "output" / topic
    facts = facts_of(built, topic)
    checked = 0
    for about in read_json(folder / "charts" / "charts.json", Charts).charts:
        with (folder / "charts" / f"{about.chart}.csv").open(encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        for line in rows:
            if "period" in line and line["value"]:
                fact = facts[f"{about.chart}.{line['period'].replace('/', '-')}"]
                assert float(line["value"]) == fact.value
                checked += 1
            elif line.get("change") and f"{line['finding']}.change" in facts:
                assert float(line["change"]) == facts[f"{line['finding']}.change"].value
                checked += 1
        assert about.hold_seconds > 4 and about.title and len(about.alt) > 60
    assert checked > 5


def test_hold_times_follow_the_words():
    """16 weighty words 8.2 s, 9 words 3.8 s and 2 s for what matters (a secondary source)."""
    assert hold_seconds("word " * 16) == pytest.approx(8.2)
    assert hold_seconds("word " * 9) == pytest.approx(3.8 + 2)
    assert hold_seconds("word " * 10) == pytest.approx(5.0 + 2)


# WCAG 2.2: #767676 on white passes at 4.54, #777777 fails at 4.48.
def test_contrast_is_that_of_the_guidelines():
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.542, abs=5e-4)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.478, abs=5e-4)
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)


@pytest.mark.parametrize("name", ["light", "dark"])
def test_the_theme_can_be_read_and_told_apart(name: str):
    palette = getattr(THEME, name)
    for colour in ("ink", "muted", "first", "second"):
        assert contrast(getattr(palette, colour), palette.ground) >= TEXT > MARKS
    clear = getattr(THEME, THEME.plate.of)
    for behind in ("#000000", "#FFFFFF"):
        ground = blended(clear.ground, THEME.plate.opacity, behind)
        assert contrast(clear.muted, ground) >= TEXT


# Machado, Oliveira & Fernandes 2009, severity 1, on linear RGB (values from memory).
SEEN = {
    "protanopia": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "deuteranopia": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
}


def lab(colour: str, sight: list[list[float]] | None) -> np.ndarray:
    """CIE L*a*b* (D65) of a colour as it is seen."""
    parts = np.array([int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)])
    linear = np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    if sight:
        linear = np.clip(np.array(sight) @ linear, 0, 1)
    to_xyz = [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
    xyz = np.array(to_xyz) @ linear / [0.9505, 1.0, 1.089]
    f = np.where(xyz > 0.008856, np.cbrt(xyz), 7.787 * xyz + 16 / 116)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


@pytest.mark.parametrize("sight", [None, *SEEN])
@pytest.mark.parametrize("name", ["light", "dark"])
def test_the_two_sides_are_told_apart_by_everyone(name: str, sight: str | None):
    """By colour at a distance of ten and more (two is just seen), and by hollow against solid."""
    first, second = (
        lab(getattr(getattr(THEME, name), side), SEEN.get(sight)) for side in ("first", "second")
    )
    assert np.linalg.norm(first - second) >= 10


def test_a_theme_that_cannot_be_read_is_refused():
    with pytest.raises(
        ValidationError, match=r"'muted' on #FFFFFF has a contrast of 2\.85; text needs 4\.5"
    ):
        Palette(**{**THEME.light.model_dump(), "muted": "#999999"})
    with pytest.raises(ValidationError, match=r"text needs 4\.5"):
        Theme(**{**dict(THEME), "plate": {"of": "dark", "opacity": 0.3, "corner": 20}})


def test_a_logo_stands_inside_the_safe_area(tmp_path: Path):
    path = tmp_path / "logo.png"
    Image.new("RGB", (900, 300), "#224488").save(path)
    view = charts_view(theme=THEME.model_copy(update={"logo": str(path)}))
    made = chart(BeforeAfter, [row("Coast", 5.0, 5.4)])
    canvas = frame(made, view, theme_of(THEME, "light"))
    check(canvas)
    (box,) = [axes.get_window_extent(canvas.renderer) for axes in canvas.figure.axes if axes.images]
    assert box.x1 <= SAFE[1][2] + 1 and box.y0 >= 1080 - SAFE[1][3] - 1 and box.width <= 221
    foot = [b for words, b in boxes(canvas) if words.startswith("400 matches")]
    assert foot[0].x1 < box.x0

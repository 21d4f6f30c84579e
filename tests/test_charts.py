"""Charts: exact sizes, text inside the safe area, the same bytes, the numbers of the findings."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from PIL import Image

from pipeline.charts.canvas import Canvas, save
from pipeline.charts.theme import FRAME, theme_of
from pipeline.contracts.facts import Charts
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from tests.chart_makers import THEME

pytestmark = pytest.mark.slow
# Graphics-safe area of a 1920x1080 frame, 5 % a side: EBU R 95 (2017), from a secondary source.
SAFE = (96, 54, 1824, 1026)


def frames(built: Path) -> list[Path]:
    every = sorted((built / "output").glob("*/charts/*.png"))
    found = [frame for frame in every if frame.name != "contact-sheet.png"]
    assert len(found) == 39 and len(every) == len(found) + 3
    return found


def test_frames_are_exactly_full_hd(built: Path):
    assert {Image.open(frame).size for frame in frames(built)} == {(1920, 1080)}


def test_nothing_is_drawn_outside_the_safe_area(built: Path):
    for frame in frames(built):
        picture = Image.open(frame).convert("RGB")
        if ".dark" in frame.name:
            continue  # on a light ground ink is what is dark
        inked = Image.eval(picture.convert("L"), lambda value: 255 if value < 250 else 0).getbbox()
        assert inked[0] >= SAFE[0] and inked[1] >= SAFE[1], (frame.name, inked)
        assert inked[2] <= SAFE[2] and inked[3] <= SAFE[3], (frame.name, inked)


def test_the_data_behind_a_chart_are_the_findings(built: Path):
    folder = built / "output" / "long-grass"
    found = read_json(folder / "findings.json", Findings).findings
    with (folder / "charts" / "kinds.economy.csv").open(encoding="utf-8") as file:
        rows = {row["finding"]: row for row in csv.DictReader(file)}
    mine = [finding for finding in found if finding.beat == "kinds"]
    assert len(rows) == len(mine) == 7
    for finding in mine:
        assert float(rows[finding.id]["before_value"]) == finding.a.value
        assert float(rows[finding.id]["change"]) == finding.told.change.value


def test_each_chart_has_words_for_those_who_cannot_see_it(built: Path):
    for topic in ("long-grass", "sea-air", "who-paid"):
        path = built / "output" / topic / "charts" / "charts.json"
        for chart in read_json(path, Charts).charts:
            assert len(chart.alt) > 60 and "None" not in chart.alt


def test_one_figure_saved_twice_has_the_same_bytes(tmp_path: Path):
    for name in ("a", "b"):
        canvas = Canvas(640, 360, theme_of(THEME, "light"), FRAME)
        canvas.text(40, 100, "Naïve Łódka 1,234", 44)
        for kind in ("png", "svg"):
            save(canvas, tmp_path / f"{name}.{kind}")
    for kind in ("png", "svg"):
        assert (tmp_path / f"a.{kind}").read_bytes() == (tmp_path / f"b.{kind}").read_bytes()
    assert Image.open(tmp_path / "a.png").size == (640, 360)

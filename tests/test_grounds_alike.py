"""Spellings of one ground are proposed, with why; another ground of the same park is not."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from pipeline.clean.grounds_alike import Venue, proposals
from tests.builders import cleaned, delivery, match, quality_of, rows


def venue(name: str, *cities: str, balls: int = 10, ground: str = "") -> Venue:
    return Venue(name, cities[0] if cities else "", ground or name, cities, balls, bool(ground))


def proposed(*venues: Venue) -> dict[str, str]:
    return {name: each.ground for (name, _), each in proposals(list(venues)).items()}


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (venue("Pebble Ground"), venue("Pebble Ground, Pebbleton")),
        (venue("Pebble Ground", "Pebbleton"), venue("Pebble Ground, Pebbleton")),
        (venue("Pebble Ground (Pebbleton)"), venue("PEBBLE GROUND")),
        (venue("St. Ann's Park"), venue("Saint Anns Park")),
        (venue("St Brannoc Road", "Port St Ives"), venue("Saint Brannoc Rd, Port Saint Ives")),
        (venue("Élan Fields"), venue("Elan Fields")),
        (venue("The Pebble Cricket Ground"), venue("Pebble Ground")),
        (venue("Pebble Pk"), venue("Pebble Park")),
        (venue("Oval, Pebbleton"), venue("The Oval", "Pebbleton")),
        (venue("Pebble Park No. 2"), venue("Pebble Park, No 2")),
        (venue("Pebble Park Number Two"), venue("Pebble Park 2, Pebbleton")),
        (venue("Hobbs  Lane-Ground"), venue("Hobbs Lane Ground")),
        (venue("Stonewether Field", "Highcairn"), venue("Stonewhether Field", "Highcairn")),
        (venue("Main Street", "Upton"), venue("Main St", "Upton")),
    ],
)
def test_spellings_of_one_ground_are_proposed(one: Venue, other: Venue):
    found = proposed(one, other)
    assert set(found) == {one.venue, other.venue} and len(set(found.values())) == 1


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (venue("Pebble Park"), venue("Pebble Park No. 2")),
        (venue("Pebble Park No. 1"), venue("Pebble Park No. 2")),
        (venue("Pebble Park, Ground 1", "Upton"), venue("Pebble Park, Ground 2", "Upton")),
        (venue("Pebble Park Ground A", "Upton"), venue("Pebble Park Ground B", "Upton")),
        (venue("Pebble Park II", "Upton"), venue("Pebble Park", "Upton")),
        (venue("Town Ground", "Upper"), venue("Town Ground, Lower")),
        (venue("The Oval"), venue("Oval, Pebbleton")),  # many towns have one
        (venue("Pebble Park", "Upton"), venue("Pebble Ground", "Upton")),
        (venue("North Stonewether", "Upton"), venue("South Stonewether", "Upton")),
        (venue("Stonewether Field"), venue("Stonewhether Field")),  # a slip, but of which town?
    ],
)
def test_other_grounds_are_not(one: Venue, other: Venue):
    assert proposed(one, other) == {}


def test_a_ground_of_the_sheet_is_proposed_before_the_spelling_of_most_balls():
    sheet = venue("Pebble Field", "Pebbleton", balls=1, ground="The Pebbles")
    often, seldom = venue("Pebble Fd, Pebbleton", balls=90), venue("Pebble Field, Pebbleton")
    assert proposed(sheet, often, seldom) == dict.fromkeys(
        (often.venue, seldom.venue), "The Pebbles"
    )
    assert proposed(often, seldom) == dict.fromkeys((often.venue, seldom.venue), often.venue)


def test_what_the_sheet_tells_apart_is_not_proposed_again():
    one = venue("Pebble Ground", "Pebbleton", ground="Old Pebble Ground")
    other = venue("Pebble Ground, Pebbleton", ground="New Pebble Ground")
    assert proposed(one, other) == {}


def test_proposals_are_in_the_sheet_to_fill_and_never_applied(tmp_path: Path):
    """Though the country of both is known."""
    grounds = (
        "venue,ground,city,country,region\n"
        "Pebble Field,The Pebbles,Pebbleton,Sri Lanka,\n"
        '"Pebble Fd., Pebbleton",,Pebbleton,Sri Lanka,\n'
    )
    venues = ("Pebble Field", "Pebble Fd., Pebbleton", "Pebble Field No. 2", "Elsewhere")
    found = {f"m{n}.json": match([delivery(1)], venue=name) for n, name in enumerate(venues)}
    data = cleaned(tmp_path, {"grounds": grounds}, only=found)
    with (data / "grounds-to-fill.csv").open(encoding="utf-8", newline="") as file:
        sheet = {row["venue"]: row for row in csv.DictReader(file)}
    assert set(sheet) == set(venues[1:])
    row = sheet["Pebble Fd., Pebbleton"]
    assert (row["perhaps_ground"], row["country"]) == ("The Pebbles", "Sri Lanka")
    assert row["perhaps_same_as"] == "Pebble Field (the same name, in Pebbleton)"
    assert sheet["Pebble Field No. 2"]["perhaps_ground"] == ""
    assert [row["ground"] for row in rows(data, "matches")] == ["The Pebbles", *venues[1:]]
    odd = quality_of(data)["odd"]["venues_that_may_be_one_ground"]
    assert odd == {
        "count": 1,
        "examples": [
            "Pebble Fd., Pebbleton: perhaps The Pebbles; Pebble Field (the same name, in Pebbleton)"
        ],
    }


def test_names_in_letters_that_are_not_known_are_not_alike():
    """Folded they are both nothing."""
    venues = [Venue(name, "Pebbleton", name) for name in ("Мост", "Поле")]
    assert proposals(venues) == {}

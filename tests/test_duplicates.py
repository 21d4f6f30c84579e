"""One match in several sources: which copy is kept, why, and where the others say otherwise."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.clean.quality_page import table
from pipeline.contracts.files import read_json
from pipeline.contracts.quality import Quality
from tests.builders import (
    cleaned,
    cleaned_sources,
    delivery,
    match,
    quality_of,
    rows,
    rows_of,
    source,
    write_csv,
    write_zip,
)

WHOLE = {"times": 1, "first": ""}  # of what is no delivery's


def copy(runs: int = 1, revision: int = 1, **info: Any) -> dict[str, Any]:
    found = match([delivery(runs)], **info)
    found["meta"]["revision"] = revision
    return found


def test_copies_that_differ_are_told_field_by_field(tmp_path: Path):
    data = cleaned(
        tmp_path,
        first={"m1.json": copy(1, venue="Pebble Field"), "m2.json": copy(2)},
        second={
            "m1.json": copy(
                4, venue="Pebble Fd", city="Pebbleton", teams=["Southfen", "Northmoor"]
            ),
            "m2.json": copy(2),
        },
    )
    found = quality_of(data)["duplicates"]
    assert (found["count"], found["differing"]) == (2, 1)
    assert found["fields"] == {"delivery, runs_batter": 1, "innings 1, runs": 1, "venue": 1}
    assert found["lost"] == {"city": 1}
    (told,) = found["copies"]
    assert (told["match_id"], told["kept"], told["dropped"]) == ("m1", "first", "second")
    assert told["why"] == (
        "both are of revision 1, and 'first' stands before 'second' in sources.yaml"
    )
    assert told["differs"] == [
        {"field": "venue", "kept": "Pebble Field", "dropped": "Pebble Fd", **WHOLE},
        {"field": "innings 1, runs", "kept": "1", "dropped": "4", **WHOLE},
        {
            "field": "delivery, runs_batter",
            **{"kept": "1", "dropped": "4", "times": 1, "first": "innings 1, 1.1"},
        },
    ]
    page = (data / "quality.html").read_text("utf-8")
    row = '<td class="text">innings 1, runs</td><td class="text">1</td><td class="text">4</td>'
    assert row in page and "What only the dropped copy has" in page
    lines = table(read_json(data / "quality.json", Quality))
    assert any("2 (1 with differences)" in line for line in lines)


def test_what_differs_most_often_comes_first(tmp_path: Path):
    first = {f"m{n}.json": copy(1) for n in range(3)}
    second = {f"m{n}.json": copy(2 if n else 1, venue="Elsewhere") for n in range(3)}
    found = quality_of(cleaned(tmp_path, first=first, second=second))["duplicates"]
    told = list(found["fields"].items())
    assert told[0] == ("venue", 3)
    assert sorted(told[1:]) == [("delivery, runs_batter", 2), ("innings 1, runs", 2)]


def test_a_last_day_is_told_where_it_is_not_the_first(tmp_path: Path):
    one, two, three = ("2020-06-01", "2020-06-02", "2020-06-03")
    first = {"m1.json": copy(dates=[one, two]), "m2.json": copy(dates=[one])}
    second = {"m1.json": copy(dates=[one, three]), "m2.json": copy(dates=[one, two])}
    found = quality_of(cleaned(tmp_path, first=first, second=second))["duplicates"]
    assert (found["fields"], found["lost"]) == ({"last_day": 1}, {"last_day": 1})


def test_the_higher_revision_is_kept_and_said_to_be_why(tmp_path: Path):
    late = copy(4, revision=3)
    late["innings"].append({"team": "Southfen", "overs": []})
    data = cleaned(tmp_path, first={"m1.json": copy(1)}, second={"m1.json": late})
    (told,) = quality_of(data)["duplicates"]["copies"]
    assert (told["kept"], told["why"]) == ("second", "its revision is 3, the other's 1")
    assert rows(data, "deliveries")[0]["runs_batter"] == 4


def test_three_copies_of_a_match_are_two_dropped(tmp_path: Path):
    three = {name: {"m1.json": copy(runs)} for name, runs in (("a", 1), ("b", 2), ("c", 1))}
    found = quality_of(cleaned(tmp_path, **three))["duplicates"]
    assert (found["count"], found["differing"]) == (2, 1)
    assert [(each["kept"], each["dropped"]) for each in found["copies"]] == [("a", "b")]


def test_a_copy_without_balls_is_told_by_what_it_lacks(tmp_path: Path):
    empty = {**copy(), "innings": []}
    found = quality_of(cleaned(tmp_path, first={"m1.json": empty}, second={"m1.json": copy()}))
    lost = found["duplicates"]["lost"]
    names = ("balls", "batting side", "declared", "forfeited", "penalty runs", "runs", "wickets")
    assert lost == {f"innings 1, {name}": 1 for name in names}
    assert found["duplicates"]["differing"] == 0


def test_copies_in_two_layouts_differ_in_what_rows_can_carry(tmp_path: Path):
    """The rows lack toss and result; they say another number of byes."""
    found = match([delivery(1), delivery(byes=2)])
    told = [{**row, "byes": 1, "extras": 1} if row["byes"] else row for row in rows_of(found)]
    sources = [
        source(write_csv(tmp_path / "m.csv", told), "delivery-csv", id="rows"),
        source(write_zip(tmp_path / "m.zip", {"m1.json": found}), id="files"),
    ]
    kept_rows = quality_of(cleaned_sources(tmp_path, sources, {}))["duplicates"]
    (copy_of,) = kept_rows["copies"]
    assert (copy_of["kept"], copy_of["dropped"]) == ("rows", "files")
    assert copy_of["differs"] == [
        {"field": "innings 1, runs", "kept": "2", "dropped": "3", **WHOLE},
        {
            "field": "delivery, byes",
            "kept": "1",
            "dropped": "2",
            "times": 1,
            "first": "innings 1, 1.2",
        },
    ]
    assert {"gender", "competition", "toss_winner", "margin"} <= set(copy_of["lost"])
    swapped = quality_of(cleaned_sources(tmp_path / "again", sources[::-1], {}))["duplicates"]
    assert swapped["fields"] == {"delivery, byes": 1, "innings 1, runs": 1}
    assert swapped["lost"] == {}


def test_no_copy_is_none(tmp_path: Path):
    data = cleaned(tmp_path, only={"m1.json": copy()})
    assert quality_of(data)["duplicates"] == {
        **{"count": 0, "differing": 0, "fields": {}, "times": {}, "lost": {}},
        "copies": [],
    }
    assert "Copies that were dropped" in (data / "quality.html").read_text("utf-8")


def likely(tmp_path: Path, one: dict[str, Any], other: dict[str, Any]) -> list[str]:
    """Matches of two sources under two ids that may be one; none is dropped."""
    data = cleaned(tmp_path, first={"m1.json": one}, second={"x9.json": other})
    assert len(rows(data, "matches")) == 2
    return quality_of(data)["odd"]["matches_that_may_be_one"]["examples"]


def test_one_match_under_two_ids_is_proposed_and_kept(tmp_path: Path):
    """Sides the other way round, in other letters; at one ground though the competition differs."""
    other = copy(
        event={"name": "The Pebble Cup"}, teams=["SOUTHFEN", "Nórthmoor"], venue="Pebble field"
    )
    other["innings"][0]["team"] = "Nórthmoor"
    other["info"]["players"] = {"SOUTHFEN": ["Q Bowl"], "Nórthmoor": ["A Batt", "B Batt"]}
    assert likely(tmp_path / "same", copy(), other) == [
        "m1 (first) and x9 (second): 2020-06-01, Northmoor and Southfen, both 1/0"
    ]
    (told,) = likely(tmp_path / "runs", copy(4), copy(1, venue="Elsewhere"))
    assert told.endswith("Northmoor and Southfen, 4/0 and 1/0")


def test_what_is_no_likely_duplicate(tmp_path: Path):
    others = {
        "day": copy(dates=["2020-06-02"]),
        "gender": copy(gender="male"),
        "place": copy(event={"name": "Sand Cup"}, venue="Elsewhere"),
    }
    for name, other in others.items():
        assert likely(tmp_path / name, copy(), other) == [], name
    two = {"m1.json": copy(), "m2.json": copy()}  # of one source: two matches of a day
    report = quality_of(cleaned(tmp_path / "one", only=two))
    assert report["odd"]["matches_that_may_be_one"]["count"] == 0


def test_copies_differ_in_what_stands_beside_the_deliveries(tmp_path: Path):
    """Penalty runs are of the total, though of no delivery."""
    other = copy(1)
    other["innings"][0] |= {"penalty_runs": {"pre": 5}, "target": {"runs": 200, "overs": 50}}
    data = cleaned(tmp_path, first={"m1.json": copy(1)}, second={"m1.json": other})
    found = quality_of(data)["duplicates"]
    assert found["fields"] == {"innings 1, penalty runs": 1}
    assert {"innings 1, target": 1, "innings 1, target overs": 1}.items() <= found["lost"].items()


def over_of(*balls: dict[str, Any], **info: Any) -> dict[str, Any]:
    return match(list(balls), **info)


def differing(tmp_path: Path, one: dict[str, Any], other: dict[str, Any]) -> dict[str, Any]:
    """What two copies differ in, by field: kept, dropped, how often, and where first."""
    data = cleaned(tmp_path, first={"m1.json": one}, second={"m1.json": other})
    copies = quality_of(data)["duplicates"]["copies"]
    told = copies[0]["differs"] if copies else []
    return {
        each["field"]: (each["kept"], each["dropped"], each["times"], each["first"])
        for each in told
    }


def test_other_players_with_equal_totals_are_told_by_ball(tmp_path: Path):
    """The second and third ball were bowled to the other batter, who is out off the last."""
    out = {"kind": "bowled", "player_out": "A Batt"}
    balls = [delivery(1), delivery(), delivery(2), delivery(wicket=out)]
    swapped = {"batter": "B Batt", "non_striker": "A Batt"}
    caught = {**out, "kind": "lbw", "player_out": "B Batt"}
    others = [balls[0], balls[1] | swapped, balls[2] | swapped, delivery(wicket=caught) | swapped]
    assert differing(tmp_path, over_of(*balls), over_of(*others)) == {
        "delivery, batter": ("A Batt", "B Batt", 3, "innings 1, 1.2"),
        "delivery, non_striker": ("B Batt", "A Batt", 3, "innings 1, 1.2"),
        "delivery, player_out": ("A Batt", "B Batt", 1, "innings 1, 1.4"),
        "delivery, dismissal": ("bowled", "lbw", 1, "innings 1, 1.4"),
    }


def test_runs_that_only_stand_elsewhere_are_told_by_ball(tmp_path: Path):
    found = differing(tmp_path, over_of(delivery(4), delivery()), over_of(delivery(), delivery(4)))
    assert found == {"delivery, runs_batter": ("4", "0", 2, "innings 1, 1.1")}


def test_a_player_is_one_by_id_or_by_name(tmp_path: Path):
    """Another register of ids, other letters: no difference. The same id under two names: none."""
    ids = {"A Batt": "x1", "B Batt": "x2", "C Batt": "x3", "Q Bowl": "x4"}
    assert differing(tmp_path / "a", copy(), copy(registry={"people": ids})) == {}
    renamed = copy(registry={"people": {"Ann Batt": "id-a", "B Batt": "id-b", "Q Bowl": "id-q"}})
    renamed["info"]["players"]["Northmoor"][0] = "Ann Batt"
    renamed["innings"][0]["overs"][0]["deliveries"][0]["batter"] = "Ann Batt"
    assert differing(tmp_path / "b", copy(), renamed) == {}


def test_overs_of_other_lengths_are_counted_and_not_compared_ball_by_ball(tmp_path: Path):
    wide = [delivery(wides=1), delivery(1), delivery(4)]
    found = differing(tmp_path, over_of(*wide), over_of(delivery(1), delivery(5)))
    assert found["over, deliveries"] == ("3", "2", 1, "innings 1, 1")
    assert not any(field.startswith("delivery, ") for field in found)


def test_innings_and_match_facts_that_differ_are_told(tmp_path: Path):
    other = copy(toss={"winner": "Southfen", "decision": "bat"}, outcome={"result": "no result"})
    other["innings"][0] |= {"declared": True}
    one = copy(toss={"winner": "Northmoor", "decision": "bat"})
    found = differing(tmp_path, one, other)
    assert found["innings 1, declared"] == ("no", "yes", 1, "")
    assert found["toss_winner"] == ("Northmoor", "Southfen", 1, "")
    page = (tmp_path / "data" / "quality.html").read_text("utf-8")
    assert "<li>innings 1, declared: 1 copy</li>" in page


def test_the_page_counts_deliveries_and_names_the_first(tmp_path: Path):
    one, other = over_of(delivery(4), delivery()), over_of(delivery(), delivery(4))
    pairs = {f"m{at}.json": one for at in (1, 2)}, {f"m{at}.json": other for at in (1, 2)}
    data = cleaned(tmp_path, first=pairs[0], second=pairs[1])
    found = quality_of(data)["duplicates"]
    assert (found["fields"], found["times"]) == (
        {"delivery, runs_batter": 2},
        {"delivery, runs_batter": 4},
    )
    page = (data / "quality.html").read_text("utf-8")
    assert "<li>delivery, runs batter: 2 copies, 4 deliveries</li>" in page
    cells = '<td class="text">delivery, runs batter</td><td class="text">4 <span class="note">'
    assert f"{cells}(innings 1, 1.1, the first of 2)</span></td>" in page

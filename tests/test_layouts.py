"""What an importer meets: each oddity of real archives, by name, in a tiny invented file."""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest

from pipeline.clean.overs import balls_of
from pipeline.ingest.laws import CREDITED, NOT_OUT, UNCREDITED
from tests.builders import (
    COLUMNS,
    cleaned,
    delivery,
    match,
    quality_of,
    read,
    read_all,
    rows,
    rows_of,
    source,
    strays_of,
    write_csv,
    write_delivery_csv,
    write_zip,
)

SIX = [delivery(1) for _ in range(6)]


def overs(found: dict, *counts: int) -> dict:
    """The match with overs of so many valid balls each."""
    found["innings"][0]["overs"] = [
        {"over": number, "deliveries": [delivery(1) for _ in range(count)]}
        for number, count in enumerate(counts)
    ]
    return found


def second_innings(found: dict, deliveries: list[dict], **more) -> dict:
    """Southfen's reply; its batters are Q Bowl and D Batt."""
    swap = {"batter": "Q Bowl", "non_striker": "D Batt", "bowler": "A Batt"}
    played = [{"over": 0, "deliveries": [{**ball, **swap} for ball in deliveries]}]
    found["innings"].append({"team": "Southfen", "overs": played, **more})
    return found


@pytest.mark.parametrize("balls", [5, "5"])
def test_miscounted_overs_as_number_or_text(tmp_path: Path, balls):
    found = overs(match([]), 6, 5, 6, 7, 6)
    found["innings"][0]["miscounted_overs"] = {"1": {"balls": balls}}
    data = cleaned(tmp_path, only={"m1.json": found})
    odd = quality_of(data)["odd"]["overs_of_odd_length"]
    assert odd["examples"] == [
        "m1, innings 1, over 2: 5 balls (marked in the file)",
        "m1, innings 1, over 4: 7 balls",
    ]
    assert sum(row["legal"] for row in rows(data, "deliveries")) == 30


def test_a_last_over_may_be_long_or_without_a_valid_ball(tmp_path: Path):
    long, none = overs(match([]), 6, 8), overs(match([]), 6)
    none["innings"][0]["overs"].append({"over": 1, "deliveries": [delivery(wides=1)]})
    data = cleaned(tmp_path, only={"m1.json": long, "m2.json": none})
    assert quality_of(data)["odd"]["overs_of_odd_length"]["count"] == 0
    assert sum(row["legal"] for row in rows(data, "deliveries")) == 20


def test_five_ball_overs_are_whole_where_the_file_says_so(tmp_path: Path):
    found = overs(match([], balls_per_over=5, overs=20), 5, 5, 5)
    data = cleaned(tmp_path, only={"m1.json": found})
    assert quality_of(data)["odd"]["overs_of_odd_length"]["count"] == 0
    assert rows(data, "matches")[0]["balls_per_over"] == 5


def test_the_tenth_delivery_is_not_the_first(tmp_path: Path):
    """'0.10' read as a number would be '0.1'."""
    found = match([delivery(n % 3) for n in range(11)])
    csv = rows_of(found)
    assert [row["ball"] for row in csv][-2:] == ["0.10", "0.11"]
    path = write_csv(tmp_path / "m.csv", csv)
    tables, problems = read_all(source(path, "delivery-csv"))
    assert problems == []
    assert tables.deliveries["delivery"].to_pylist() == list(range(1, 12))
    assert set(tables.deliveries["over"].to_pylist()) == {1}


@pytest.mark.parametrize("bat", [0, 4])
@pytest.mark.parametrize(
    "kinds", [combined for combined in product((0, 2), repeat=5) if any(combined)]
)
def test_every_combination_of_extras(tmp_path: Path, kinds: tuple[int, ...], bat: int):
    """Charged and valid after Laws 17.3.2, 21.16, 22.6, 23 and 41.18 of the MCC Laws (2017)."""
    names = ("wides", "noballs", "byes", "legbyes", "penalty")
    given = {name: runs for name, runs in zip(names, kinds, strict=True) if runs}
    (row,) = read(tmp_path, match([delivery(bat, **given)])).deliveries.to_pylist()
    wides, noballs, *_ = kinds
    assert row["runs_total"] == bat + sum(kinds)
    assert row["runs_bowler"] == bat + wides + noballs
    assert (row["legal"], row["faced"]) == (not wides and not noballs, not wides)


def test_a_no_ball_worth_two_and_byes_coded_as_no_balls(tmp_path: Path):
    found = match([delivery(noballs=2), delivery(noballs=5)])
    assert read(tmp_path, found).deliveries["runs_bowler"].to_pylist() == [2, 5]


@pytest.mark.parametrize("kind", sorted(CREDITED | UNCREDITED | NOT_OUT))
def test_every_kind_of_dismissal_and_who_gets_it(tmp_path: Path, kind: str):
    """Laws 32 to 40 and 25.4: the bowler's, nobody's, or not out at all."""
    ball = delivery(wicket={"kind": kind, "player_out": "B Batt", "fielders": [{}]})
    tables = read(tmp_path, match([ball]))
    row = tables.deliveries.to_pylist()[0]
    assert (row["wickets"], row["bowler_wickets"]) == (kind not in NOT_OUT, kind in CREDITED)
    assert tables.dismissals["player_out_id"].to_pylist() == ["id-b"]


def test_ten_retired_out_on_one_delivery(tmp_path: Path):
    ball = delivery()
    ball["wickets"] = [{"kind": "retired out", "player_out": f"P{n}"} for n in range(10)]
    tables = read(tmp_path, match([ball]))
    assert tables.dismissals.num_rows == 10
    assert tables.deliveries["wickets"].to_pylist() == [10]
    assert tables.deliveries["bowler_wickets"].to_pylist() == [0]


def test_the_player_out_may_be_at_neither_end(tmp_path: Path):
    ball = delivery(wicket={"kind": "timed out", "player_out": "C Batt"})
    assert read(tmp_path, match([ball])).dismissals["player_out_id"].to_pylist() == ["id-c"]


def test_six_super_overs_are_set_aside_in_json(tmp_path: Path):
    found = match(SIX)
    extra = {**found["innings"][0], "super_over": True}
    found["innings"] += [extra] * 6
    data = cleaned(tmp_path, only={"m1.json": found})
    assert quality_of(data)["counts"]["super_overs_set_aside"] == 6
    assert len(rows(data, "deliveries")) == 6


def test_super_overs_in_rows_are_those_after_two_innings_of_limited_overs(tmp_path: Path):
    found = match([delivery(1)])
    made = [{**row, "innings": n} for n in (1, 2, 3, 4) for row in rows_of(found)]
    folder = write_delivery_csv(tmp_path / "limited", found)
    (folder / "m1_info.csv").write_text("info,gender,female\ninfo,overs,50\n", "utf-8")
    write_csv(folder / "m1.csv", made)
    limited, _ = read_all(source(folder, "delivery-csv"))
    assert limited.matches["super_overs"].to_pylist() == [2]
    assert limited.deliveries["innings"].to_pylist() == [1, 2]
    unlimited, _ = read_all(source(write_csv(tmp_path / "m.csv", made), "delivery-csv"))
    assert unlimited.deliveries["innings"].to_pylist() == [1, 2, 3, 4]


def test_a_forfeited_innings_has_no_balls(tmp_path: Path):
    found = match(SIX)
    found["innings"].append({"team": "Southfen", "forfeited": True})
    data = cleaned(tmp_path, only={"m1.json": found})
    assert [row["balls"] for row in rows(data, "innings")] == [6, 0]
    report = quality_of(data)
    assert report["counts"]["innings_forfeited"] == 1
    assert report["checked"]["winners"] == 0  # who won by the balls can't be said


def test_a_match_of_one_innings(tmp_path: Path):
    data = cleaned(tmp_path, only={"m1.json": match(SIX)})
    report = quality_of(data)
    assert report["counts"]["innings"] == 1 and report["checked"]["winners_not_checked"] == 1


def test_penalty_runs_of_an_innings_are_in_its_total_only(tmp_path: Path):
    found = match(SIX)
    found["innings"][0]["penalty_runs"] = {"pre": 5, "post": 5}
    data = cleaned(tmp_path, only={"m1.json": found})
    (innings,) = rows(data, "innings")
    assert (innings["runs"], innings["penalty"]) == (16, 10)
    assert sum(row["runs_total"] for row in rows(data, "deliveries")) == 6


@pytest.mark.parametrize(("season", "text"), [("2016/17", "2016/17"), (2016, "2016")])
def test_seasons_as_text_or_number(tmp_path: Path, season, text: str):
    found = match(SIX, season=season, dates=["2017-01-02", "2017-01-01"])
    (row,) = read(tmp_path, found).matches.to_pylist()
    assert (row["season"], str(row["date"])) == (text, "2017-01-01")


def test_a_name_that_two_people_share_is_reported(tmp_path: Path):
    other = match(SIX, registry={"people": {"A Batt": "id-x"}})
    data = cleaned(tmp_path, only={"m1.json": match(SIX), "m2.json": other})
    odd = quality_of(data)["odd"]
    assert "A Batt (female): id-a, id-x" in odd["one_name_several_people"]["examples"]
    assert odd["people_without_id"]["examples"] == [
        "B Batt (Northmoor)",
        "Q Bowl (Southfen)",
    ]


def test_one_person_under_two_names_is_reported(tmp_path: Path):
    other = match(SIX, registry={"people": {"A Batt": "id-q"}})
    data = cleaned(tmp_path, only={"m1.json": match(SIX), "m2.json": other})
    assert quality_of(data)["odd"]["one_person_several_names"]["examples"] == [
        "id-q: A Batt, Q Bowl"
    ]


def test_two_players_of_one_name_in_a_match(tmp_path: Path):
    """With one id for both the file can't tell them apart; without ids the sides do."""
    ball = {**delivery(1), "bowler": "A Batt"}
    for name, people in (("ids", {"A Batt": "id-a"}), ("none", {})):
        found = match([ball], registry={"people": people})
        data = cleaned(tmp_path / name, only={"m1.json": found})
        clash = quality_of(data)["odd"]["one_name_on_both_sides"]["examples"]
        (row,) = rows(data, "deliveries")
        if people:
            assert clash == ["m1: A Batt under one id"]
        else:
            assert clash == [] and row["batter_id"] != row["bowler_id"]


def test_sides_of_one_name_of_both_genders(tmp_path: Path):
    data = cleaned(tmp_path, only={"m1.json": match(SIX), "m2.json": match(SIX, gender="male")})
    assert quality_of(data)["odd"]["sides_of_both_genders"]["examples"] == [
        "Northmoor: female, male",
        "Southfen: female, male",
    ]


def test_one_venue_name_in_two_cities_is_two_grounds(tmp_path: Path):
    sheet = (
        "venue,ground,city,country,region,venue_city\n"
        "Town Ground,Town Ground North,Upper,Sri Lanka,,Upper\n"
        "Town Ground,Town Ground South,Lower,Nowhereland,south,\n"
    )
    found = {
        f"m{n}.json": match(SIX, venue="Town Ground", **({"city": city} if city else {}))
        for n, city in enumerate(("Upper", "Lower", None))
    }
    data = cleaned(tmp_path, {"grounds": sheet}, only=found)
    made = [(row["ground"], row["region"]) for row in rows(data, "matches")]
    south = ("Town Ground South", "south")
    assert made == [("Town Ground North", "Southern Asia"), south, south]
    odd = quality_of(data)["odd"]["venues_in_several_cities"]["examples"]
    assert odd == ["Town Ground: Lower, Upper"]


@pytest.mark.parametrize(
    ("text", "balls_per_over", "balls"),
    [
        ("40.2", 6, 242),  # 40 overs and 2 balls, not 40.2 overs
        ("7.3", 6, 45),
        ("7.6", 6, None),  # six balls are an over
        ("20", 5, 100),
        ("19.4", 5, 99),
        ("forty", 6, None),
        (None, 6, None),
    ],
)
def test_overs_in_the_trades_notation(text: str | None, balls_per_over: int, balls: int | None):
    """Common practice: the part after the point is balls; it has no published source."""
    assert balls_of(text, balls_per_over) == balls


@pytest.mark.parametrize(
    ("target", "balls", "reduced"),
    [
        ({"runs": 5, "overs": 40.2}, 242, True),
        ({"runs": 5, "overs": "50"}, 300, False),
        ({"runs": 5}, None, None),
        ({"runs": 5, "overs": "rain"}, None, None),
    ],
)
def test_reduced_targets_and_what_is_not_known(tmp_path: Path, target, balls, reduced):
    """Only a target says that overs were lost; the first innings' own limit is in no file."""
    found = second_innings(match(SIX), [delivery(1)], target=target)
    data = cleaned(tmp_path, only={"m1.json": found})
    (row,) = rows(data, "matches")
    assert (row["target_balls"], row["reduced"]) == (balls, reduced)
    assert rows(data, "innings")[0]["target_balls"] is None
    assert quality_of(data)["counts"]["targets_reduced"] == (reduced is True)
    unread = quality_of(data)["odd"]["target_overs_that_cannot_be_read"]["count"]
    assert unread == (target.get("overs") == "rain")


def test_missing_keys_are_unknown_where_they_may_be(tmp_path: Path):
    found = match(SIX)
    for key in ("city", "venue", "event", "overs", "team_type", "toss", "players", "registry"):
        found["info"].pop(key, None)
    found["info"]["missing"] = ["player_of_match"]
    (row,) = rows(cleaned(tmp_path, only={"m1.json": found}), "matches")
    assert (row["competition"], row["ground"], row["team_type"]) == ("unknown",) * 3
    assert row["overs_limit"] is None and row["toss_winner"] is None


@pytest.mark.parametrize("key", ["season", "dates", "teams", "gender", "match_type"])
def test_missing_keys_that_no_match_can_do_without_are_named(tmp_path: Path, key: str):
    found = match(SIX)
    del found["info"][key]
    _, (problem,) = read_all(source(write_zip(tmp_path / "m.zip", {"m1.json": found})))
    assert f"missing required field `{key}`" in str(problem)


def test_stray_keys_are_counted_by_their_place(tmp_path: Path):
    found = match([{**delivery(1), "weather": "fair"}, {**delivery(1), "weather": "rain"}])
    found["info"]["umpirs"] = ["U One"]
    found["innings"][0]["miscounted_overs"] = {"0": {"bals": 7}}
    given = source(write_zip(tmp_path / "m.zip", {"m1.json": found, "m2.json": match(SIX)}))
    assert strays_of(given) == {
        "$.info.umpirs": 1,
        "$.innings[].miscounted_overs.*.bals": 1,
        "$.innings[].overs[].deliveries[].weather": 2,
    }
    tables, problems = read_all(given)
    assert problems == [] and tables.deliveries.num_rows == 8


def test_columns_and_keys_that_rows_should_not_have_are_counted_too(tmp_path: Path):
    """What the layout has and nothing is made of is none of them; a table may have any."""
    rows = [{**row, "weather": "fair", "fielder_1": "Q Bowl"} for row in rows_of(match(SIX))]
    folder = write_delivery_csv(tmp_path / "rows", match(SIX))
    write_csv(folder / "m1.csv", rows)
    write_csv(folder / "m2.csv", [{**row, "match_id": "m2"} for row in rows])
    with (folder / "m1_info.csv").open("a", encoding="utf-8") as info:
        info.write("\ninfo,umpire,U One\ninfo,umpirs,U Two\ninfo,umpirs,U Three\n")
    given = source(folder, "delivery-csv")
    assert strays_of(given) == {"weather": 2, "info.umpirs": 2}
    tables, problems = read_all(given)
    assert problems == [] and tables.matches.num_rows == 2
    table = write_csv(tmp_path / "t.csv", rows)
    assert strays_of(source(table, "table", columns=COLUMNS)) == {}


def test_a_stray_key_does_not_hide_a_wrong_type(tmp_path: Path):
    found = match([{**delivery(1), "weather": "fair"}])
    found["innings"][0]["overs"][0]["deliveries"][0]["runs"]["total"] = "1"
    _, (problem,) = read_all(source(write_zip(tmp_path / "m.zip", {"m1.json": found})))
    assert "$.innings[0].overs[0].deliveries[0].runs.total" in str(problem)


def test_an_over_that_stands_twice_is_refused(tmp_path: Path):
    found = overs(match([]), 6, 6)
    found["innings"][0]["overs"][1]["over"] = 0
    _, (problem,) = read_all(source(write_zip(tmp_path / "m.zip", {"m1.json": found})))
    assert "innings 1: over 1 comes after over 1; each over stands once" in str(problem)


def test_info_files_of_delivery_csv(tmp_path: Path):
    folder = write_delivery_csv(tmp_path / "csv", match(SIX))
    info = [
        *("info,balls_per_over,6", "info,overs,50", "info,team,Northmoor", "info,team,Southfen"),
        *(
            "info,gender,female",
            "info,season,2020",
            "info,date,2020/06/01",
            "info,event,Pebble Cup",
        ),
        *("info,player,Northmoor,A Batt", "info,registry,people,A Batt,id-a", "version,2.1.0"),
        *("info,toss_winner,Southfen", "info,toss_decision,field"),
        *("info,winner,Northmoor", "info,winner_runs,3", "info,umpire,U One", ""),
    ]
    (folder / "m1_info.csv").write_text("\n".join(info), "utf-8")
    tables, problems = read_all(source(folder, "delivery-csv"))
    (row,) = tables.matches.to_pylist()
    assert problems == []
    assert (row["competition"], row["overs_limit"], row["gender"]) == ("Pebble Cup", 50, "female")
    assert (row["winner"], row["margin"], row["result"]) == ("Northmoor", "3 runs", "win")
    assert (row["toss_winner"], row["toss_decision"]) == ("Southfen", "field")
    assert "id-a" in tables.people["id"].to_pylist()


@pytest.mark.parametrize("over", ["0", "0.0"])
def test_an_over_nought_of_a_table_is_named(tmp_path: Path, over: str):
    table = [{**row, "over": over} for row in rows_of(match(SIX))]
    for row in table:
        del row["ball"]
    path = write_csv(tmp_path / "t.csv", table)
    _, problems = read_all(source(path, "delivery-csv"))
    assert "over 0: the first over is 1" in str(problems[0])


def test_winners_margins_and_targets_are_held_against_the_balls(tmp_path: Path):
    """Northmoor make 6, Southfen 1: a win by five runs, a target of seven."""

    def played(**outcome) -> dict:
        target = outcome.pop("target", 7)
        found = match(SIX, outcome=outcome)
        return second_innings(found, [delivery(1)], target={"runs": target})

    data = cleaned(
        tmp_path,
        only={
            "m1.json": played(winner="Northmoor", by={"runs": 5}),
            "m2.json": played(winner="Southfen", by={"wickets": 5}),
            "m3.json": played(winner="Northmoor", by={"runs": 4}),
            "m4.json": played(winner="Northmoor", by={"runs": 5}, target=9),
            "m5.json": played(winner="Southfen", method="a table of resources"),
            "m6.json": played(result="no result"),
        },
    )
    report = quality_of(data)
    found = {name: odd["examples"] for name, odd in report["odd"].items()}
    assert found["winners_that_disagree"] == ["m2: Southfen won; by the balls Northmoor"]
    assert found["margins_that_disagree"] == ["m3: won by 4 runs; by the balls 5 runs"]
    assert found["targets_that_disagree"] == ["m4: innings 2 was set 9, innings 1 made 6"]
    assert report["checked"] == {"winners": 4, "targets": 5, "winners_not_checked": 2}

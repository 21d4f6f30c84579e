"""Corrections and merged people: applied where they fit, else an error with its line."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from pipeline.clean.corrections import shown
from pipeline.clean.merges import read_merges
from pipeline.contracts.files import read_json
from pipeline.contracts.selection import Fixes
from pipeline.errors import UserError
from tests.builders import FIXES, PLAYERS, cleaned, delivery, match, quality_of, rows

WHY = "misheard,scorebook p. 3,R Searcher,2026-11-25"
BALLS = [delivery(1), delivery(4), delivery(wicket={"kind": "caught", "player_out": "A Batt"})]
FOUND = {"m1.json": match(BALLS)}


def line(places: str, field: str, old: object, new: object) -> str:
    return f"{places},{field},{old},{new},{WHY}\n"


def ball(number: int, field: str, old: object, new: object) -> str:
    return line(f"m1,1,1,{number},,", field, old, new)


def fixed(tmp_path: Path, *lines: str, **sheets: str) -> Path:
    return cleaned(tmp_path, {"corrections": FIXES + "".join(lines), **sheets}, only=FOUND)


def message(tmp_path: Path, *lines: str, **sheets: str) -> list[str]:
    with pytest.raises(UserError) as caught:
        fixed(tmp_path, *lines, **sheets)
    return [str(problem).removeprefix(f"{tmp_path}/") for problem in caught.value.problems]


def test_a_corrected_delivery_is_scored_anew(tmp_path: Path):
    """Four off the bat become four leg byes: no longer the bowler's, no longer a four."""
    data = fixed(tmp_path, ball(2, "runs_batter", 4, 0), ball(2, "legbyes", 0, 4))
    row = rows(data, "deliveries")[1]
    assert (row["runs_total"], row["runs_bowler"], row["four"], row["faced"]) == (4, 0, False, True)
    assert [r["runs_total"] for r in rows(data, "deliveries")] == [1, 4, 0]
    report = quality_of(data)
    assert [fix["field"] for fix in report["corrections"]] == ["runs_batter", "legbyes"]
    assert report["corrections"][0]["reason"] == "misheard"
    kept = read_json(data / "corrections.json", Fixes).corrections
    assert msgspec.to_builtins(kept) == report["corrections"]


def test_a_wide_that_was_none(tmp_path: Path):
    found = {"m1.json": match([delivery(wides=1)])}
    text = FIXES + ball(1, "wides", 1, 0) + ball(1, "byes", 0, 1)
    (row,) = rows(cleaned(tmp_path, {"corrections": text}, only=found), "deliveries")
    assert (row["legal"], row["faced"], row["runs_bowler"]) == (True, True, 0)


def test_a_dismissal_can_be_mended_made_and_taken_back(tmp_path: Path):
    data = fixed(
        tmp_path,
        ball(3, "dismissal", "caught", "run out"),
        ball(3, "player_out_id", "id-a", "id-b"),
        ball(1, "dismissal", "", "bowled"),
        ball(1, "player_out_id", "", "id-a"),
    )
    made = rows(data, "deliveries")
    assert [(r["wickets"], r["bowler_wickets"]) for r in made] == [(1, 1), (0, 0), (1, 0)]
    outs = [(d["delivery"], d["kind"], d["player_out_id"]) for d in rows(data, "dismissals")]
    assert outs == [(1, "bowled", "id-a"), (3, "run out", "id-b")]
    (tmp_path / "again").mkdir()
    gone = fixed(
        tmp_path / "again",
        ball(3, "dismissal", "caught", ""),
        ball(3, "player_out_id", "id-a", ""),
    )
    assert rows(gone, "dismissals") == [] and rows(gone, "innings")[0]["wickets"] == 0


def test_matches_innings_players_and_grounds(tmp_path: Path):
    data = fixed(
        tmp_path,
        line("m1,,,,,", "season", "2020", "2020/21"),
        line("m1,,,,,", "overs_limit", "50", "40"),
        line("m1,1,,,,", "penalty_post", "0", "5"),
        line(",,,,id-q,", "bowling_style", "Legbreak", "Right arm Medium"),
        line(",,,,id-b,", "batting_hand", "", "left"),
        line(",,,,,Pebble Field", "country", "", "Sri Lanka"),
        line(",,,,,Pebble Field", "region", "coast", ""),
    )
    (row,) = rows(data, "matches")
    assert (row["season"], row["overs_limit"]) == ("2020/21", 40)
    assert (row["country"], row["region"]) == ("Sri Lanka", "Southern Asia")
    assert rows(data, "innings")[0]["runs"] == 10
    assert {r["bowler_kind"] for r in rows(data, "deliveries")} == {"pace"}


def test_a_fix_follows_on_from_the_one_before(tmp_path: Path):
    data = fixed(tmp_path, ball(1, "runs_batter", 1, 2), ball(1, "runs_batter", 2, 3))
    assert rows(data, "deliveries")[0]["runs_total"] == 3


def test_fixes_that_no_longer_apply_are_named_with_their_lines(tmp_path: Path):
    said = message(tmp_path, ball(1, "runs_batter", 1, 2), ball(2, "runs_batter", 6, 4))
    (line_3,) = said
    assert line_3.startswith("corrections.csv:3:1: match m1, innings 1, over 1, delivery 2: ")
    assert "runs_batter is '4' in the data, not '6'; this fix no longer applies" in line_3


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            ball(9, "runs_batter", 1, 2),
            "over 1 of innings 1 of match 'm1' has no delivery 9; it has",
        ),
        (ball(9, "runs_batter", 1, 2), "it has 3 deliveries"),
        (
            line("m1,1,7,1,,", "wides", 0, 1),
            "innings 1 of match 'm1' has no over 7; the nearest is 1",
        ),
        (
            line("m1,4,1,1,,", "wides", 0, 1),
            "match 'm1' has no innings 4; the nearest is 1 (it has 1)",
        ),
        (line("m1,2,,,,", "penalty_post", 0, 5), "match 'm1' has no innings 2; the nearest is 1"),
        (line("m9,1,1,1,,", "wides", 0, 1), "no match 'm9' in the data"),
        (line("mm1,,,,,", "season", "1", "2"), "no match 'mm1' in the data (did you mean 'm1'?)"),
        (line(",,,,id-z,", "name", "", "Z"), "no player 'id-z' in the data or the sheet (did you"),
        (line(",,,,,Elsewhere", "city", "", "Z"), "no venue 'Elsewhere' in the data or the sheet"),
        (line(",,,,,Peble Field", "city", "", "Z"), "the sheet (did you mean 'Pebble Field'?)"),
        (line("m1,1,,,,", "runs", "1", "2"), "no innings field 'runs'"),
        (ball(1, "run_batter", 1, 2), "no delivery field 'run_batter' (did you mean 'runs_batter'"),
        (line("m1,,1,,,", "season", "1", "2"), "the place is unclear (match, over)"),
        (line(",,,,,", "season", "1", "2"), "the place is unclear (nothing)"),
        (line("m1,1,1,x,,", "wides", "0", "1"), "delivery 'x' is no number"),
        (ball(1, "runs_batter", 1, "two"), "new 'two' is no count for runs_batter"),
        (ball(1, "runs_batter", 1, 1), "old and new are the same"),
        (ball(3, "dismissal", "caught", "abducted"), "'abducted' is no kind of dismissal"),
        (ball(1, "dismissal", "", "bowled"), "dismissal and player_out_id go together"),
        (ball(1, "batter_id", "id-a", ""), "batter_id can't be blank"),
        (line("m1,,,,,", "date", "2020-06-01", "June"), "new 'June' is no date"),
        (ball(1, "wides", 0, 1).replace("misheard", ""), "reason is blank"),
        (ball(1, "wides", 0, 1).replace("2026-11-25", "today"), "date 'today' is no date"),
        (ball(1, "wides", 0, 1).replace("scorebook p. 3", "a, b"), "quote commas"),
    ],
)
def test_lines_that_cannot_be_are_named(tmp_path: Path, text: str, said: str):
    found = message(tmp_path, text)
    assert any(said in each and each.startswith("corrections.csv:2:1: ") for each in found)


def test_every_mistake_in_the_file_is_listed_at_once(tmp_path: Path):
    bad = ball(1, "wides", 0, "one"), ball(1, "widths", 0, 1), line("m1,,1,,,", "season", 1, 2)
    assert len(message(tmp_path, *bad)) == 3


def test_a_newer_revision_that_mends_the_file_makes_the_fix_an_error(tmp_path: Path):
    mended = match([delivery(1), delivery(6), *BALLS[2:]])
    mended["meta"]["revision"] = 2
    text = {"corrections": FIXES + ball(2, "runs_batter", 4, 6)}
    with pytest.raises(UserError, match="runs_batter is '6' in the data, not '4'"):
        cleaned(tmp_path, text, first=FOUND, second={"m1.json": mended})


def test_a_person_under_two_ids_is_one(tmp_path: Path):
    other = match(BALLS, registry={"people": {"A Batt": "id-x", "Q Bowl": "id-y"}})
    merges = "id,same_as,reason,source\nid-y,id-x2,same birthday,book\nid-x2,id-q,married,book\n"
    with pytest.raises(UserError, match=r"people\.csv:3:1: nobody in the data has the id 'id-x2'"):
        cleaned(tmp_path, {"people": merges}, one={"m1.json": other})
    merges = "id,same_as,reason,source\nid-y,id-q,same birthday,book\nid-x,id-a,same,book\n"
    data = cleaned(tmp_path, {"people": merges}, one={"m1.json": match(BALLS), "m2.json": other})
    made = rows(data, "deliveries")
    assert {row["bowler_id"] for row in made} == {"id-q"}
    assert {row["bowler_kind"] for row in made} == {"spin"}
    assert {row["player_out_id"] for row in made} == {None, "id-a"}
    assert [row["player_out_id"] for row in rows(data, "dismissals")] == ["id-a", "id-a"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a,b,why,\nb,a,why,\n", "people.csv:2:1: 'a' leads round in a circle ('a', 'b', 'a')"),
        (
            "a,b,why,\nb,a,why,\n",
            "people.csv:3:1: 'b' leads round in a circle ('b', 'a', 'b'); drop",
        ),
        ("x,a,why,\na,b,why,\nb,a,why,\n", "people.csv:2:1: 'x' leads round in a circle"),
        ("a,a,why,\n", "people.csv:2:1: 'a' is said to be itself; drop the line"),
        (",b,why,\n", "people.csv:2:1: id is blank; name the id that is another's"),
        ("a,b,,\n", "reason is blank"),
        ("a,b,x,\na,c,y,\n", "people.csv:3:1: id 'a' stands on line 2 too"),
        ("a,,x,\n", "people.csv:2:1: same_as is blank; name the id to keep"),
    ],
)
def test_merges_that_cannot_be(tmp_path: Path, text: str, said: str):
    (tmp_path / "people.csv").write_text("id,same_as,reason,source\n" + text, "utf-8")
    with pytest.raises(UserError) as caught:
        read_merges(str(tmp_path / "people.csv"))
    assert said in str(caught.value)


@pytest.mark.parametrize("turned", [False, True])
def test_a_chain_of_merges_ends_at_one_id(tmp_path: Path, turned: bool):
    """In whatever order its lines stand."""
    ids = {"A Batt": "id-1", "B Batt": "id-2", "Q Bowl": "id-3"}
    lines = ["id-1,id-2,why,\n", "id-2,id-3,why,\n", "id-3,id-q,why,\n"]
    text = "id,same_as,reason,source\n" + "".join(lines[::-1] if turned else lines)
    other = match(BALLS, registry={"people": ids})
    data = cleaned(tmp_path, {"people": text}, one={"m1.json": other})
    assert [row["id"] for row in rows(data, "players")] == ["id-q"]
    assert {row["batter_id"] for row in rows(data, "deliveries")} == {"id-q"}


@pytest.mark.parametrize(
    ("same_as", "said"),
    [
        (
            "id-aa",
            "same_as 'id-aa' is nobody in the data or in the players' sheet (did you mean 'id-a'?);"
            " write the id to keep as it is there",
        ),
        (
            "nobody at all",
            "same_as 'nobody at all' is nobody in the data or in the",
        ),
        ("Q Bowl (female, Southfen)", "write 'Q Bowl (Southfen)'"),
    ],
)
def test_a_merge_onto_nobody_is_named_with_its_line(tmp_path: Path, same_as: str, said: str):
    ids = {"A Batt": "id-a", "B Batt": "id-b"}
    text = f'id,same_as,reason,source\nid-b,"{same_as}",same,book\n'
    with pytest.raises(UserError) as caught:
        found = match(BALLS, registry={"people": ids})
        cleaned(tmp_path, {"people": text}, one={"m1.json": found})
    (problem,) = caught.value.problems
    assert (Path(problem.file).name, problem.line) == ("people.csv", 2) and said in str(problem)


def test_a_merge_may_be_onto_somebody_of_the_players_sheet_alone(tmp_path: Path):
    sheets = {
        "people": "id,same_as,reason,source\nid-q,mine,same,book\n",
        "players": PLAYERS + "mine,Quentin Bowl,,Offbreak,\n",
    }
    data = cleaned(tmp_path, sheets, one={"m1.json": match(BALLS)})
    (row,) = [row for row in rows(data, "players") if row["id"] == "mine"]
    assert (row["name"], row["style"]) == ("Quentin Bowl", "finger spin")


def test_a_header_that_is_wrong_is_placed(tmp_path: Path):
    with pytest.raises(UserError, match=r"corrections\.csv:1:1: no column source, by"):
        cleaned(
            tmp_path,
            {"corrections": "match,innings,over,delivery,field,old,new,reason,date\n"},
            only=FOUND,
        )
    assert PLAYERS.startswith("id,")


@pytest.mark.parametrize("number", ["9999999999999999999", "10000", "9" * 5000, "١", "-1", "1.5"])
def test_numbers_of_any_size_in_any_place_are_named(tmp_path: Path, number: str):
    places = (f"m1,{number},,,,", f"m1,1,{number},1,,", f"m1,1,1,{number},,")
    for place in places:
        field = "target_runs" if place.endswith(",,,,") else "wides"
        (said,) = message(tmp_path, line(place, field, "0", "1"))
        assert said.startswith("corrections.csv:2:1: ") and "is no number" in said
        assert len(said) < 200
    for place, field in (
        ("m1,1,1,1,,", "wides"),
        ("m1,,,,,", "overs_limit"),
        ("m1,,,,,", "target"),
    ):
        (said,) = message(tmp_path, line(place, field, "0", number))
        assert "is no count for" in said and len(said) < 200


@pytest.mark.parametrize(
    ("place", "field", "new", "said"),
    [
        ("m1,1,1,1,,", "wides", "100", "new '100' is no count for wides; expected 0 to 99"),
        ("m1,1,1,1,,", "delivered", "7", "new '7' is no count for delivered; expected 0 to 1"),
        ("m1,,,,,", "balls_per_over", "0", "no match is without its balls_per_over"),
        ("m1,,,,,", "season", "", "no match is without its season"),
    ],
)
def test_what_our_tables_have_no_room_for_is_named(
    tmp_path: Path, place: str, field: str, new: str, said: str
):
    (found,) = message(tmp_path, line(place, field, "1", new))
    assert said in found


def test_a_place_may_be_written_with_noughts_before_it(tmp_path: Path):
    data = fixed(tmp_path, line("m1,01,,,,", "penalty_pre", 0, 5))
    assert rows(data, "innings")[0]["runs"] == 10


def test_what_the_data_leave_blank_is_filled(tmp_path: Path):
    assert [shown(value) for value in (None, True, False, 0, "a")] == ["", "1", "0", "0", "a"]
    data = fixed(tmp_path, line("m1,,,,,", "target", "", 200))
    assert rows(data, "matches")[0]["target"] == 200


def test_a_match_that_is_moved_keeps_its_length(tmp_path: Path):
    moved = line("m1,,,,,", "date", "2020-06-01", "2020-06-29")
    found = {"m1.json": match(BALLS, dates=["2020-06-01", "2020-06-03"])}
    (row,) = rows(cleaned(tmp_path, {"corrections": FIXES + moved}, only=found), "matches")
    assert (str(row["date"]), str(row["last_day"])) == ("2020-06-29", "2020-07-01")


def test_a_venue_of_several_rows_is_not_mended_by_its_name_alone(tmp_path: Path):
    """The row of its city decides, and would not have heard of the fix."""
    head = "venue,ground,city,country,region,venue_city\n"
    grounds = f"{head}Pebble Field,The Pebbles,Pebbleton,Borduria,,Pebbleton\n"
    (said,) = message(tmp_path, line(",,,,,Pebble Field", "country", "", "X"), grounds=grounds)
    assert said.startswith("corrections.csv:2:1: the grounds' sheet has a row for each city")


def test_a_winner_is_one_of_the_sides(tmp_path: Path):
    """A match won by another would count as undecided."""
    (said,) = message(tmp_path, line("m1,,,,,", "winner", "Northmoor", "Southfn"))
    assert said == (
        "corrections.csv:2:1: match m1: 'Southfn' is no side of it (Northmoor and Southfen)"
    )

"""Corrections that put deliveries in, take them out, or mend one of several dismissals."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pipeline.clean.ball_cell import Ball, read_ball, written
from pipeline.clean.corrections import Correction
from pipeline.clean.mend_ball import Out, mend, mend_out
from pipeline.config.kinds.trend import Trend
from pipeline.config.topic import Data
from pipeline.errors import UserError
from pipeline.metrics.tally import tally
from pipeline.tables import played
from tests.builders import FIXES, cleaned, delivery, match, quality_of, rows
from tests.view_makers import metrics_view

WHY = "dropped by the scorer,scorebook p. 3,R Searcher,2026-11-25"
HEAD = FIXES.replace("player,venue", "player_out,player,venue")
BALLS = [
    delivery(1),
    delivery(4),
    delivery(wicket={"kind": "caught", "player_out": "A Batt"}),
    {**delivery(2), "batter": "B Batt", "non_striker": "C Batt"},
]
WHO = "batter_id=id-a; non_striker_id=id-b; bowler_id=id-q"
FOUR = f"{WHO}; runs_batter=4"


def line(place: str, field: str, old: str, new: str) -> str:
    return f'{place},,,{field},"{old}","{new}",{WHY}\n'


def ball(number: int, old: str, new: str, over: int = 1) -> str:
    """A line that puts a delivery in, or takes it out."""
    return line(f"m1,1,{over},{number},", "delivery", old, new)


def fixed(tmp_path: Path, *lines: str, balls: list[dict[str, Any]] = BALLS) -> Path:
    return cleaned(tmp_path, {"corrections": HEAD + "".join(lines)}, only={"m1.json": match(balls)})


def refused(tmp_path: Path, *lines: str, balls: list[dict[str, Any]] = BALLS) -> list[str]:
    with pytest.raises(UserError) as caught:
        fixed(tmp_path, *lines, balls=balls)
    return [str(each).removeprefix(f"{tmp_path}/") for each in caught.value.problems]


def told(data: Path) -> list[tuple[int, int, int]]:
    """Over, delivery and runs of each delivery."""
    return [(r["over"], r["delivery"], r["runs_total"]) for r in rows(data, "deliveries")]


def test_a_delivery_is_put_in_and_the_others_move_up(tmp_path: Path):
    data = fixed(tmp_path, ball(2, "", f"{WHO}; wides=5"))
    assert told(data) == [(1, 1, 1), (1, 2, 5), (1, 3, 4), (1, 4, 0), (1, 5, 2)]
    (out,) = rows(data, "dismissals")
    assert (out["delivery"], out["player_out_id"]) == (4, "id-a")  # it was the third
    row = rows(data, "deliveries")[1]
    assert (row["legal"], row["runs_bowler"], row["wides"]) == (False, 5, 5)
    assert (row["batting_team"], row["bowling_team"]) == ("Northmoor", "Southfen")
    (innings,) = rows(data, "innings")
    assert (innings["runs"], innings["balls"], innings["wickets"]) == (12, 4, 1)


def test_a_delivery_is_put_in_behind_the_last_and_in_a_new_over(tmp_path: Path):
    """Several at one number stand in the order of their lines."""
    data = fixed(
        tmp_path,
        ball(5, "", f"{WHO}; runs_batter=6"),
        ball(5, "", WHO),
        ball(1, "", f"{WHO}; byes=1", over=2),
    )
    assert told(data)[4:] == [(1, 5, 6), (1, 6, 0), (2, 1, 1)]
    assert rows(data, "innings")[0]["runs"] == 14


def test_a_delivery_is_taken_out_with_its_dismissal(tmp_path: Path):
    out = f"{WHO}; dismissal=caught; player_out_id=id-a"
    data = fixed(tmp_path, ball(3, out, ""))
    assert told(data) == [(1, 1, 1), (1, 2, 4), (1, 3, 2)]
    assert rows(data, "dismissals") == []
    assert rows(data, "innings")[0]["wickets"] == 0


def economy(data: Path) -> tuple[int, int]:
    """Runs charged and valid balls of a topic's tallies."""
    beat = Trend(id="rate", kind="trend", measure=["economy"])
    tallies = tally(metrics_view([beat], data=Data(format="one-day")), played(data), [])[0]
    return sum(tallies["y"].to_pylist()), sum(tallies["x"].to_pylist())


def test_tallies_follow_what_is_put_in_and_taken_out(tmp_path: Path):
    assert economy(fixed(tmp_path / "plain")) == (7, 4)
    put_in = ball(2, "", f"{WHO}; wides=5"), ball(2, "", FOUR)
    assert economy(fixed(tmp_path / "in", *put_in)) == (16, 5)
    assert economy(fixed(tmp_path / "out", ball(2, FOUR, ""))) == (3, 3)


def test_a_delivery_that_is_taken_out_and_put_in_again_changes_nothing(tmp_path: Path):
    plain = fixed(tmp_path / "plain")
    data = fixed(tmp_path / "again", ball(2, FOUR, ""), ball(2, "", FOUR))
    for table in ("deliveries", "dismissals", "innings", "players"):
        assert rows(data, table) == rows(plain, table)


def test_positions_follow_what_is_put_in_and_taken_out(tmp_path: Path):
    """C Batt comes in with a ball that the file lacks, before B Batt is seen as a striker."""
    first = "batter_id=id-c; non_striker_id=id-b; bowler_id=id-q"
    data = fixed(tmp_path, ball(1, "", first))
    made = {row["batter_id"]: row["batting_position"] for row in rows(data, "deliveries")}
    assert made == {"id-c": 1, "id-b": 2, "id-a": 3}
    gone = [ball(n, f"{WHO}; runs_batter={r}", "") for n, r in ((1, 1), (2, 4))]
    gone.append(ball(3, f"{WHO}; dismissal=caught; player_out_id=id-a", ""))
    data = fixed(tmp_path / "gone", *gone)
    made = {row["batter_id"]: row["batting_position"] for row in rows(data, "deliveries")}
    assert made == {"id-b": 1}


def test_numbers_are_those_of_the_data_in_every_line(tmp_path: Path):
    """What is put in before it does not move the place of a later line."""
    mend = f"m1,1,1,4,,,,runs_batter,2,3,{WHY}\n"
    for lines in ([ball(1, "", WHO), mend], [mend, ball(1, "", WHO)]):
        folder = tmp_path / str(lines.index(mend))
        assert told(fixed(folder, *lines))[-1] == (1, 5, 3)
    moved = fixed(tmp_path / "moved", ball(1, f"{WHO}; runs_batter=1", ""), ball(4, "", FOUR), mend)
    assert told(moved) == [(1, 1, 4), (1, 2, 0), (1, 3, 4), (1, 4, 3)]


def test_other_overs_and_matches_stay_as_they_are(tmp_path: Path):
    """Matches that are touched are written behind the others."""
    two = match(BALLS)
    two["innings"][0]["overs"].append({"over": 1, "deliveries": [delivery(6), delivery(3)]})
    found = {"m1.json": two, "m2.json": match(BALLS)}
    plain = cleaned(tmp_path / "plain", only=found)
    sheets = {"corrections": HEAD + ball(1, "", WHO, over=2)}
    data = cleaned(tmp_path / "fixed", sheets, only=found)

    def others(folder: Path, table: str) -> list[dict[str, Any]]:
        places = ("match_id", "innings", "over", "delivery")
        found = sorted(rows(folder, table), key=lambda r: [r[name] for name in places])
        return [r for r in found if (r["match_id"], r["over"]) != ("m1", 2)]

    for table in ("deliveries", "dismissals"):
        assert others(data, table) == others(plain, table)
    assert [r for r in told(data) if r[0] == 2] == [(2, 1, 0), (2, 2, 6), (2, 3, 3)]


def test_what_was_put_in_and_taken_out_is_on_record(tmp_path: Path):
    data = fixed(tmp_path, ball(2, FOUR, ""))
    (fix,) = quality_of(data)["corrections"]
    assert (fix["field"], fix["old"], fix["new"]) == ("delivery", FOUR, "")
    assert fix["place"] == {"match": "m1", "innings": "1", "over": "1", "delivery": "2"}
    assert FOUR in (data / "quality.html").read_text("utf-8")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            ball(2, f"{WHO}; runs_batter=6", ""),
            f"this fix no longer applies; drop the line, or write as its old: {FOUR}",
        ),
        (ball(9, FOUR, ""), "over 1 of innings 1 of match 'm1' has no delivery 9; it has 4 deliv"),
        (ball(7, "", FOUR), "that over has 4 in the data; expected 1 to 5 for one that is put in"),
        (ball(2, "", FOUR, over=2), "that over has 0 in the data; expected 1 to 1"),
        (ball(1, "", FOUR, over=3), "innings 1 of match 'm1' has no over 3; the nearest is 1"),
        (ball(1, "", FOUR, over=0), "innings 1 of match 'm1' has no over 0; the nearest is 1"),
        (line("m1,2,1,1,", "delivery", "", FOUR), "match 'm1' has no innings 2; the nearest is 1"),
        (line("m2,1,1,1,", "delivery", "", FOUR), "no match 'm2' in the data"),
        (ball(1, "", FOUR.replace("id-a", "id-x")), "nobody in the data is 'id-x' (did you mean"),
        (ball(1, FOUR, FOUR + "; wides=1"), "old and new are both filled: leave old blank to put"),
        (ball(1, "", "runs_batter=4"), "a delivery needs its batter_id, non_striker_id, bowler_id"),
        (
            ball(1, "", f"{WHO}; run_batter=4"),
            "no 'run_batter' of a delivery (did you mean 'runs_b",
        ),
        (ball(1, "", f"{WHO}; runs_batter=four"), "'four' is no count for runs_batter; expected 0"),
        (
            ball(1, "", f"{WHO}; wides=00000500"),
            "'00000500' is no count for wides; expected 0 to 99",
        ),
        (ball(1, "", f"{WHO}; wides=١"), "'١' is no count for wides; expected 0 to 99"),
        (line("m1,9999,1,1,", "delivery", "", FOUR), "match 'm1' has no innings 9999; the nearest"),
        (ball(9999, "", FOUR, over=9999), "innings 1 of match 'm1' has no over 9999; the nearest"),
        (ball(1, "", f"{WHO}; delivered=2"), "'2' is no count for delivered; expected 0 to 1"),
        (ball(1, "", f"{WHO}; dismissal=caught"), "write each dismissal with its player"),
        (
            ball(1, "", f"{WHO}; dismissal=abducted; player_out_id=id-a"),
            "'abducted' is no kind of d",
        ),
        (ball(1, "", ""), "old and new are the same"),
        (line("m1,1,1,1,id-a", "delivery", "", FOUR), "no wicket field 'delivery'"),
    ],
)
def test_lines_that_cannot_be_are_named(tmp_path: Path, text: str, said: str):
    (found,) = refused(tmp_path, text)
    assert found.startswith("corrections.csv:2:1: ") and said in found


def test_a_delivery_that_is_taken_out_cannot_be_mended_after(tmp_path: Path):
    mend = f"m1,1,1,2,,,,runs_batter,4,3,{WHY}\n"
    (found,) = refused(tmp_path, ball(2, FOUR, ""), mend)
    assert "corrections.csv:3:1: " in found and "line 2 takes this delivery out" in found


TWO = delivery()
TWO["wickets"] = [
    {"kind": "caught", "player_out": "A Batt"},
    {"kind": "retired out", "player_out": "B Batt"},
]


def out(player: str, field: str, old: str, new: str) -> str:
    return line(f"m1,1,1,1,{player}", field, old, new)


def outs(data: Path) -> list[tuple[str, str]]:
    return [(row["kind"], row["player_out_id"]) for row in rows(data, "dismissals")]


def test_one_of_several_dismissals_is_mended_by_who_was_out(tmp_path: Path):
    data = fixed(tmp_path, out("id-b", "dismissal", "retired out", "run out"), balls=[TWO])
    assert outs(data) == [("caught", "id-a"), ("run out", "id-b")]
    both = (
        out("id-a", "dismissal", "caught", "bowled"),
        out("id-b", "player_out_id", "id-b", "id-c"),
    )
    data = fixed(tmp_path / "both", *both, balls=[TWO, BALLS[3]])
    assert outs(data) == [("bowled", "id-a"), ("retired out", "id-c")]
    row = rows(data, "deliveries")[0]
    assert (row["wickets"], row["bowler_wickets"], row["dismissal"]) == (2, 1, "bowled")


def test_one_of_several_dismissals_is_taken_away_or_one_is_added(tmp_path: Path):
    data = fixed(tmp_path, out("id-a", "dismissal", "caught", ""), balls=[TWO])
    assert outs(data) == [("retired out", "id-b")]
    (row,) = rows(data, "deliveries")
    assert (row["wickets"], row["bowler_wickets"], row["player_out_id"]) == (1, 0, "id-b")
    data = fixed(tmp_path / "more", out("id-c", "dismissal", "", "run out"), balls=[TWO, BALLS[3]])
    assert outs(data) == [("caught", "id-a"), ("retired out", "id-b"), ("run out", "id-c")]


def test_a_dismissal_that_turns_out_to_be_none_is_no_wicket(tmp_path: Path):
    data = fixed(tmp_path, out("id-b", "dismissal", "retired out", "retired hurt"), balls=[TWO])
    assert rows(data, "innings")[0]["wickets"] == 1
    assert [row["out"] for row in rows(data, "dismissals")] == [True, False]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            line("m1,1,1,1,", "dismissal", "caught", "bowled"),
            "several dismissals fell on it ('id-a' caught, 'id-b' retired out); say which",
        ),
        (
            out("id-b", "dismissal", "caught", "bowled"),
            "dismissal is 'retired out' in the data, not",
        ),
        (out("id-c", "player_out_id", "id-c", "id-a"), "no dismissal of 'id-c' fell on it"),
        (out("id-c", "dismissal", "caught", "bowled"), "dismissal is '' in the data, not 'caught'"),
        (out("id-a", "player_out_id", "id-a", ""), "player_out_id can't be blank here"),
        (out("id-a", "dismissal", "caught", "abducted"), "'abducted' is no kind of dismissal"),
        (out("id-a", "byes", "0", "1"), "no wicket field 'byes'"),
    ],
)
def test_dismissals_that_cannot_be_mended_so_are_named(tmp_path: Path, text: str, said: str):
    (found,) = refused(tmp_path, text, balls=[TWO])
    assert found.startswith("corrections.csv:2:1: ") and said in found


def test_a_delivery_of_several_dismissals_is_mended_otherwise_as_before(tmp_path: Path):
    data = fixed(tmp_path, line("m1,1,1,1,", "byes", "0", "1"), balls=[TWO])
    assert rows(data, "deliveries")[0]["wickets"] == 2 and len(outs(data)) == 2
    same = f"{WHO}; dismissal=caught; player_out_id=id-a; dismissal=retired out; player_out_id=id-b"
    gone = fixed(tmp_path / "gone", ball(1, same, ""), balls=[TWO, delivery(1)])
    assert outs(gone) == [] and told(gone) == [(1, 1, 1)]


def test_a_file_without_the_new_column_is_read_as_before(tmp_path: Path):
    text = f"m1,1,1,1,,,runs_batter,1,2,{WHY}\n"
    data = cleaned(tmp_path, {"corrections": FIXES + text}, only={"m1.json": match(BALLS)})
    assert told(data)[0] == (1, 1, 2)


def test_a_delivery_in_a_cell_is_read_as_it_is_written():
    """Ids may hold what else is between the parts."""
    values = {
        **{"batter_id": "A; B=1 (Side)", "non_striker_id": "n", "bowler_id": "b"},
        **{"runs_batter": 1, "wides": 0, "noballs": 1, "byes": 0, "legbyes": 0, "penalty": 0},
        **{"non_boundary": True, "delivered": False},
    }
    ball = Ball(values, [("bowled", "n"), ("run out", "A; B=1 (Side)")])
    assert read_ball(written(ball)) == (ball, [])


def test_several_overs_that_are_lacking_are_begun_in_any_order(tmp_path: Path):
    data = fixed(tmp_path, ball(1, "", WHO, over=3), ball(1, "", FOUR, over=2))
    assert told(data)[4:] == [(2, 1, 4), (3, 1, 0)]
    (said,) = refused(tmp_path / "b", ball(1, "", WHO, over=4), ball(1, "", FOUR, over=2))
    assert "has no over 4" in said


@pytest.mark.parametrize(
    "other", [ball(1, FOUR, "", over=2), line("m1,1,2,1,", "dismissal", "", "bowled")]
)
def test_only_what_is_put_in_begins_an_over(tmp_path: Path, other: str):
    """Lines that mend or take out what is not there begin none for those after it."""
    said = refused(tmp_path, ball(1, "", FOUR, over=3), other)
    assert ["has no over 3" in said[0], "has no over 2" in said[1]] == [True, True]


def test_a_line_that_names_nobody_is_refused(tmp_path: Path):
    """A slip of the pen would bat, and count in the order, as a player without a name."""
    lines = [
        line("m1,1,1,1,", "batter_id", "id-a", "id-aa"),
        line("m1,1,1,3,", "player_out_id", "id-a", "id-zz"),
        line("m1,1,1,3,id-zz", "dismissal", "", "run out"),
    ]
    said = refused(tmp_path, *lines)
    assert [text.split(": ")[2].split(" (")[0] for text in said] == [
        "nobody in the data is 'id-aa'",
        *["nobody in the data is 'id-zz'"] * 2,
    ]


def fix(field: str, old: str, new: str, **place: str) -> Correction:
    return Correction("c.csv", 2, "delivery", place, field, old, new, "why", "book", "me", "")


def test_a_count_may_be_left_blank_and_a_player_may_not():
    row = {"wides": 1, "batter_id": "id-a"}
    assert mend(row, fix("wides", "1", "")) is None
    assert mend(row, fix("batter_id", "id-a", "id-b")) is None
    assert mend(row, fix("batter_id", "id-b", "")) == "batter_id can't be blank"
    assert row == {"wides": 0, "batter_id": "id-b"}


def test_a_dismissal_that_is_half_told_is_one_of_several():
    row = {"outs": [Out("caught", "id-a", "id-a"), Out("run out", None, "id-b")]}
    said = mend_out(row, fix("dismissal", "caught", "bowled"))
    assert said and said.startswith("several dismissals fell on it ('id-a' caught, 'id-b' run out)")
    assert mend_out(row, fix("dismissal", "caught", "bowled", player_out="id-a")) is None
    assert row["outs"][0].kind == "bowled"

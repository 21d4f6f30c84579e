"""Metrics: what a topic's rows hold of tiny matches, counted by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.contracts.selection import Newcomers
from pipeline.errors import UserError
from tests.builders import delivery
from tests.tallying import HEAD, played_in, tallied

RUN_OUT = {"kind": "run out", "player_out": "B Batt"}
# Ten balls, of which one each is worth: 4, 2 wides, 6 and a no-ball, nothing, a leg bye, 4 all run,
# a wicket, 1 and a run out, 5 penalty runs, nothing (retired hurt).
UNTIDY = [
    delivery(4),
    delivery(wides=2),
    delivery(6, noballs=1),
    delivery(),
    delivery(legbyes=1),
    {**delivery(4), "runs": {"batter": 4, "extras": 0, "total": 4, "non_boundary": True}},
    delivery(wicket={"kind": "bowled", "player_out": "A Batt"}),
    delivery(1, RUN_OUT),
    delivery(penalty=5),
    delivery(wicket={"kind": "retired hurt", "player_out": "C Batt"}),
]
FIRST_INNINGS = {
    **{"runs_batter": 15, "runs_total": 24, "runs_bowler": 18, "extras": 9},
    **{"wides": 2, "noballs": 1, "legal": 8, "faced": 9, "four": 1, "six": 1, "dot": 3},
    **{"wickets": 2, "bowler_wickets": 1, "innings": 1, "matches": 1, "decided": 1, "won": 1},
}
SECOND_INNINGS = {  # of one ball, by the side that lost
    **dict.fromkeys(FIRST_INNINGS, 0),
    **{"runs_batter": 2, "runs_total": 2, "runs_bowler": 2, "legal": 1, "faced": 1},
    **{"innings": 1, "matches": 1, "decided": 1},
}


def chased(year: int = 2020, **info) -> dict:
    """The untidy over, and a chase of one ball for two."""
    found = played_in(year, UNTIDY, **info)
    ball = {**delivery(2), "batter": "Q Bowl", "non_striker": "R Bowl", "bowler": "A Batt"}
    chase = {"team": "Southfen", "overs": [{"over": 0, "deliveries": [ball]}]}
    found["info"]["players"]["Southfen"].append("R Bowl")
    found["innings"].append(chase)
    return found


def sums(folder: Path, where: str) -> dict[str, int]:
    """Every column that can be summed, over the match of 2020."""
    measures = {f"all_{name}": (name, "legal") for name in FIRST_INNINGS}
    measures |= {f"all_{name}": (name, "decided") for name in ("decided", "won")}
    beats = f"  - {{id: a, kind: before_after, measure: [{', '.join(measures)}], where: {where}}}"
    rows, _ = tallied(folder, [chased(2019), chased(2020)], beats, measures)
    return {r["measure"].removeprefix("all_"): r["y"] for r in rows if r["season"] == "2020"}


def test_every_column_is_summed_as_counted_by_hand(tmp_path: Path):
    assert sums(tmp_path / "first", "{innings: 1}") == FIRST_INNINGS
    assert sums(tmp_path / "second", "{innings: 2}") == SECOND_INNINGS
    both = {name: count + SECOND_INNINGS[name] for name, count in FIRST_INNINGS.items()}
    once = dict.fromkeys(("matches", "decided", "won"), 1)  # of a match, however many its innings
    assert sums(tmp_path / "both", "{}") == {**both, **once}


def test_a_match_that_nobody_won_is_not_decided(tmp_path: Path):
    outcome = {"result": "no result"}
    beats = "  - {id: a, kind: before_after, measure: w, where: {innings: 1}}"
    matches = [chased(2019), chased(2020, outcome=outcome)]
    rows, _ = tallied(tmp_path, matches, beats, {"w": ("won", "decided")})
    assert [(row["y"], row["x"]) for row in rows] == [(1, 1), (0, 0)]


def test_multiples_and_differences_of_columns(tmp_path: Path):
    beats = "  - {id: a, kind: trend, measure: [m]}"
    measures = {"m": ("4*four + 6*six - dot", "2*legal + wides")}
    rows, _ = tallied(tmp_path, [chased(2019), chased(2020)], beats, measures)
    assert (rows[0]["y"], rows[0]["x"]) == (4 + 6 - 3, 2 * 9 + 2)


@pytest.mark.parametrize(("role", "balls"), [("bowler", 8), ("batter", 9)])
def test_a_batters_balls_are_those_faced(tmp_path: Path, role: str, balls: int):
    """A no-ball is faced and no valid ball (Laws 17.3 and 21)."""
    beats = f"  - {{id: a, kind: players, role: {role}, measure: run_rate, at_least: 1 balls,"
    beats += " where: {innings: 1}}"
    rows, _ = tallied(tmp_path, [chased(2019), chased(2020)], beats)
    assert {r["balls"] for r in rows if r["cell"] != "all"} == {balls}


def test_each_season_stands_in_its_window(tmp_path: Path):
    beats = "  - {id: a, kind: before_after, measure: economy}"
    matches = [chased(year) for year in (2018, 2019, 2020, 2021)]
    rows, _ = tallied(tmp_path, matches, beats)
    found = {row["season"]: row["window"] for row in rows}
    assert found == {"2018": "outside", "2019": "before", "2020": "after", "2021": "outside"}


def controlled(overs: str) -> str:
    return (
        "  - {id: a, kind: before_after, measure: economy, where: {overs: 1-10}, "
        f"control: {{name: the others, where: {{overs: {overs}}}}}}}"
    )


@pytest.mark.parametrize("overs", ["10-20", "1-3", "5-50"])
def test_a_control_may_not_share_an_over_with_the_beat(tmp_path: Path, overs: str):
    with pytest.raises(UserError, match="overlaps every row"):
        tallied(tmp_path, long_matches(), controlled(overs))


def test_a_control_of_the_next_over_is_apart(tmp_path: Path):
    rows, selection = tallied(tmp_path, long_matches(), controlled("11-20"))
    assert selection.beats["a"].control.pairs == {"all": "all"}
    windows = [(row["window"], row["y"]) for row in rows if row["season"] == "2020"]
    assert sorted(windows) == [("after", 10), ("control after", 20)]


def long_matches() -> list[dict]:
    """Ten balls of one run in overs 1 to 10, then ten of two runs."""
    made = []
    for year in (2019, 2020):
        found = played_in(year, [])
        found["innings"][0]["overs"] = [
            {"over": over, "deliveries": [delivery(1 if over < 10 else 2)]} for over in range(20)
        ]
        made.append(found)
    return made


@pytest.mark.parametrize(
    ("teams", "new"),
    [(["Northmoor", "Southfen"], 0), (["Northmoor", "Eastholm"], 1), (["Westfold", "Eastholm"], 1)],
)
def test_a_match_with_one_side_not_met_before_is_of_new_sides(tmp_path: Path, teams, new: int):
    named = {teams[0]: ["A Batt", "B Batt", "C Batt"], teams[1]: ["Q Bowl"]}
    later = played_in(2020, UNTIDY, teams=teams, players=named, outcome={"result": "no result"})
    later["info"]["toss"]["winner"] = later["innings"][0]["team"] = teams[0]
    beats = "  - {id: a, kind: before_after, measure: economy}"
    _, selection = tallied(tmp_path, [chased(2019), chased(2020), later], beats)
    assert selection.newcomers == {"": Newcomers(matches=2, of_new_sides=new)}


def test_the_first_day_of_the_event_may_be_a_match_day(tmp_path: Path):
    """The season whose first match is on that day is after, and in no window of transition."""
    head = HEAD.replace("2020-01-01", "2020-06-01")
    beats = "  - {id: a, kind: before_after, measure: economy}"
    late = played_in(2020, UNTIDY, dates=["2020-07-01"])
    rows, selection = tallied(tmp_path, [chased(2019), chased(2020), late], beats, head=head)
    found = selection.windows
    assert (found.before.seasons, found.after.seasons, found.inside) == (["2019"], ["2020"], [])
    assert {row["window"] for row in rows if row["season"] == "2020"} == {"after"}


def test_the_events_control_is_none_of_a_beat_that_leaves_it_no_ball(tmp_path: Path):
    """The beat is of overs 1 to 10, the event's control of overs 41 on."""
    control = "control: {name: the end, where: {overs: 41-50}}"
    head = HEAD.replace("after: 1 seasons}", f"after: 1 seasons, {control}}}")
    beats = "  - {id: a, kind: before_after, measure: economy, where: {phase: powerplay}}"
    rows, selection = tallied(tmp_path / "of the event", long_matches(), beats, head=head)
    assert selection.beats["a"].control.pairs == {}
    assert {row["window"] for row in rows} == {"before", "after"}
    own = beats.replace("}}", "}, " + control + "}")
    with pytest.raises(UserError, match="beat 'a', control: its filters leave no balls"):
        tallied(tmp_path / "its own", long_matches(), own)


def test_bands_without_a_ball_are_no_beat(tmp_path: Path):
    beats = "  - {id: a, kind: phases, measure: economy, bands: [21-30, 31-50]}"
    with pytest.raises(UserError, match="none of its balls is in any of its rows"):
        tallied(tmp_path, long_matches(), beats)


def test_a_beat_of_seasons_that_are_not_compared_is_an_error(tmp_path: Path):
    """Balls outside both windows only tell the drift."""
    matches = [chased(year) for year in (2018, 2019, 2020)]
    beats = "  - {{id: a, kind: {}, measure: economy, where: {{season: '2018'}}}}"
    said = "its filters leave no balls in the seasons that are compared"
    with pytest.raises(UserError, match=said):
        tallied(tmp_path / "windows", matches, beats.format("before_after"))
    rows, _ = tallied(tmp_path / "series", matches, beats.format("trend"))
    assert {row["season"] for row in rows} == {"2018"}


@pytest.mark.parametrize("cut", ["season", "ground", "home", "result"])
def test_cuts_that_are_called_as_a_column_of_matches_divide(tmp_path: Path, cut: str):
    """Two grounds and one side that won: every row has its match's own value."""
    matches = [chased(2019), chased(2020), chased(2020, venue="Other Field", dates=["2020-06-09"])]
    beats = f"  - {{id: a, kind: before_after, measure: run_rate, by: {cut}}}"
    rows, selection = tallied(tmp_path, matches, beats)
    found = {cell.id for cell in selection.beats["a"].cells}
    assert (
        found
        == {
            "season": {"all", "2019", "2020"},
            "ground": {"all", "the-pebbles", "other-field"},
            "home": {"all", "unknown"},
            "result": {"all", "won", "lost"},
        }[cut]
    )
    whole = sum(row["y"] for row in rows if row["cell"] == "all")
    assert sum(row["y"] for row in rows if row["cell"] != "all") == whole == 3 * 26

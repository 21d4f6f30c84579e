"""Which column is which of ours: any synonym, any order, and what cells say against a name."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pipeline.look.mapped import mapped
from pipeline.look.sampled import Column
from tests.looking import (
    FOUND,
)

SIDES_OF_IT = {
    "over": ({"Over": "1.1"}, {"ball": "Over"}),
    "overs as numbers": ({"Overs": "12"}, {"over": "Overs"}),
    "a hand is no side": ({"batting_hand": "left", "bowling style": "leg break"}, {}),
    "flags of wickets": ({"wicket": "1", "out": "0"}, {}),
    "names and codes": ({"bowler": "Fay Garrick", "bowler id": "7"}, {"bowler": "bowler"}),
    "only codes": ({"bowler id": "7"}, {"bowler": "bowler id"}),
    "a season is no day": ({"season start date": "2018-05-01"}, {"date": "season start date"}),
    "numbers are no names": ({"event": "3", "venue": "4", "city": "12"}, {}),
    "total beside the bat's": ({"runs": "4", "total runs": "5"}, {"runs_batter": "runs"}),
    "cells alone": ({"col7": "run out"}, {}),
}


@pytest.mark.parametrize("case", SIDES_OF_IT)
def test_what_a_name_and_its_cells_say_together(case: str):
    """Of names that hold a word of ours, and cells that can or can't be it."""
    cells, wanted = SIDES_OF_IT[case]
    chosen = mapped([Column(name, [cell]) for name, cell in cells.items()])
    found = {ours: guess.column.name for ours, guess in chosen.items() if ours in wanted}
    assert found == wanted
    if not wanted:
        assert {*chosen} <= {"dismissal"}


SYNONYMS = {
    "match_id": ["match", "Match ID", "game_no", "fixture", "MatchKey"],
    "date": ["date", "Match Date", "start_date", "DatePlayed"],
    "season": ["season", "Year", "season_year"],
    "innings": ["innings", "Inns", "inning_no", "InningsNumber"],
    "over": ["over", "Over No", "overs", "over_number", "OverNum"],
    "batting_team": ["batting_team", "Team Batting", "bat_side", "BattingClub"],
    "bowling_team": ["bowling_team", "Fielding Side", "bowlingteam", "opposition"],
    "batter": ["batter", "Striker", "batsman_name", "batswoman", "OnStrike"],
    "non_striker": ["non_striker", "NonStriker", "non-striker name", "partner", "other batter"],
    "bowler": ["bowler", "Bowler Name", "bowler_full_name"],
    "runs_batter": ["runs_batter", "runs off bat", "batsman_runs", "BatRuns", "runs"],
    "wides": ["wides", "Wd", "wide_runs"],
    "noballs": ["noballs", "No Balls", "nb", "no_ball_runs"],
    "byes": ["byes", "Bye", "bye_runs"],
    "legbyes": ["legbyes", "LegByes", "lb", "leg_bye_runs"],
    "dismissal": ["dismissal", "how out", "WicketType", "dismissal_kind", "mode of dismissal"],
    "player_out": ["player_out", "Player Dismissed", "batsman_out", "who_out", "PlayerOut"],
    "venue": ["venue", "Ground", "stadium", "match venue"],
}
OTHERS = ["fielder", "umpire", "cumulative", "speed", "notes"]


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_columns_under_any_synonym_in_any_order_are_mapped_right(data: st.DataObject):
    """Renamed, shuffled, with columns of no use between them: each is found, and none falsely."""
    names = {ours: data.draw(st.sampled_from(theirs)) for ours, theirs in SYNONYMS.items()}
    columns = [Column(names[ours], [str(ball[ours]) for ball in FOUND]) for ours in names]
    extra = data.draw(st.lists(st.sampled_from(OTHERS), unique=True))
    columns += [
        Column(name, [str(at * 7 % 150 + 20) if at % 3 else "x" for at in range(len(FOUND))])
        for name in extra
    ]
    shuffled = data.draw(st.permutations(columns))
    chosen = {ours: guess.column.name for ours, guess in mapped(shuffled).items()}
    assert chosen == names

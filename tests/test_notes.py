"""Cautions at their edges: one match more or less, and the note is there or not."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.contracts.notes import AnyNote, FewMatches, ReducedMatches
from tests.league import codes, findings, league, scored

BEAT = "  - {id: a, kind: before_after, measure: run_rate}"
TOTALS = "  - {id: a, kind: before_after, measure: innings_total}"


def season(year: int, count: int, **changes) -> list[dict]:
    """So many matches of six balls, their runs uneven; `changes` are of each one's facts."""
    matches = [scored(year, 4 + at % 5, 6, 1 + at % 28) for at in range(count)]
    for found in matches:
        found["info"] |= changes
    return matches


def noted(folder: Path, matches: list[dict], beat: str = BEAT) -> dict[str, AnyNote]:
    (found,) = findings(league(folder, matches), beat).values()
    return codes(found)


@pytest.mark.parametrize(("count", "note"), [(19, FewMatches(matches=19)), (20, None)])
@pytest.mark.parametrize("thin", [2019, 2020])
def test_few_matches_are_those_of_the_thinner_side(tmp_path: Path, count, note, thin: int):
    sides = {2019: 23, 2020: 23, thin: count}
    found = noted(tmp_path / "l", [m for year, many in sides.items() for m in season(year, many)])
    assert found.get("few_matches") == note


@pytest.mark.parametrize(("count", "noted_"), [(29, True), (30, False)])
def test_under_thirty_in_the_denominator_is_a_caution(tmp_path: Path, count: int, noted_: bool):
    found = noted(tmp_path / "l", [*season(2019, 31), *season(2020, count)], TOTALS)
    assert ("few_counted" in found) is noted_
    assert not noted_ or found["few_counted"].count == count


@pytest.mark.parametrize(("others", "share"), [(6, 0.25), (7, None)])
def test_a_quarter_of_matches_of_new_sides_is_another_opposition(tmp_path: Path, others, share):
    """Two matches of Eastholm's, who were not there before."""
    teams = ["Eastholm", "Southfen"]
    players = {"Eastholm": ["A Batt", "B Batt"], "Southfen": ["Q Bowl"]}
    new = season(2020, 2, teams=teams, players=players, outcome={"result": "no result"})
    for found in new:
        found["info"]["toss"] = {"winner": "Eastholm", "decision": "bat"}
        found["innings"][0]["team"] = "Eastholm"
    found = noted(tmp_path / "l", [*season(2019, 8), *season(2020, others), *new])
    note = found.get("opposition_changed")
    assert (note and note.share) == share


@pytest.mark.parametrize(("others", "shortened"), [(9, True), (10, False)])
def test_a_tenth_of_shortened_chases_is_a_caution(tmp_path: Path, others: int, shortened: bool):
    (rained,) = season(2020, 1)
    target = {"runs": 5, "overs": 20}
    rained["innings"].append({"team": "Southfen", "overs": [], "target": target})
    found = noted(tmp_path / "l", [*season(2019, others - 4), *season(2020, 4), rained])
    assert ("reduced_matches" in found) is shortened


def test_one_shortened_chase_is_a_caution_on_what_is_counted_an_innings(tmp_path: Path):
    (rained,) = season(2020, 1)
    target = {"runs": 5, "overs": 20}
    rained["innings"].append({"team": "Southfen", "overs": [], "target": target})
    found = noted(tmp_path / "l", [*season(2019, 8), *season(2020, 7), rained], TOTALS)
    assert found["reduced_matches"] == ReducedMatches(matches=1, of=16)


@pytest.mark.parametrize(("unknown", "code"), [(1, "unknown_left_out"), (2, "coverage_low")])
def test_the_whole_leaves_no_ball_of_unknown_kind_out(tmp_path: Path, unknown: int, code: str):
    """Rows by kind carry the caution: low from a tenth of the balls on."""
    matches = [*season(2019, 8), *season(2020, 8)]
    for found in matches:
        balls = found["innings"][0]["overs"][0]["deliveries"]
        balls += [{**balls[at % 6]} for at in range(9)]  # fifteen in all
        for ball in balls[:unknown]:
            ball["bowler"] = "C Batt"
    by_kind = BEAT.replace("}", ", by: bowler_kind}")
    found = findings(league(tmp_path / "l", matches), by_kind)
    assert not {"unknown_left_out", "coverage_low"} & set(codes(found["a.run_rate"]))
    assert codes(found["a.run_rate.spin"])[code].share == pytest.approx(unknown / 15)

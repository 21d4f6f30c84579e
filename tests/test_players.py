"""Players: whose own spread is used, and how far a change is drawn in towards the others'."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from tests.builders import delivery
from tests.league import findings, league
from tests.tallying import played_in

BEAT = "  - {id: a, kind: players, role: bowler, measure: economy, at_least: 10 balls}"
NAMES = [f"{letter} Bowl" for letter in "STUVWX"]
STEADY = "S Bowl"


def played(year: int, day: int, steady: bool) -> dict:
    """Twelve balls by each bowler; S Bowl's cost hardly varies, the others' much."""
    balls = []
    for at, name in enumerate(NAMES[0 if steady else 1 :], start=0 if steady else 1):
        cost = (6 if year == 2019 else 15) + day % 2 if not at else 4 + at + 9 * ((day + at) % 3)
        each, more = divmod(cost, 12)
        balls += [{**delivery(each + (ball < more)), "bowler": name} for ball in range(12)]
    sides = {"Northmoor": ["A Batt", "B Batt"], "Southfen": NAMES}
    return played_in(year, balls, dates=[f"{year}-06-{day:02}"], players=sides)


@pytest.mark.parametrize(("matches", "own"), [(14, False), (15, True)])
def test_a_players_own_spread_is_used_from_fifteen_matches(tmp_path: Path, matches, own: bool):
    """One who hardly varies is then hardly drawn in; before, as much as anybody."""
    days = [(year, day) for year in (2019, 2020) for day in range(1, 21)]
    made = [played(year, day, steady=day <= matches) for year, day in days]
    steady = findings(league(tmp_path / "l", made), BEAT)["a.economy.s-bowl"]
    drawn = math.log1p(steady.told.change.value) - math.log1p(steady.shrunk.change)
    assert (abs(drawn) < 0.02) is own and drawn > 0


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("measure", ["economy", "bowling_average"])
def test_players_of_one_match_each_are_refused_without_a_warning(tmp_path: Path, measure: str):
    """Nobody has a spread of their own, nor is there one in common: every row says why."""
    made = []
    for year in (2019, 2020):
        for day, name in enumerate(NAMES, start=1):
            balls = [{**delivery((day + at) % 3), "bowler": name} for at in range(12)]
            sides = {"Northmoor": ["A Batt", "B Batt"], "Southfen": NAMES}
            made.append(played_in(year, balls, dates=[f"{year}-06-{day:02}"], players=sides))
    beat = BEAT.replace("economy", measure).replace("10 balls", "1 match")
    found = findings(league(tmp_path / "l", made), beat)
    rows = [each for each in found.values() if each.cell != "all"]
    assert len(rows) == len(NAMES)
    assert {row.refused for row in rows} == {"few_matches"} and not any(row.shrunk for row in rows)

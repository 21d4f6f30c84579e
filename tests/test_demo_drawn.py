"""The demo's noise falls as it falls, and what is played by it comes to what was planted and drawn.

Spreads are as planted, nothing is centred but the seasons.
"""

from __future__ import annotations

import math
import random
from collections.abc import Hashable
from statistics import fmean, pstdev, stdev

import pytest

from demo_data import effects, generate, people, planted
from demo_data.generate import FOLDER
from demo_data.league import CLUBS, GROUNDS, REGION_OF_CLUB
from demo_data.skills import skills
from tests.drawn_in_demo import Cell, Sums, errors_off, expected, total

OTHERS = (1, 2)  # leagues of other seeds, to tell the generator's faults from one's luck
# Of 24 groups of independent matches one in twenty leagues has one that is so many errors off.
FAR = 3.1
# The demo's own: four per cent under what was drawn, which is 3.7 errors. So far off is one of 24
# in about two hundred leagues; the seed was not chosen, and stays.
UNLUCKY = ("pace", planted.MIDDLE, "coast", True)
LEAGUES = 400  # of other seeds: an sd of theirs is known to 4 %, of their players to under 1 %


@pytest.fixture(scope="module")
def grounds() -> list[dict[str, float]]:
    return [effects.ground_effects(random.Random(seed), CLUBS) for seed in range(LEAGUES)]


def test_grounds_have_the_planted_spread(grounds: list[dict[str, float]]):
    every = [value for drawn in grounds for value in drawn.values()]
    assert stdev(every) == pytest.approx(planted.GROUND_SD, rel=0.06)
    assert fmean(every) == pytest.approx(1, abs=4 * planted.GROUND_SD / len(every) ** 0.5)


def test_a_region_may_have_the_slower_grounds(grounds: list[dict[str, float]]):
    """Means of four as independent draws have them: half as spread as one ground."""
    coast = [club for club in CLUBS if REGION_OF_CLUB[club] == "coast"]
    means = [fmean(drawn[club] for club in coast) for drawn in grounds]
    assert stdev(means) == pytest.approx(planted.GROUND_SD / 2, rel=0.15)


def test_players_have_one_skill_for_life_with_the_planted_spread():
    everyone = people.players(random.Random(1))
    drawn = [skills(random.Random(seed), everyone) for seed in range(40)]
    batting = [value for one in drawn for value in one.batting.values()]
    bowling = [value for one in drawn for value in one.bowling.values()]
    assert stdev(batting) == pytest.approx(planted.BATTER_SD, rel=0.05)
    assert stdev(bowling) == pytest.approx(planted.BOWLER_SD, rel=0.05)
    regulars = {player.player_id for player in everyone if player.position}
    assert set(drawn[0].batting) == regulars and set(drawn[0].bowling) < regulars


def test_a_club_and_a_hand_may_have_the_better_players():
    """Eleven draws average to the spread over the root of eleven, and no club to one exactly."""
    everyone = people.players(random.Random(1))
    squads = people.squads(everyone)
    means = []
    for seed in range(LEAGUES):
        batting = skills(random.Random(seed), everyone).batting
        squad = squads[CLUBS[0], planted.FIRST_SEASON].regulars
        means.append(fmean(batting[player.player_id] for player in squad))
    assert stdev(means) == pytest.approx(planted.BATTER_SD / 11**0.5, rel=0.15)


def test_a_reserve_is_an_average_player():
    everyone = people.players(random.Random(1))
    drawn = skills(random.Random(2), everyone)
    reserve = next(player for player in everyone if not player.position)
    regular = next(player for player in everyone if player.position)
    assert drawn.of(reserve, reserve) == 1.0
    assert drawn.of(regular, reserve) == drawn.batting[regular.player_id] != 1.0


def test_seasons_alone_hide_no_level_and_no_step():
    drawn = effects.season_effects(random.Random(3))
    before = [drawn[planted.EVENT_SEASON - years] for years in range(1, effects.WINDOW + 1)]
    after = [drawn[planted.EVENT_SEASON + years] for years in range(effects.WINDOW)]
    assert fmean(before) == pytest.approx(fmean(after), abs=planted.SEASON_SD / 50)
    assert pstdev(drawn.values()) == pytest.approx(planted.SEASON_SD, rel=0.02)


@pytest.fixture(scope="module")
def leagues() -> dict[int, dict[Cell, Sums]]:
    return {seed: expected(seed) for seed in (planted.SEED, *OTHERS)}


def group(cell: Cell) -> Hashable:
    return cell.kind, cell.phase, cell.region, cell.season >= planted.EVENT_SEASON


@pytest.mark.slow
def test_the_generator_plays_by_what_was_planted_and_drawn(leagues: dict[int, dict[Cell, Sums]]):
    together = {cell: each for seed in OTHERS for cell, each in leagues[seed].items()}
    found = errors_off(together, group)
    assert len(found) == 24
    assert max(map(abs, found.values())) < FAR, found


@pytest.mark.slow
def test_one_group_of_the_demo_is_unlucky_and_no_other(leagues: dict[int, dict[Cell, Sums]]):
    found = errors_off(leagues[planted.SEED], group)
    assert {name for name, off in found.items() if abs(off) >= FAR} == {UNLUCKY}
    own = total(each for cell, each in leagues[planted.SEED].items() if group(cell) == UNLUCKY)
    assert own.made / own.drawn == pytest.approx(0.96, abs=0.005)


@pytest.mark.slow
@pytest.mark.parametrize("by", ["season", "home", "fielding"])
def test_the_demo_comes_out_as_drawn(leagues: dict[int, dict[Cell, Sums]], by: str):
    """By season, ground, bowlers: of fourteen groups one in twenty leagues has one so far off."""
    found = errors_off(leagues[planted.SEED], lambda cell: getattr(cell, by))
    assert max(map(abs, found.values())) < 2.9, found


@pytest.mark.slow
def test_fast_grounds_and_slow_ones_are_played_on_as_drawn(leagues: dict[int, dict[Cell, Sums]]):
    """Two groups: 2.5 errors are passed by one pair in fifty; without grounds one is 3.6 off."""
    fast = {
        (seed, club)
        for seed in OTHERS
        for club, value in generate.build_league(random.Random(seed)).grounds.items()
        if value > 1
    }
    together = {cell: each for seed in OTHERS for cell, each in leagues[seed].items()}
    found = errors_off(together, lambda cell: (cell.league, cell.home) in fast)
    assert len(found) == 2 and max(map(abs, found.values())) < 2.5, found


@pytest.mark.slow
def test_what_was_drawn_moves_the_coast(leagues: dict[int, dict[Cell, Sums]]):
    """By more than half the spread of a ground: centred effects would move it by nothing."""
    sides = [
        total(each for cell, each in leagues[planted.SEED].items() if cell.region == region)
        for region in ("coast", "inland")
    ]
    coast, inland = (side.drawn / side.planted for side in sides)
    assert abs(math.log(coast / inland)) > planted.GROUND_SD / 2


def test_the_readme_says_what_was_drawn():
    page = (FOLDER / "README.md").read_text("utf-8")
    grounds = generate.build_league(random.Random(planted.SEED)).grounds
    slow, fast = min(grounds, key=grounds.__getitem__), max(grounds, key=grounds.__getitem__)
    coast, inland = (
        fmean(value for club, value in grounds.items() if REGION_OF_CLUB[club] == region)
        for region in ("coast", "inland")
    )
    for name, value in (
        (f"slowest {GROUNDS[slow].name} (inland) ", grounds[slow] - 1),
        (f"fastest {GROUNDS[fast].name} (coast) ", grounds[fast] - 1),
        ("by grounds alone | ", coast / inland - 1),
    ):
        assert f"{name}{100 * value:+.1f} %" in page
    assert f"standard deviation {100 * stdev(grounds.values()):.1f} %" in page

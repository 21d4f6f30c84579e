"""What the demo's generator expected of its balls, with the grounds, players and seasons it drew.

Grounds and players are drawn as they fall, so a league of them has a level of its own: many balls
come to the planted multiplier times the mean of what was drawn for those who played. The luck of
the match and of the ball is in neither. Taken from what was played, without the pipeline.
"""

from __future__ import annotations

import math
import random
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator
from typing import NamedTuple

from demo_data import generate, planted, scoring
from demo_data.league import REGION_OF_CLUB
from demo_data.tables import Played


class Sums(NamedTuple):
    """Runs charged in one match and cell: as planted, as drawn for those who played, as made."""

    planted: float
    drawn: float
    made: float


class Cell(NamedTuple):
    league: int
    match: str
    season: int
    home: str
    fielding: str
    kind: str
    phase: str

    @property
    def region(self) -> str:
        return REGION_OF_CLUB[self.home]


def expected(seed: int = planted.SEED) -> dict[Cell, Sums]:
    """Every match's cells of the league of a seed, balls of super overs left out."""
    rng = random.Random(seed)
    drawn = generate.build_league(rng)
    found: dict[Cell, Sums] = {}
    for played in generate.play_league(rng, drawn):
        fixture = played.fixture
        noise = drawn.seasons[fixture.season] * drawn.grounds[fixture.home]
        rates = _rates(fixture.season, REGION_OF_CLUB[fixture.home])
        sums: dict[tuple[str, str, str], list[float]] = defaultdict(lambda: [0.0, 0.0, 0.0])
        for side, kind, phase, place, skill, valid, made in _balls(played, drawn):
            plain = valid * rates[kind, phase] * planted.SCORING_BY_POSITION[place]
            own = sums[side, kind, phase]
            own[0] += plain
            own[1] += plain * noise * skill
            own[2] += made
        for cell, own in sums.items():
            where = (seed, fixture.match_id, fixture.season, fixture.home)
            found[Cell(*where, *cell)] = Sums(*own)
    return found


def _rates(season: int, region: str) -> dict[tuple[str, str], float]:
    """Runs a ball as planted, by kind and phase."""
    return {
        (kind, phase): economy / 6 * planted.multiplier(kind, phase, season, region)
        for (kind, phase), economy in planted.BASE_ECONOMY.items()
    }


def _balls(
    played: Played, drawn: generate.League
) -> Iterator[tuple[str, str, str, int, float, bool, int]]:
    """(side, kind, phase, place in the order from nought, skills, valid, runs charged) a ball."""
    for innings in played.innings:
        place = {player.player_id: at for at, player in enumerate(innings.batting.eleven)}
        side = innings.fielding.club
        for over, deliveries in enumerate(innings.overs):
            phase = scoring.phase_of(over)
            for each in deliveries:
                batter, bowler, ball = each.batter, each.bowler, each.ball
                made = ball.bat + ball.extras.get("wides", 0) + ball.extras.get("noballs", 0)
                skill = drawn.skills.of(batter, bowler)
                yield side, bowler.kind, phase, place[batter.player_id], skill, ball.valid, made


def total(each: Iterable[Sums]) -> Sums:
    return Sums(*(sum(column) for column in zip(*each, strict=True)))


def errors_off(sums: dict[Cell, Sums], of: Callable[[Cell], Hashable]) -> dict[Hashable, float]:
    """How many errors each group's runs are from what was drawn; matches are the unit."""
    matches: dict[Hashable, dict[Hashable, list[Sums]]] = defaultdict(lambda: defaultdict(list))
    for cell, each in sums.items():
        matches[of(cell)][cell.league, cell.match].append(each)
    found = {}
    for group, by_match in matches.items():
        each = [total(parts) for parts in by_match.values()]
        whole = total(each)
        ratio = whole.made / whole.drawn
        squares = sum((one.made - ratio * one.drawn) ** 2 for one in each)
        found[group] = (whole.made - whole.drawn) / math.sqrt(squares)
    return found

"""Who is better than whom: skill multipliers, centred anew for every season's squads."""

import random
from dataclasses import dataclass

from demo_data import planted
from demo_data.effects import centred
from demo_data.league import CLUBS, REGION_OF_CLUB
from demo_data.people import Player, Squad

# Valid balls faced per innings by batting position, and overs per innings by bowling place, as
# the league turns out; they are the weights with which skills are centred.
BALLS_FACED = (49, 50, 45, 38, 33, 24, 18, 12, 7, 5, 3)
OVERS_BOWLED = {3: 3.8, 6: 5.2, 8: 5.2, 4: 5.1, 7: 6.0, 9: 6.4, 10: 7.8, 11: 7.8}

# Centring takes away part of the spread; raw skills are drawn wider to make up for it.
BATTER_WIDENING, BOWLER_WIDENING = 1.3, 1.25


@dataclass(frozen=True)
class Skills:
    """Multipliers on charged runs by (season, player id); a reserve is an average player."""

    batting: dict[tuple[int, str], float]
    bowling: dict[tuple[int, str], float]

    def of(self, season: int, batter: Player, bowler: Player) -> float:
        """Return the joint multiplier of a batter and a bowler."""
        batting = self.batting.get((season, batter.player_id), 1.0)
        return batting * self.bowling.get((season, bowler.player_id), 1.0)


def skills(
    rng: random.Random, people: list[Player], squads: dict[tuple[str, int], Squad]
) -> Skills:
    """Draw each player's lasting skill, then centre it among those who play in each season."""
    bat_sd = planted.BATTER_SD * BATTER_WIDENING
    bowl_sd = planted.BOWLER_SD * BOWLER_WIDENING
    raw_bat = {p.player_id: rng.gauss(0, bat_sd) for p in people if p.position}
    raw_bowl = {p.player_id: rng.gauss(0, bowl_sd) for p in people if p.position and p.kind}
    result = Skills({}, {})
    for season in planted.SEASONS:
        regulars = [p for club in CLUBS for p in squads[club, season].regulars]
        for player_id, value in _season_batting(regulars, raw_bat).items():
            result.batting[season, player_id] = 1 + value
        for player_id, value in _season_bowling(regulars, raw_bowl).items():
            result.bowling[season, player_id] = 1 + value
    return result


def _season_batting(regulars: list[Player], raw: dict[str, float]) -> dict[str, float]:
    """Centre batting by club and hand, and by region and place in the order.

    The second keeps phases clean: openers meet the early overs, the middle order the end.
    """
    ids = {p.player_id: p for p in regulars}
    values = {key: raw[key] for key in ids}
    weight = {key: float(BALLS_FACED[p.position - 1]) for key, p in ids.items()}
    squad = {key: (p.club, p.hand) for key, p in ids.items()}
    place = {key: (REGION_OF_CLUB[p.club], p.position) for key, p in ids.items()}
    return centred(values, weight, [squad, place])


def _season_bowling(regulars: list[Player], raw: dict[str, float]) -> dict[str, float]:
    """Centre bowling by club and kind, and by region and place, as each has its usual overs."""
    ids = {p.player_id: p for p in regulars if p.kind}
    values = {key: raw[key] for key in ids}
    weight = {key: OVERS_BOWLED[p.position] for key, p in ids.items()}
    squad = {key: (p.club, p.kind) for key, p in ids.items()}
    place = {key: (REGION_OF_CLUB[p.club], p.position) for key, p in ids.items()}
    return centred(values, weight, [squad, place])

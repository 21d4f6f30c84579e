"""Who is better than whom: each player's lasting multipliers on charged runs."""

import random
from dataclasses import dataclass

from demo_data import planted
from demo_data.people import Player


@dataclass(frozen=True)
class Skills:
    """Multipliers by player id, the same in every season; a reserve is an average player."""

    batting: dict[str, float]
    bowling: dict[str, float]

    def of(self, batter: Player, bowler: Player) -> float:
        """Return the joint multiplier of a batter and a bowler."""
        batting = self.batting.get(batter.player_id, 1.0)
        return batting * self.bowling.get(bowler.player_id, 1.0)


def skills(rng: random.Random, people: list[Player]) -> Skills:
    """Draw each player's skill once, as it falls: a club, a hand or a season may be the better."""
    regulars = [p for p in people if p.position]
    return Skills(
        {p.player_id: 1 + rng.gauss(0, planted.BATTER_SD) for p in regulars},
        {p.player_id: 1 + rng.gauss(0, planted.BOWLER_SD) for p in regulars if p.kind},
    )

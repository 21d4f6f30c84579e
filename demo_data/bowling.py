"""Who bowls: the kind for every over of an innings, then a bowler within the trade's limits."""

import random
from collections import Counter
from collections.abc import Sequence

from demo_data import planted
from demo_data.people import Player
from demo_data.scoring import phase_of

# How far a captain strays from the planted share, as a fraction of the expected spin overs.
STRAY = 0.3
# How readily a place in the side is given the ball, and who is kept for the two ends.
READINESS = {3: 0.6, 6: 1.0, 8: 1.0, 4: 0.7, 7: 0.9, 9: 1.0, 10: 1.1, 11: 1.1}
NEW_BALL_PLACES, NEW_BALL_FACTOR = (10, 11), 2.0
SPELL_FACTOR = 4.0


def plan_kinds(rng: random.Random, season: int, overs: int) -> list[str]:
    """Draw the kind of every over: a quota per phase with some stray, in random order."""
    kinds: list[str] = []
    for phase, (first, last) in planted.PHASES.items():
        length = max(0, min(last, overs) - first + 1)
        expected = length * planted.spin_share(season, phase)
        spin = _rounded(rng, expected * (1 + rng.uniform(-STRAY, STRAY)))
        overs_of_phase = ["spin"] * spin + ["pace"] * (length - spin)
        rng.shuffle(overs_of_phase)
        kinds += overs_of_phase
    return kinds


def _rounded(rng: random.Random, value: float) -> int:
    """Round up or down at random, so that the mean is kept."""
    whole = int(value)
    return whole + (rng.random() < value - whole)


class Attack:
    """The bowlers of one side during one innings."""

    def __init__(self, side: Sequence[Player], most_overs: int) -> None:
        """Take the side in batting order: its places say who bowls how often."""
        self.bowlers = [(place, p) for place, p in enumerate(side, start=1) if place in READINESS]
        self.most_overs = most_overs
        self.bowled: Counter[str] = Counter()
        self.history: list[Player] = []

    def choose(self, rng: random.Random, kind: str, over: int) -> Player:
        """Choose a bowler of the kind, or of the other kind when none may bowl."""
        allowed = [(place, p) for place, p in self.bowlers if self._may_bowl(p)]
        wanted = [(place, p) for place, p in allowed if p.kind == kind] or allowed
        weights = [self._weight(place, p, over) for place, p in wanted]
        bowler = rng.choices(wanted, weights)[0][1]
        self.bowled[bowler.player_id] += 1
        self.history.append(bowler)
        return bowler

    def _may_bowl(self, player: Player) -> bool:
        just_bowled = bool(self.history) and self.history[-1] is player
        return not just_bowled and self.bowled[player.player_id] < self.most_overs

    def _weight(self, place: int, player: Player, over: int) -> float:
        """Weigh readiness, overs left, a spell under way and the new ball."""
        weight = READINESS[place] * (self.most_overs - self.bowled[player.player_id])
        if len(self.history) > 1 and self.history[-2] is player:
            weight *= SPELL_FACTOR
        if place in NEW_BALL_PLACES and phase_of(over) != planted.MIDDLE:
            weight *= NEW_BALL_FACTOR
        return weight

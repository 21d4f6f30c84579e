"""What an innings is played with: the sides, the conditions and the limits."""

import random
from dataclasses import dataclass

from demo_data.people import Player, Squad
from demo_data.skills import Skills


@dataclass(frozen=True)
class Conditions:
    """What all balls of a match share: season, region, and the product of the noise effects."""

    season: int
    region: str
    effect: float
    skills: Skills


@dataclass(frozen=True)
class Side:
    """One club's eleven in batting order, and the reserves who may field."""

    club: str
    eleven: tuple[Player, ...]
    spare: tuple[Player, ...]


@dataclass(frozen=True)
class Limits:
    """When an innings ends: overs, wickets, a target, or rain after so many overs."""

    overs: int
    wickets: int = 10
    target: int | None = None
    rain_after: int | None = None
    first_over: int = 0  # a super over is bowled as if it were the last over

    @property
    def overs_bowled(self) -> int:
        """Return the overs that can be bowled."""
        return self.overs if self.rain_after is None else self.rain_after


def pick_side(rng: random.Random, club: str, squad: Squad, rest_chance: dict[str, float]) -> Side:
    """Pick the regulars, resting one bowler of a kind now and then for the reserve."""
    eleven = list(squad.regulars)
    spare = []
    for kind, reserve in squad.reserves.items():
        if rng.random() < rest_chance[kind]:
            place = rng.choice([i for i, p in enumerate(eleven) if p.kind == kind])
            spare.append(eleven[place])
            eleven[place] = reserve
        else:
            spare.append(reserve)
    return Side(club, tuple(eleven), tuple(spare))

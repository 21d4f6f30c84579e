"""Draws of what stands in no table: who took the catch, when the scorer sent the file, who shone.

They stay, since without them the same seed would make another league from there on.
"""

import random

from demo_data.people import Player
from demo_data.sides import Side

SUBSTITUTE, UNNAMED_SUBSTITUTE = 0.03, 0.3
CAUGHT_BY_KEEPER = 0.3
KEEPER_PLACE = 5


def draw_fielders(rng: random.Random, kind: str, fielding: Side, bowler: Player) -> None:
    """Draw who took part in a dismissal; now and then it is a substitute, sometimes unnamed."""
    if kind == "stumped" or (kind == "caught" and rng.random() < CAUGHT_BY_KEEPER):
        return
    if kind not in ("caught", "run out"):
        return
    if rng.random() < SUBSTITUTE:
        if fielding.spare and rng.random() >= UNNAMED_SUBSTITUTE:
            rng.choice(fielding.spare)
        return
    keeper = fielding.eleven[KEEPER_PLACE - 1]
    able = [p for p in fielding.eleven if p not in (keeper, bowler)]
    number = 1 if kind == "caught" else rng.randint(1, 2)
    rng.sample(able, number)


def draw_player_of_the_match(rng: random.Random, *, decided: bool) -> None:
    """Draw whether the scorer wrote one down, in a match that somebody won."""
    if decided:
        rng.random()


def draw_day_of_sending(rng: random.Random) -> None:
    """Draw how many days later the scorer sent the match."""
    rng.randint(1, 5)


def draw_how_balls_are_written(rng: random.Random) -> None:
    """Draw how the balls of a miscounted over were written down."""
    rng.random()

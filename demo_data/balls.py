"""One ball: what the dice say, without names."""

import random
from bisect import bisect_right
from dataclasses import dataclass, field
from itertools import accumulate
from typing import Generic, TypeVar

from demo_data import scoring
from demo_data.scoring import BAT_RUNS

# Dots on which the batters run byes or leg byes: runs that are not charged to the bowler.
BYE_CHANCE = 0.035
BYES = (("legbyes", 1), ("byes", 1), ("legbyes", 2), ("legbyes", 4), ("byes", 4))
BYE_WEIGHTS = (0.66, 0.20, 0.06, 0.04, 0.04)
ALL_RUN_FOUR = 0.004
RUN_OUT_OFF_NO_BALL = 0.01
FIELD_PENALTY = 1e-5

Face = TypeVar("Face")


@dataclass(frozen=True)
class Rate:
    """Chances for one batter against one bowler: cumulative bat runs, and a wicket."""

    cumulative: tuple[float, ...]
    wicket: float

    def bat_runs(self, rng: random.Random) -> int:
        """Draw the runs off the bat."""
        return BAT_RUNS[bisect_right(self.cumulative, rng.random())]


@dataclass
class Ball:
    """The outcome of one ball; `ran` is how often the batters crossed."""

    bat: int = 0
    extras: dict[str, int] = field(default_factory=dict)
    wicket: str | None = None
    ran: int = 0
    all_run_four: bool = False

    @property
    def valid(self) -> bool:
        """Tell whether the ball counts towards the over."""
        return "wides" not in self.extras and "noballs" not in self.extras

    @property
    def total(self) -> int:
        """Return all runs scored."""
        return self.bat + sum(self.extras.values())


class Dice(Generic[Face]):
    """Named outcomes with weights, drawn quickly."""

    def __init__(self, weights: dict[Face, float]) -> None:
        """Prepare the running sums of the weights."""
        self.keys = tuple(weights)
        sums = tuple(accumulate(weights.values()))
        self.bounds = tuple(value / sums[-1] for value in sums[:-1])

    def roll(self, rng: random.Random) -> Face:
        """Draw one key."""
        return self.keys[bisect_right(self.bounds, rng.random())]


WIDE_DICE = Dice(scoring.WIDE_RUNS)
BYE_DICE = Dice(dict(zip(BYES, BYE_WEIGHTS, strict=True)))
DISMISSAL_DICE = {kind: Dice(shares) for kind, shares in scoring.DISMISSALS.items()}


def draw_ball(rng: random.Random, kind: str, rate: Rate) -> Ball:
    """Draw one ball bowled by a bowler of the kind."""
    chance = rng.random() - scoring.WIDE_CHANCE[kind]
    if chance < 0:
        return _wide(rng, kind)
    if chance < scoring.NO_BALL_CHANCE:
        return _no_ball(rng, rate)
    if rng.random() < rate.wicket:
        return _wicket(rng, kind)
    return _played(rng, rate)


def _wide(rng: random.Random, kind: str) -> Ball:
    runs = WIDE_DICE.roll(rng)
    ball = Ball(extras={"wides": runs}, ran=runs - 1)
    if kind == "spin" and runs == 1 and rng.random() < scoring.STUMPED_OFF_WIDE:
        ball.wicket = "stumped"
    return ball


def _no_ball(rng: random.Random, rate: Rate) -> Ball:
    ball = _played(rng, rate)
    ball.extras = {"noballs": 1, **ball.extras}
    if ball.bat in (1, 2) and rng.random() < RUN_OUT_OFF_NO_BALL:
        ball.wicket = "run out"
    return ball


def _wicket(rng: random.Random, kind: str) -> Ball:
    ball = Ball(wicket=DISMISSAL_DICE[kind].roll(rng))
    if ball.wicket == "run out" and rng.random() < scoring.RUN_BEFORE_RUN_OUT:
        ball.bat = ball.ran = 1
    return ball


def _played(rng: random.Random, rate: Rate) -> Ball:
    runs = rate.bat_runs(rng)
    ball = Ball(bat=runs, ran=runs)
    if runs == 0 and rng.random() < BYE_CHANCE:
        name, ball.ran = BYE_DICE.roll(rng)
        ball.extras[name] = ball.ran
    if runs == 4 and rng.random() < ALL_RUN_FOUR:
        ball.all_run_four = True
    if runs == 0 and rng.random() < FIELD_PENALTY:
        ball.extras["penalty"] = 5
    return ball

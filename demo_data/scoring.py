"""From a planted rate to the chances of 0, 1, 2, 3, 4 and 6 off the bat.

The planted multipliers act on *all* runs charged to the bowler, but wides and no-balls come at
constant rates. So the runs off the bat take up the whole change: their mean is solved for, and
their distribution is tilted until it has exactly that mean.
"""

import math
from bisect import bisect_right
from functools import cache
from itertools import accumulate, pairwise

from demo_data import planted
from demo_data.planted import EARLY, END, MIDDLE

BAT_RUNS = (0, 1, 2, 3, 4, 6)
# Shapes before tilting; they need not sum to one.
SHAPES = {
    ("pace", EARLY): (0.640, 0.220, 0.040, 0.010, 0.085, 0.005),
    ("spin", EARLY): (0.620, 0.245, 0.040, 0.008, 0.080, 0.007),
    ("pace", MIDDLE): (0.520, 0.330, 0.050, 0.007, 0.075, 0.010),
    ("spin", MIDDLE): (0.530, 0.335, 0.045, 0.005, 0.070, 0.007),
    ("pace", END): (0.380, 0.380, 0.090, 0.010, 0.100, 0.028),
    ("spin", END): (0.390, 0.385, 0.085, 0.008, 0.095, 0.030),
}

# Chances per ball bowled, valid or not.
WIDE_CHANCE = {"pace": 0.030, "spin": 0.020}
NO_BALL_CHANCE = 0.006
WIDE_RUNS = {1: 0.88, 2: 0.07, 5: 0.05}
# Chance of a stumping off a wide that costs one run (spin only).
STUMPED_OFF_WIDE = 0.005

# Shares of the wickets that fall on valid balls. What the bowler gets no credit for has the same
# share in both kinds, so credited wickets per ball are the same too.
DISMISSALS = {
    "pace": {
        "caught": 0.5830,
        "bowled": 0.1700,
        "lbw": 0.1200,
        "run out": 0.1000,
        "caught and bowled": 0.0230,
        "hit wicket": 0.0035,
        "obstructing the field": 0.0005,
    },
    "spin": {
        "caught": 0.4930,
        "bowled": 0.1400,
        "lbw": 0.1200,
        "run out": 0.1000,
        "stumped": 0.0900,
        "caught and bowled": 0.0550,
        "hit wicket": 0.0015,
        "obstructing the field": 0.0005,
    },
}
# Chance that a run was completed before a run out.
RUN_BEFORE_RUN_OUT = 0.3

TILT_GRID = tuple(step / 25 for step in range(-75, 51))


def phase_of(over: int) -> str:
    """Return the phase of an over counted from 0."""
    for phase, (_, last) in planted.PHASES.items():
        if over < last:
            return phase
    raise ValueError(f"no phase holds over {over}")


def charged_per_ball(kind: str, phase: str, season: int, region: str) -> float:
    """Return the expected charged runs per valid ball before any noise or skill."""
    base = planted.BASE_ECONOMY[kind, phase] / 6
    return base * planted.multiplier(kind, phase, season, region)


def wicket_chance(kind: str, phase: str, position: int) -> float:
    """Return the chance of a wicket on a valid ball.

    Stumpings off wides are taken off again for spin, so that wickets per valid ball from all
    sources agree between the kinds.
    """
    chance = planted.WICKET_CHANCE[phase] * planted.WICKET_BY_POSITION[position - 1]
    if kind == "spin":
        wides_per_valid = WIDE_CHANCE[kind] / (1 - WIDE_CHANCE[kind] - NO_BALL_CHANCE)
        chance -= wides_per_valid * WIDE_RUNS[1] * STUMPED_OFF_WIDE
    return chance


def bat_mean(charged: float, kind: str, wicket: float) -> float:
    """Solve for the mean runs off the bat of a ball without a wicket.

    Per ball bowled, with w wides, n no-balls and v valid balls, the charged runs are
    w E(wide) + n (1 + mean) + v ((1 - wicket) mean + wicket E(run out run)) = v charged.
    """
    wide, no_ball = WIDE_CHANCE[kind], NO_BALL_CHANCE
    valid = 1 - wide - no_ball
    wide_runs = sum(runs * share for runs, share in WIDE_RUNS.items())
    run_out_runs = DISMISSALS[kind]["run out"] * RUN_BEFORE_RUN_OUT
    fixed = wide * wide_runs + no_ball + valid * wicket * run_out_runs
    return (valid * charged - fixed) / (no_ball + valid * (1 - wicket))


def long_grass_shape(shape: tuple[float, ...]) -> tuple[float, ...]:
    """Turn some of the fours of a shape into ones and twos."""
    weights = dict(zip(BAT_RUNS, shape, strict=True))
    lost = weights[4] * (1 - planted.FOURS_KEPT)
    weights[4] -= lost
    for runs, share in planted.FOURS_BECOME.items():
        weights[runs] += lost * share
    return tuple(weights.values())


def _tilted(shape: tuple[float, ...], tilt: float) -> tuple[float, ...]:
    """Return the shape with each weight multiplied by exp(tilt * runs), summing to one."""
    weights = [w * math.exp(tilt * runs) for w, runs in zip(shape, BAT_RUNS, strict=True)]
    total = sum(weights)
    return tuple(weight / total for weight in weights)


def _mean(chances: tuple[float, ...]) -> float:
    return sum(chance * runs for chance, runs in zip(chances, BAT_RUNS, strict=True))


class Ladder:
    """Tilted versions of one shape, in order of their means.

    A mixture of two neighbouring rungs has any mean between theirs *exactly*, which costs far
    less than solving for the tilt at every over.
    """

    def __init__(self, shape: tuple[float, ...]) -> None:
        """Tilt the shape by every step of the grid."""
        self.rungs = [_tilted(shape, tilt) for tilt in TILT_GRID]
        self.means = [_mean(rung) for rung in self.rungs]
        assert all(low < high for low, high in pairwise(self.means))

    def chances(self, mean: float) -> tuple[float, ...]:
        """Return the chances of BAT_RUNS whose mean is `mean`."""
        upper = bisect_right(self.means, mean)
        if not 0 < upper < len(self.means):
            raise ValueError(f"no rung near a mean of {mean:.3f} runs")
        low, high = self.means[upper - 1], self.means[upper]
        share = (mean - low) / (high - low)
        pairs = zip(self.rungs[upper - 1], self.rungs[upper], strict=True)
        return tuple(a + share * (b - a) for a, b in pairs)

    def cumulative(self, mean: float) -> tuple[float, ...]:
        """Return the running sums of the chances, ready for a bisection."""
        return tuple(accumulate(self.chances(mean)))[:-1]


@cache
def ladder(kind: str, phase: str, grass_is_long: bool) -> Ladder:
    """Return the ladder of a cell; long grass changes the shape only where there is a step."""
    shape = SHAPES[kind, phase]
    if grass_is_long and planted.STEP[kind, phase] != 1.0:
        shape = long_grass_shape(shape)
    return Ladder(shape)

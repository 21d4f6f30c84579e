"""The truths planted in the demo league, as plain constants.

Everything a careful analysis should recover (or should rightly fail to find) is written here,
and only here: the generator plays by these numbers, the README prints them, and tests may
compare an analysis with them.
"""

SEED = 20090401
FIRST_SEASON, LAST_SEASON = 2009, 2022
SEASONS = tuple(range(FIRST_SEASON, LAST_SEASON + 1))

EVENT_NAME = "the long grass"
EVENT_DATE = "2017-03-01"
EVENT_SEASON = 2017

KINDS = ("pace", "spin")
EARLY, MIDDLE, END = "1-10", "11-40", "41-50"
# Over numbers as people count them, both ends included.
PHASES = {EARLY: (1, 10), MIDDLE: (11, 40), END: (41, 50)}

# Runs charged to the bowler per six valid balls: inland, first season, a batter of the top eight.
BASE_ECONOMY = {
    ("pace", EARLY): 4.4,
    ("pace", MIDDLE): 4.8,
    ("pace", END): 6.9,
    ("spin", EARLY): 4.3,
    ("spin", MIDDLE): 4.4,
    ("spin", END): 6.6,
}

# Growth of the charged runs from one season to the next, both kinds, with no break in 2017.
DRIFT_PER_SEASON = {EARLY: 0.006, MIDDLE: 0.006, END: 0.014}

# The step at the event, on charged runs per valid ball. Only one cell really moves.
STEP = {
    ("pace", EARLY): 1.0,
    ("pace", MIDDLE): 1.0,
    ("pace", END): 1.0,
    ("spin", EARLY): 1.0,
    ("spin", MIDDLE): 0.89,
    ("spin", END): 1.0,
}

# How the one real step comes about: before the exact rescaling, this share of the fours off spin
# in the middle overs stays a four; the others become ones and twos in these proportions.
FOURS_KEPT = 0.60
FOURS_BECOME = {1: 0.7, 2: 0.3}
# What follows for fours per ball off spin in the middle overs, against what they would have been
# without the long grass (about; the step above is exact).
FOURS_STEP_ABOUT = 0.58
# The same between windows whose centres are five seasons apart: the drift brings some fours back.
FOURS_FIVE_SEASONS_ABOUT = 0.61

# Share of the balls bowled by spin.
SPIN_SHARE_BEFORE = {EARLY: 0.08, MIDDLE: 0.36, END: 0.22}
SPIN_SHARE_AFTER = {EARLY: 0.08, MIDDLE: 0.44, END: 0.22}

# Charged runs at a coast ground against an inland ground, in every phase.
COAST = {"pace": 0.94, "spin": 1.0}

# Chance of a wicket per valid ball, the same for pace and spin in every season.
WICKET_CHANCE = {EARLY: 0.018, MIDDLE: 0.0205, END: 0.044}
# The tail is out more often and scores less; identical for every club and season.
WICKET_BY_POSITION = (1.0,) * 8 + (1.5, 1.5, 1.5)
SCORING_BY_POSITION = (1.0,) * 8 + (0.75, 0.75, 0.75)

LEFT_HANDED_SHARE = 25 / 88
# Left-handed against right-handed batters: no difference.
HAND_SCORING_RATIO = 1.0
HAND_WICKET_RATIO = 1.0

# Spread of the effects that are noise, not truth (standard deviations of the multipliers).
MATCH_SD = 0.08
SEASON_SD = 0.006
GROUND_SD = 0.02
BATTER_SD = 0.06
BOWLER_SD = 0.05


def spin_share(season: int, phase: str) -> float:
    """Return the planted share of balls bowled by spin."""
    shares = SPIN_SHARE_AFTER if season >= EVENT_SEASON else SPIN_SHARE_BEFORE
    return shares[phase]


def multiplier(kind: str, phase: str, season: int, region: str) -> float:
    """Return the planted multiplier on charged runs, against the first season inland."""
    drift = (1 + DRIFT_PER_SEASON[phase]) ** (season - FIRST_SEASON)
    step = STEP[kind, phase] if season >= EVENT_SEASON else 1.0
    coast = COAST[kind] if region == "coast" else 1.0
    return drift * step * coast


def expected_ratio(kind: str, phase: str, seasons_apart: float) -> float:
    """Return the expected after/before ratio of economies.

    `seasons_apart` is the distance between the centres of the two windows; the drift over that
    distance comes on top of the step.
    """
    return STEP[kind, phase] * (1 + DRIFT_PER_SEASON[phase]) ** seasons_apart

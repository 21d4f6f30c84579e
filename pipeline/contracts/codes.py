"""The closed sets of words that results are told by; each of them has sentences in wording/."""

from __future__ import annotations

from typing import Literal

# A point of a series, and what a drift is asked of.
Unit = Literal["season", "year", "half-year", "quarter", "month"]
# Why it is that one: the topic asks for it; seasons follow each other; they are played side by
# side; the event falls inside one, whose matches the windows take.
UnitBecause = Literal["asked", "seasons_follow", "seasons_overlap", "season_cut"]
# The first verdict: did the number move?
Verdict = Literal["changed", "held", "can't tell"]
Because = Literal[
    "beyond_chance",
    "moved_within_margin",
    "inside_margin",
    "lost_among_many",
    "held_lost_among_many",
    "usual_between_periods",
    "usual_between_clusters",
    "interval_too_wide",
    "refused",
]
# Why there is no interval, in the order in which it is asked.
Refusal = Literal[
    "no_balls",
    "few_matches",
    "none_counted",
    "one_match_holds_all",
    "few_effective",
    "no_spread",
    "mix_alike",
    "few_points",
    "no_scatter",
    "nothing_to_divide_by",
    "none_at_an_end",
    "few_clusters",
    "one_cluster_holds_all",
    "uneven_clusters",
]
# What errors are by, beside matches: the level that a question is asked at.
ClusterOf = Literal[Unit, "ground", "batter", "bowler", "side"]
# Why clusters bear no error; of a difference of groups, why there is none at all.
FewClusters = Literal["few_clusters", "one_cluster_holds_all", "uneven_clusters"]
# The second verdict: has the event's date anything to do with it?
DriftVerdict = Literal["beyond the drift", "in line with the drift", "not testable"]
DriftBecause = Literal[
    "step_beyond_chance",
    "step_lost_among_many",
    "step_within_chance",
    "few_periods_before",
    "few_periods_after",
    "empty_period",
]
# A trend that is no straight line, beside which a step is asked for again.
Shape = Literal["slope change", "quadratic"]
# Had a number and its control been going the same way before the event?
ParallelVerdict = Literal["parallel", "not parallel", "can't tell"]
ControlVerdict = Literal["beyond the control", "in line with the control"]
ControlBecause = Literal["beyond_chance", "lost_among_many", "within_chance"]
# Why a change can't be told like for like, or with sides and grounds held still.
UnlikeBecause = Literal[
    "few_innings",
    "not_by_innings",
    "little_in_common",
    "no_error",
    "below_nought",
    "windows_apart",
    "no_fit",
]
# What else the balls of two windows are of.
OfBalls = Literal[
    "batting_team",
    "bowling_team",
    "ground",
    "country",
    "competition",
    "innings",
    "bowler_kind",
    "phase",
    "outcome",
]
# How the two ends of a difference are found: t on its error; Newcombe's of two shares of matches;
# at the date that was searched for.
IntervalMethod = Literal["t", "newcombe", "searched"]
Adjustment = Literal["holm", "bh"]  # Holm; Benjamini and Hochberg
MeasureKind = Literal["rate", "average", "share"]
# What it would mean for a finding if people were right.
Means = Literal[
    "rises",
    "falls",
    "holds",
    "higher",
    "lower",
    "alike",
    "steps up",
    "steps down",
    "no step",
    "drifts up",
    "drifts down",
    "matters",
    "makes no difference",
]
# What is held alike: pairs of sides, batting and bowling, each at its grounds, or wherever.
Alike = Literal["pairs at a ground", "pairs"]
# Which of the two numbers shows that the change is another one.
Shown = Literal["like for like", "held still"]
# A window a period shorter or longer; a period, ground or side left out; without shortened chases,
# without the match that moves it most; its error taken on the other scale; what it is with the mix
# of sides, innings and grounds held alike, in two ways.
Way = Literal[
    "shorter",
    "longer",
    "period",
    "ground",
    "side",
    "reduced",
    "match",
    "scale",
    "like for like",
    "held still",
]
Stretch = Literal["season", "year"]

"""Cautions as codes with their numbers; wording/notes.py has words and a rank for each."""

from __future__ import annotations

from pipeline.contracts import codes
from pipeline.contracts.base import Contract
from pipeline.contracts.codes import ClusterOf, DriftBecause, Shown, Stretch, Unit, Verdict, Way
from pipeline.contracts.composition import Moved
from pipeline.contracts.parts import Span


class AtLeast(Contract, kw_only=True):
    """How much of a player there must be in each window: a count of balls or of matches."""

    count: int
    of: str


class Note(Contract, tag_field="code", kw_only=True):
    """Any caution; which one is its code."""


class FewMatches(Note, tag="few_matches", kw_only=True):
    matches: int  # on the thinner side


class FewClusters(Note, tag="few_clusters", kw_only=True):
    """Too few periods for how they differ to be in an interval, which is of matches alone."""

    of: ClusterOf
    a: int  # before
    b: int  # after
    few: codes.FewClusters


class FewCounted(Note, tag="few_counted", kw_only=True):
    count: int  # in the denominator of the thinner side
    wickets: bool  # whether that counts wickets


class OneMatchDominates(Note, tag="one_match_dominates", kw_only=True):
    share: float  # of its side's numerator


class ScaleDisagrees(Note, tag="scale_disagrees", kw_only=True):
    """Of the intervals in units and in per cent one includes no change, the other does not."""


class CheckDisagrees(Note, tag="check_disagrees", kw_only=True):
    p: float
    p_permutation: float


class UnknownLeftOut(Note, tag="unknown_left_out", kw_only=True):
    share: float  # of the beat's balls


class CoverageLow(Note, tag="coverage_low", kw_only=True):
    share: float  # of the beat's balls, so many that they could move a row


class ReducedMatches(Note, tag="reduced_matches", kw_only=True):
    matches: int  # with a shortened chase
    of: int


class ChosenByResult(Note, tag="chosen_by_result", kw_only=True):
    """The sides of a row are those that won, or lost: what is counted decided it."""


class Rival(Contract, kw_only=True):
    """Another event, and how many days after the one that is asked about; before it, below 0."""

    name: str
    days: int | None = None  # of an edition of 0.10 or before: not kept


class RivalEvent(Note, tag="rival_event", kw_only=True):
    rivals: list[Rival]


class TransitionSeason(Note, tag="transition_season", kw_only=True):
    seasons: list[str]  # that the event fell inside


class OppositionChanged(Note, tag="opposition_changed", kw_only=True):
    share: float  # of the matches after that are of a side not met before


class NotLikeForLike(Note, tag="not_like_for_like", kw_only=True):
    """Like for like a change is another one; on the scale that is told, points or a fraction."""

    change: Span
    instead: Span
    shown: Shown
    held: list[codes.OfBalls]  # of what is held still
    points: bool
    cause: Moved | None  # what else changed that is worth most by itself


class DriftNotTestable(Note, tag="drift_not_testable", kw_only=True):
    because: DriftBecause
    periods_before: int
    periods_after: int
    unit: Unit = "season"


class Simpson(Note, tag="simpson", kw_only=True):
    """The whole and its rates, the mix held still, point different ways, both told from none."""


class MixMoved(Note, tag="mix_moved", kw_only=True):
    """What who did what made of a change is half of it or more, and told from none."""

    mix: float  # in units
    change: float  # in units
    simpson: bool
    low: float | None = None  # of the mix
    high: float | None = None


class OneCarries(Note, tag="one_carries", kw_only=True):
    """Without one period, ground or side a headline comes out otherwise, and under half of it."""

    kind: Way  # period, ground or side
    name: str
    stretch: Stretch
    verdict: Verdict  # without it
    other_way: bool = False  # a change without it too, but the other way
    refused: codes.Refusal | None = None  # why nothing can be told without it


class SurvivorsOnly(Note, tag="survivors_only", kw_only=True):
    in_either: int
    in_both: int
    kept: int
    left_out: int
    at_least: AtLeast


AnyNote = (
    NotLikeForLike
    | FewMatches
    | FewClusters
    | FewCounted
    | OneMatchDominates
    | ScaleDisagrees
    | CheckDisagrees
    | UnknownLeftOut
    | CoverageLow
    | ReducedMatches
    | ChosenByResult
    | RivalEvent
    | TransitionSeason
    | OppositionChanged
    | DriftNotTestable
    | Simpson
    | MixMoved
    | OneCarries
    | SurvivorsOnly
)

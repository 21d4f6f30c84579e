"""What findings are made of: sides, effects, the second verdict, and what single kinds add."""

from __future__ import annotations

from typing import Literal

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import (
    ClusterOf,
    FewClusters,
    IntervalMethod,
    Refusal,
    Verdict,
)

CONFIDENCE = 0.95  # of an interval that was not widened for the number of looks


class Span(Contract, kw_only=True):
    """A value with the two ends of its interval."""

    value: float
    low: float
    high: float

    @property
    def half(self) -> float:
        """Half the width of the interval: what a rounding may hide."""
        return (self.high - self.low) / 2


class Side(Contract, kw_only=True):
    """One side of a comparison: a window's or a group's value, in the measure's units.

    `largest` is the share of the numerator in one match; `refused` why there is no interval.
    """

    value: float | None
    low: float | None
    high: float | None
    matches: int
    balls: int
    numerator: int
    denominator: int
    largest: float
    refused: Refusal | None


class GroupChange(Contract, kw_only=True):
    """One group's own change, as a side of a gap; counts are those of its thinner window."""

    difference: Span | None
    change: Span | None
    matches: int
    balls: int
    numerator: int
    denominator: int
    largest: float
    refused: Refusal | None


class Margin(Contract, kw_only=True):
    """A change inside it counts as none: per cent of a rate, points of a share."""

    size: float
    unit: Literal["percent", "points"]


class Clusters(Contract, kw_only=True):
    """The level that a question is asked at beside its matches, and what its matches alone say.

    `a` and `b` are how many there are of them on each side. `wider`: the effect's error is that of
    whole clusters left out, since it is the wider of the two; else it is that of matches, as it is
    where there are too `few` of them. `se_match`, `df_match` and `p_match` are of matches left out,
    on the scale that is told.
    """

    of: ClusterOf
    a: int
    b: int
    wider: bool
    se_match: float
    df_match: float
    p_match: float
    few: FewClusters | None = None


class Effect(Contract, kw_only=True):
    """A difference of two sides on both scales, with its tests.

    `difference` is in the measure's units, `relative` a fraction (0.05 is 5 per cent more; none of
    shares of matches, which may be nought). `level` is the confidence of the two ends of both, 0.95
    until it is widened with its family; `se` and `df_units` are of the difference, `se_log` and
    `df` of the log of the relative one. `p` is of the scale that is told (a share's difference,
    else the relative one), `p_equal` of the two one-sided tests against the margin,
    `p_permutation` of whole matches shuffled, where that was done; `detectable_*` what such data
    would show four times in five. All errors are of matches unless `cluster` says that they are of
    what the question is about; it is none where that is the match itself.
    """

    difference: Span
    relative: Span | None
    se: float
    df_units: float
    se_log: float | None
    df: float | None
    p: float
    p_equal: float
    p_permutation: float
    detectable_change: float | None
    detectable_difference: float
    level: float = CONFIDENCE
    interval: IntervalMethod = "t"
    cluster: Clusters | None = None

    @property
    def p_match(self) -> float:
        """p by matches alone."""
        return self.cluster.p_match if self.cluster else self.p

    @property
    def change(self) -> Span:
        """The relative change, of a measure that has one."""
        if self.relative is None:
            raise ValueError("a share of matches has no relative change; ask for its difference")
        return self.relative

    @property
    def p_inside(self) -> float:
        """The smallest error rate whose interval lies inside the margin."""
        return min(2 * self.p_equal, 1.0)


class Felt(Contract, kw_only=True):
    """The same difference on the field: `times` a count of overs, balls, wickets or innings."""

    value: float
    low: float
    high: float
    times: int
    divided: int
    of: str
    per: str


class Heterogeneity(Contract, kw_only=True):
    """Whether the players of a group differ by more than luck.

    `q` is Cochran's, about `df` where nobody differs, with its `p`; `tau` the spread of their true
    changes on the log scale; `kept` the share of a deviation from the group's mean that is no luck,
    of the player in the middle of the group.
    """

    q: float
    df: int
    p: float
    tau: float
    kept: float


class Shrunk(Contract, kw_only=True):
    """A player's change drawn in towards the mean of the `of` players of the group.

    `apart`: told from the group's own mean (`p_apart`, adjusted over the list). `moved`: the change
    is told from none, among all looks as it came out and with luck allowed for. Neither follows
    from the other. `among` is none of a player with nobody to be held against; the last three are
    none of what version 0.8 wrote.
    """

    change: float
    low: float
    high: float
    apart: bool
    mean: float
    group: str
    of: int
    p_apart: float | None = None
    moved: bool | None = None  # set with its family
    among: Heterogeneity | None = None


class OfWhole(Contract, kw_only=True):
    """What part of a change the part of a mix is.

    `whole` is the change in units with its verdict, `share` the part over the whole, with Fieller's
    interval; none where the whole can't be told from none, so that any share fits.
    """

    whole: Span
    share: Span | None
    verdict: Verdict = "can't tell"  # set with its family

"""What findings are made of: sides, effects, the second verdict, and what single kinds add."""

from __future__ import annotations

from typing import Literal

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import (
    ClusterOf,
    ControlBecause,
    ControlVerdict,
    DriftBecause,
    DriftVerdict,
    FewClusters,
    IntervalMethod,
    ParallelVerdict,
    Refusal,
    Shape,
    Unit,
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


class Slope(Contract, kw_only=True):
    """A drift with its 95 % interval; an edition of 0.8 has none."""

    value: float
    low: float | None
    high: float | None

    @property
    def way(self) -> int:
        """1 if it can be told to rise, -1 to fall, 0 where its interval leaves that open."""
        if self.low is None or self.high is None:
            return 0
        return (self.low > 0) - (self.high < 0)


class Bend(Contract, kw_only=True):
    """The step beside a trend of another shape than a line: its p, and whether it is still told.

    That is at 95 % beside the line and beside this shape, on the same side of none. With so few
    periods a step that is lost here is not disproved.
    """

    shape: Shape
    survives: bool
    p: float


class StepTest(Contract, kw_only=True):
    """A step at the event beside the drift that was there anyway; all but counts as fractions.

    `slope` is the drift (a season or a year: its `Drift` says), `expected` what it alone would have
    made between the centres of the windows, `step` what is on top of it, its ends at the confidence
    `level`; `se` and `df` are of its log; `rank` is the real date's among `dates`, 1 the largest
    step; `fit` the line with its step, in the measure's units, by period. `rho` is how alike
    neighbouring periods are beside the line, and `factor` what the variance of the step was
    multiplied by for it: 1 where they are not. `breakdown` is by how much the slope would have to
    change a year, from each year to the next and whichever way suits it best, for the step to be
    none (a fraction a year per year). What version 0.9 wrote has the last four as they stand here.
    """

    slope: Slope
    expected: Slope
    step: Span
    p: float
    se: float
    df: float
    rank: int
    dates: int
    fit: list[tuple[str, float]] | None
    level: float = CONFIDENCE
    rho: float = 0.0
    factor: float = 1.0
    bends: list[Bend] = []
    breakdown: float | None = None

    @property
    def lost_beside(self) -> list[Shape]:
        """The shapes of a trend beside which the step can't be told."""
        return [bend.shape for bend in self.bends if not bend.survives]


class Drift(Contract, kw_only=True):
    """The second verdict and what it rests on; `test` is none where it can't be asked.

    It is asked of periods of that `unit`, from the `first` to the `last`, but for `left_out`: ends
    that are too short, and what the event falls inside. The slope is told `per` season where
    seasons follow each other year by year, else per year.
    """

    verdict: DriftVerdict
    because: DriftBecause
    periods_before: int
    periods_after: int
    first: str
    last: str
    unit: Unit = "season"
    per: Literal["season", "year"] = "season"
    left_out: list[str] = []
    test: StepTest | None
    p_adjusted: float | None = None
    family_size: int = 0


class Parallel(Contract, kw_only=True):
    """Whether a number and its control went the same way before the event.

    `slope` is what the number gained on its control, a year, over so many `periods` before the
    event, with its `p` and the allowance for neighbours that are alike; none where they are too few
    or one of them is empty. Not parallel: none is outside its interval. Parallel: all that it could
    make between the windows is inside the measure's margin (two one-sided tests).
    """

    verdict: ParallelVerdict
    periods: int
    per: Literal["season", "year"]
    slope: Slope | None = None
    p: float | None = None
    rho: float = 0.0
    factor: float = 1.0


class Yardstick(Contract, kw_only=True):
    """How far a number moves from one period to the next beside its drift, as a fraction.

    A standard deviation, the luck of the matches taken off, with its 95 % interval; of so many
    `periods` of that `unit`.
    """

    sd: float
    low: float
    high: float
    periods: int
    unit: Unit

    @property
    def told(self) -> bool:
        """Whether it can be told from none."""
        return self.low > 0


class ControlCheck(Contract, kw_only=True):
    """The change beyond the control's own, and its verdict; `effect` is that of a gap.

    `parallel` says whether the two went the same way before; `step` is that of their gap beside its
    own drift, judged with the other controls' (`step_because`), none where it can't be tested. An
    edition of 0.9 has neither.
    """

    name: str
    effect: Effect
    verdict: ControlVerdict = "in line with the control"  # set with its family
    because: ControlBecause = "within_chance"
    p_adjusted: float | None = None
    parallel: Parallel | None = None
    step: StepTest | None = None
    step_because: DriftBecause | None = None


class EventPlace(Contract, kw_only=True):
    """Whether the event is inside the interval of the date, and its rank among the dates."""

    inside: bool
    rank: int | None


class SecondBreak(Contract, kw_only=True):
    """Another break, between two points of the series."""

    last: str
    next: str
    p: float


class TurningDate(Contract, kw_only=True):
    """Where the data put the break: after the point `last`, its interval `low` to `high`.

    `counts` is the series: of each point its label, what was counted, and against what; `times` are
    their places, and `parts` the ends that are too short to be among them. `trend` is what a point
    adds beside the step, a fraction. An edition of 0.8 kept nothing of the series, and no trend.
    `rho` is how alike neighbouring points are without a step, which the test allows for.
    """

    last: str
    next: str
    low: str
    high: str
    points: int
    dates: int
    sup_f: float
    event: EventPlace | None
    second: SecondBreak | None
    every: str
    fit: list[tuple[str, float]]
    parts: list[str] = []
    counts: list[tuple[str, float, float]] = []
    trend: float | None = None
    times: list[float] = []
    rho: float = 0.0

    @property
    def left_out(self) -> list[str]:
        """Points with nothing to count against: no ball of it was bowled in them."""
        return [label for label, _, against in self.counts if not against]


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

"""What findings know of time: drifts and steps, controls, how far a number moves anyway, dates."""

from __future__ import annotations

from typing import Literal

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import (
    ControlBecause,
    ControlVerdict,
    DriftBecause,
    DriftVerdict,
    ParallelVerdict,
    Shape,
    Unit,
)
from pipeline.contracts.parts import CONFIDENCE, Effect, Span


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

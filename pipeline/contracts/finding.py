"""A finding: the answer to one comparison, signed and unrounded; a type for each kind of answer."""

from __future__ import annotations

from typing import Literal

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import (
    Adjustment,
    Because,
    ControlVerdict,
    DriftBecause,
    DriftVerdict,
    MeasureKind,
    Refusal,
    Verdict,
)
from pipeline.contracts.comparison import Comparison
from pipeline.contracts.notes import AnyNote


class Span(Contract, kw_only=True):
    """A value with the two ends of its 95 % interval."""

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


class Effect(Contract, kw_only=True):
    """A difference of two sides on both scales, with its tests.

    `difference` is in the measure's units, `relative` a fraction (0.05 is 5 per cent more; none of
    shares of matches, which may be nought); `p_equal` is of the two one-sided tests against the
    margin; `p_permutation` of whole matches shuffled, where that was done; `detectable_*` what such
    data would show four times in five.
    """

    difference: Span
    relative: Span | None
    se_log: float | None
    df: float | None
    p: float
    p_equal: float
    p_permutation: float
    detectable_change: float | None
    detectable_difference: float

    @property
    def change(self) -> Span:
        """The relative change, of a measure that has one."""
        if self.relative is None:
            raise ValueError("a share of matches has no relative change; ask for its difference")
        return self.relative


class Felt(Contract, kw_only=True):
    """The same difference on the field: `times` a count of overs, balls, wickets or innings."""

    value: float
    low: float
    high: float
    times: int
    divided: int
    of: str
    per: str


class StepTest(Contract, kw_only=True):
    """A step at the event beside the drift that was there anyway; all but counts as fractions.

    `per_season` is the drift, `expected` what it alone would have made between the centres of the
    windows, `step` what is on top of it; `rank` is the real date's among `dates`, 1 the largest
    step; `fit` the line with its step, in the measure's units, by season.
    """

    per_season: float
    expected: float
    step: Span
    p: float
    df: float
    rank: int
    dates: int
    fit: list[tuple[str, float]] | None


class Drift(Contract, kw_only=True):
    """The second verdict and what it rests on; `test` is none where it can't be asked."""

    verdict: DriftVerdict
    because: DriftBecause
    seasons_before: int
    seasons_after: int
    first: str
    last: str
    test: StepTest | None
    p_adjusted: float | None = None


class ControlCheck(Contract, kw_only=True):
    """The change beyond the control's own, and its verdict."""

    name: str
    difference: Span
    relative: Span | None
    p: float
    df: float | None
    verdict: ControlVerdict = "in line with the control"  # set with its family
    p_adjusted: float | None = None


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
    """Where the data put the break: after the point `last`, its interval `low` to `high`."""

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


class Shrunk(Contract, kw_only=True):
    """A player's change drawn in towards the mean of the `of` players of the group."""

    change: float
    low: float
    high: float
    apart: bool
    mean: float
    group: str
    of: int


class Answer(Contract, tag_field="about", kw_only=True):
    """What every finding has. `effect` is none where it is `refused`.

    `cell` is the row's id inside its beat ('all' for the whole), `values` what it is of. The
    verdict is set by the family that the finding is judged in.
    """

    id: str
    beat: str
    measure: str
    asks: Comparison
    sides: tuple[str, str]
    cell: str
    values: dict[str, str]
    refused: Refusal | None
    effect: Effect | None
    margin: Margin
    kind: MeasureKind
    notes: list[AnyNote]
    verdict: Verdict = "can't tell"
    because: Because = "refused"
    p_adjusted: float | None = None
    adjusted_by: Adjustment | None = None
    family_size: int = 0

    @property
    def told(self) -> Effect:
        """The effect of a finding that was not refused."""
        if self.effect is None:
            raise ValueError(f"{self.id} is refused: it has no effect to tell")
        return self.effect


class Change(Answer, tag="change", kw_only=True):
    """A change between two windows; `shares` are a mix's group's shares of the balls."""

    a: Side
    b: Side
    felt: Felt | None = None
    drift: Drift | None = None
    control: ControlCheck | None = None
    shares: tuple[float, float] | None = None


class Groups(Answer, tag="groups", kw_only=True):
    """Two groups compared, with no event."""

    a: Side
    b: Side
    felt: Felt | None = None


class Gap(Answer, tag="gap", kw_only=True):
    """How much more the second group changed than the first."""

    a: GroupChange
    b: GroupChange
    drift: Drift | None = None


class Mix(Answer, tag="mix", kw_only=True):
    """What the change of who did what was worth by itself."""

    a: Side
    b: Side


class Rates(Answer, tag="rates", kw_only=True):
    """What the rates themselves did, the mix held still."""

    a: Side
    b: Side


class Turn(Answer, tag="turn", kw_only=True):
    """When it changed, asked without being told; none when there are too few points."""

    a: Side
    b: Side
    turn: TurningDate | None


class Player(Answer, tag="player", kw_only=True):
    """One player's change, raw and drawn in."""

    a: Side
    b: Side
    shrunk: Shrunk | None


Finding = Change | Groups | Gap | Mix | Rates | Turn | Player


def drift_of(finding: Finding) -> Drift | None:
    """The second verdict of the answers that have one."""
    return finding.drift if isinstance(finding, Change | Gap) else None


def control_of(finding: Finding) -> ControlCheck | None:
    return finding.control if isinstance(finding, Change) else None


def felt_of(finding: Finding) -> Felt | None:
    return finding.felt if isinstance(finding, Change | Groups) else None

"""A change on two scales with everything that is said of it; results come out as plain values."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Generic, TypeVar

import numpy as np

from pipeline.contracts.codes import IntervalMethod, Refusal
from pipeline.contracts.notes import AnyNote
from pipeline.contracts.parts import CONFIDENCE, Clusters, Effect, GroupChange, Side, Span
from pipeline.significance.methods import inference
from pipeline.significance.methods.ratio import Estimate, Floats, Sums, log_ratio, ratio
from pipeline.significance.methods.refusal import refusals

if TYPE_CHECKING:
    from pipeline.config.views import Scale
    from pipeline.significance.level import Leveled

Numbers = dict[str, Floats]
# What a proportion of matches may lack: none of six and six of six have no log.
OF_LOGS = ("change", "change_low", "change_high", "se_log", "df", "detectable_change")
AnySide = TypeVar("AnySide", Side, GroupChange)


@dataclass(frozen=True)
class Compared(Generic[AnySide]):
    """Two sides, and their difference where it was not refused."""

    a: AnySide
    b: AnySide
    refused: Refusal | None
    effect: Effect | None
    notes: list[AnyNote] = field(default_factory=list)


def describe(sums: Sums, balls: Floats, scale: Scale, least: int) -> list[Side]:
    """Each cell's value with interval and counts; a reason in place of the interval if refused.

    `balls` are those of each match and cell. How many matches the uneven ones are worth is asked
    of the denominator, and of the balls where that is wickets: few and by chance, they would refuse
    half of all windows of ten matches, and the rest would cover less than they say. Of a proportion
    of matches (`by_match`) the interval is Wilson's.
    """
    sizes = balls if scale.per_wicket else sums.x
    reasons = refusals(sums, least, sizes, scale.by_match)
    with np.errstate(all="ignore"):
        value = ratio(sums) * scale.per
        if scale.by_match:
            low, high = inference.wilson(sums.y.sum(0), sums.x.sum(0))
        else:
            low, high = (np.exp(end) for end in log_ratio(sums).interval(CONFIDENCE))
    return [
        Side(
            value=number(value[cell]),
            low=None if reason else number(low[cell] * scale.per),
            high=None if reason else number(high[cell] * scale.per),
            matches=int(sums.here[:, cell].sum()),
            balls=int(balls[:, cell].sum()),
            numerator=int(sums.y[:, cell].sum()),
            denominator=int(sums.x[:, cell].sum()),
            largest=_largest(sums.y[:, cell]),
            refused=reason,
        )
        for cell, reason in enumerate(reasons)
    ]


def _largest(numerators: Floats) -> float:
    """The share of the numerator that its largest match holds; nought of nothing."""
    total = float(np.abs(numerators).sum())
    return float(np.abs(numerators).max()) / total if total else 0.0


def number(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


def numbers_of(logs: Estimate, units: Estimate, scale: Scale, checked: Floats | None) -> Numbers:
    """What is told of a change: in units, as a fraction, p, whether inside the margin, what could
    have been seen. `checked` is the p of the shuffled matches, or None where there is none.

    p is of the scale whose interval is told, so that the two can't part.
    """
    per = scale.per
    unit_ends, log_ends = units.interval(CONFIDENCE), logs.interval(CONFIDENCE)
    p = (units if scale.kind == "share" else logs).p_value()
    return {
        "difference": units.value * per,
        "difference_low": unit_ends[0] * per,
        "difference_high": unit_ends[1] * per,
        "change": np.expm1(logs.value),
        "change_low": np.expm1(log_ends[0]),
        "change_high": np.expm1(log_ends[1]),
        "se": units.se * per,
        "df_units": units.df,
        "se_log": logs.se,
        "df": logs.df,
        "p": p,
        "p_equal": equivalence(logs, units, scale),
        "p_permutation": p if checked is None else checked,
        "detectable_change": np.expm1(inference.detectable(logs.se, logs.df, 1 - CONFIDENCE)),
        "detectable_difference": inference.detectable(units.se, units.df, 1 - CONFIDENCE) * per,
    }


def equivalence(logs: Estimate, units: Estimate, scale: Scale) -> Floats:
    """p that the change lies inside the margin: points of a share, per cent of a rate."""
    size = scale.margin.size
    if scale.margin.unit == "points":
        edge = size / scale.per
        return inference.tost(units, np.float64(-edge), np.float64(edge))
    share = size / 100
    return inference.tost(logs, np.log1p(-share), np.log1p(share))


def compared(
    cell: int,
    a: AnySide,
    b: AnySide,
    numbers: Numbers,
    scale: Scale,
    interval: IntervalMethod = "t",
    level: Leveled | None = None,
) -> Compared[AnySide]:
    """One cell's comparison; every number or none, and never half of them.

    `interval` is how the numbers' ends were found, `level` whose errors they have.
    """
    refused = a.refused or b.refused or (level.refused[cell] if level else None)
    if refused:
        return Compared(a, b, refused, None)
    told = {name: number(value[cell]) for name, value in numbers.items()}
    effect = _effect(told, scale.by_match, interval, level.clusters[cell] if level else None)
    return Compared(a, b, None if effect else "no_spread", effect)


def _effect(
    told: dict[str, float | None],
    by_match: bool,
    interval: IntervalMethod,
    clusters: Clusters | None,
) -> Effect | None:
    """The numbers of one cell; none when one that is needed is missing."""
    known = {name: value for name, value in told.items() if value is not None}
    lacking = told.keys() - known.keys()
    if lacking and not (by_match and lacking <= set(OF_LOGS)):
        return None
    return Effect(
        difference=span(known, "difference"),
        relative=None
        if {"change", "change_low", "change_high"} & lacking
        else span(known, "change"),
        se=known["se"],
        df_units=known["df_units"],
        se_log=told["se_log"],
        df=told["df"],
        p=known["p"],
        p_equal=known["p_equal"],
        p_permutation=known["p_permutation"],
        detectable_change=told["detectable_change"],
        detectable_difference=known["detectable_difference"],
        interval=interval,
        cluster=clusters,
    )


def span(numbers: dict[str, float], name: str) -> Span:
    """A value with its ends, of numbers by name."""
    return Span(value=numbers[name], low=numbers[f"{name}_low"], high=numbers[f"{name}_high"])

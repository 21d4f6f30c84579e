"""A change with sides, grounds and innings held still: a regression of the sums of innings.

Quasi-Poisson with the denominator as exposure (`methods/quasi_poisson.py`): the log rate of an
innings is that of its batting side, bowling side, innings of the match and ground, and of its
window. Of a measure per wicket it is wickets that are counted, against what is above them, and the
change turned round. What can't be told from the rest is left out and named. Errors by matches, or
by batting sides where there are four and that is wider.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np
import pandas as pd

from pipeline.contracts.codes import OfBalls
from pipeline.contracts.composition import LeftOut
from pipeline.contracts.finding import Change
from pipeline.contracts.parts import Span
from pipeline.significance.methods.clusters import wider
from pipeline.significance.methods.few_clusters import LEAST
from pipeline.significance.methods.log_linear import NoFit
from pipeline.significance.methods.quasi_poisson import (
    Regression,
    by_cluster,
    independent,
    quasi_poisson,
    sandwich,
)
from pipeline.significance.methods.ratio import Estimate, Floats
from pipeline.significance.methods.weighted import Indistinct
from pipeline.significance.told_scale import as_told

if TYPE_CHECKING:
    from pipeline.config.views import Scale

FACTORS: tuple[OfBalls, ...] = ("batting_team", "bowling_team", "innings", "ground")
ROWS_A_TERM = 3  # innings for each value that is held still; of fewer a factor is left out


def held_still(
    whole: pd.DataFrame, finding: Change, scale: Scale
) -> tuple[dict[str, Any], Estimate | None]:
    """(fields of a Composition: the change, what was held, what was left out, or why there is none;
    how far it is from the plain change, on the scale that it was made on).

    `whole` has a row a match and innings.
    """
    rows = _counted(whole, scale)
    if rows is None:
        return {"unheld": "below_nought"}, None
    rows, left_out = _that_count(rows[rows["exposure"] > 0])
    if rows["window"].nunique() < 2:
        return {"unheld": "no_fit", "left_out": left_out}, None
    design, held, dropped = _design(rows)
    left_out += dropped
    if design is None:
        return {"unheld": "windows_apart", "left_out": left_out}, None
    if not {"batting_team", "bowling_team"} & set(held):
        return {"unheld": "few_innings", "left_out": left_out}, None
    try:
        fit = quasi_poisson(rows["count"].to_numpy(), rows["exposure"].to_numpy(), design)
    except (NoFit, Indistinct):
        return {"unheld": "no_fit", "left_out": left_out}, None
    turned = -1.0 if scale.per_wicket else 1.0
    told = _as_told(_steady(_turned(_wider(fit, rows), turned)), finding, scale)
    if told is None:
        return {"unheld": "no_error", "left_out": left_out}, None
    beyond = _steady(_turned(_beyond(fit, rows), turned))
    if scale.kind == "share":
        beyond = _in_units(beyond, finding.a.value or 0.0, scale)
    return {"held_still": told, "held": held, "left_out": left_out}, beyond


def _counted(whole: pd.DataFrame, scale: Scale) -> pd.DataFrame | None:
    """The rows with what is counted and its exposure; None where there can be less than none."""
    above, below = ("x", "y") if scale.per_wicket else ("y", "x")
    rows = whole.assign(count=whole[above].astype(float), exposure=whole[below].astype(float))
    return None if (rows[["count", "exposure"]] < 0).any(axis=None) else rows


def _that_count(rows: pd.DataFrame) -> tuple[pd.DataFrame, list[LeftOut]]:
    """Without the rows of values that never counted one, which say nothing of the window.

    Their rate would go to nought; the others' rates are the same without them.
    """
    left_out: list[LeftOut] = []
    while True:
        for by in FACTORS:
            total = rows.groupby(by, sort=True)["count"].sum()
            none = total.index[total <= 0]
            if len(none):
                left_out += [LeftOut(by=by, value=str(value)) for value in none]
                rows = rows[~rows[by].isin(none)]
                break
        else:
            return rows, left_out


def _design(rows: pd.DataFrame) -> tuple[Floats | None, list[OfBalls], list[LeftOut]]:
    """(columns, the last of them the window; what is held; what can't be told from the rest).

    No columns where the windows have nothing in common: what is held still tells them apart.
    """
    columns, names = [np.ones(len(rows))], []
    left_out: list[LeftOut] = []
    for by in FACTORS:
        values = sorted(rows[by].unique(), key=str)
        if len(values) < 2:
            continue  # the same for all, so held as it is
        if (len(columns) + len(values)) * ROWS_A_TERM > len(rows):
            left_out.append(LeftOut(by=by))
            continue
        of_rows = rows[by].to_numpy()
        columns += [(of_rows == value).astype(float) for value in values[1:]]
        names += [LeftOut(by=by, value=str(value)) for value in values[1:]]
    columns.append((rows["window"] == "after").to_numpy().astype(float))
    design = np.column_stack(columns)
    kept = independent(design)
    left_out += [name for name, keep in zip(names, kept[1:-1], strict=True) if not keep]
    stayed = {name.by for name, keep in zip(names, kept[1:-1], strict=True) if keep}
    held = [by for by in FACTORS if by in stayed]
    return (design[:, kept] if kept[-1] else None), held, left_out


def _wider(fit: Regression, rows: pd.DataFrame) -> Estimate:
    """The window's coefficient, with the wider of its two errors.

    Both with the factor (N - 1) / (N - K) for N innings and K terms, as is usual beside errors by
    few clusters (Cameron & Miller 2015): without it they are too narrow (9 % false of 5).
    """
    count, terms = len(rows), len(fit.coefficients)
    worth = math.sqrt((count - 1) / (count - terms))
    found = _spread(_last(by_cluster(fit, rows["match_id"].to_numpy(str))), worth)
    sides = rows["batting_team"].to_numpy(str)
    if len(np.unique(sides)) < LEAST:
        return found
    return wider(found, _spread(_last(by_cluster(fit, sides)), worth)).estimate


def _spread(found: Estimate, times: float) -> Estimate:
    return Estimate(found.value, times * found.se, found.df)


def _beyond(fit: Regression, rows: pd.DataFrame) -> Estimate:
    """The window's coefficient less the plain log change of the same rows.

    What a match does to the one and to the other is taken together, so that what it does to both
    cancels: linear influences, summed by match.
    """
    count, exposure = rows["count"].to_numpy(), rows["exposure"].to_numpy()
    after = (rows["window"] == "after").to_numpy()
    moves, plain = fit.scores @ fit.bread[:, -1], 0.0
    for window, sign in ((after, 1), (~after, -1)):
        total, rate = count[window].sum(), count[window].sum() / exposure[window].sum()
        plain += sign * float(np.log(rate))
        moves = moves - np.where(window, sign * (count - rate * exposure) / total, 0.0)
    variance, matches = sandwich(np.ones((1, 1)), moves[:, None], rows["match_id"].to_numpy(str))
    value = fit.coefficients[-1:] - plain
    return Estimate(value, np.sqrt(variance[0]), np.array([matches - 1.0]))


def _last(found: Estimate) -> Estimate:
    return Estimate(found.value[-1:], found.se[-1:], found.df[-1:])


def _steady(found: Estimate) -> Estimate:
    """To ten digits: those after hang on the order in which a processor adds the products up."""
    value, se = (
        np.array([float(f"{one:.10g}") for one in part]) for part in (found.value, found.se)
    )
    return Estimate(value, se, found.df)


def _turned(found: Estimate, sign: float) -> Estimate:
    return Estimate(sign * found.value, found.se, found.df)


def _in_units(found: Estimate, before: float, scale: Scale) -> Estimate:
    """A small log as part of the value before, unscaled."""
    level = before / scale.per
    return Estimate(found.value * level, found.se * level, found.df)


def _as_told(found: Estimate, finding: Change, scale: Scale) -> Span | None:
    """A share's as points: what the value before would have moved by."""
    if scale.kind != "share":
        return as_told(found, scale)
    before = finding.a.value
    if before is None:
        return None
    low, high = found.interval(0.95)
    value, low_, high_ = (before * np.expm1(float(end[0])) for end in (found.value, low, high))
    if not np.isfinite([value, low_, high_]).all() or not low_ < high_:
        return None
    return Span(value=float(value), low=float(low_), high=float(high_))

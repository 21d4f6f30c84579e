"""A turning_point beat: when did it really change, and does the event fall inside the interval?"""

from __future__ import annotations

import math
from datetime import date
from typing import Any

import numpy as np
import pandas as pd

from pipeline.significance.arrays import pair
from pipeline.significance.effects import describe, finding_of, numbers_of
from pipeline.significance.methods.ratio import Estimate
from pipeline.significance.methods.structural_break import LEAST_POINTS, Break, turning_point

View = dict[str, Any]
SIDES = ("earlier", "later")
DRAWS = 1999  # of the simulated p


def turning_finding(
    rows: pd.DataFrame, every: str, event: View | None, measure: View, statistics: View
) -> View:
    """The finding of the whole series; `turn` holds the date, its interval and the event's place.

    Its change is the step at the date found, on top of the trend, as if the date had been known;
    its p allows for the search over dates.
    """
    points = _points(rows, every)
    try:
        found = turning_point(points["log"], points["weight"], draws=DRAWS)
    except ValueError:
        return _refused(rows, points, measure, statistics)
    labels = points["label"]
    side = {label: SIDES[at > found.last] for at, label in enumerate(labels)}
    sides = _sides(rows.assign(window=period(rows, every).map(side)), measure, statistics)
    finding = finding_of(0, *sides, _numbers(found, points, measure), measure)
    finding["turn"] = {
        "last": labels[found.last],
        "next": labels[found.last + 1],
        "low": labels[found.low],
        "high": labels[found.high],
        "points": len(labels),
        "dates": len(found.dates),
        "sup_f": found.sup_f,
        "event": _event_place(found, points, event),
        "second": _second(found, points),
        "every": every,
        "fit": _fit(found, points, measure),
    }
    return finding


def period(rows: pd.DataFrame, every: str) -> pd.Series:
    if every == "season":
        return rows["season"]
    days = pd.to_datetime(rows["date"])
    return days.dt.year.astype(str) + " Q" + days.dt.quarter.astype(str)


def _fit(found: Break, points: View, measure: View) -> list[tuple[str, float]]:
    """The model's value at every point, in the measure's units."""
    values = np.exp(found.fitted) * measure["per"]
    return [(label, float(value)) for label, value in zip(points["label"], values, strict=True)]


def _points(rows: pd.DataFrame, every: str) -> View:
    """The series: labels in order of time, log rates, weights, each point's first day."""
    grouped = rows.groupby(period(rows, every))
    totals = grouped[["y", "x"]].sum()
    first = grouped["date"].min()
    order = first.sort_values(kind="stable").index
    y, x = (totals.loc[order, name].to_numpy(float) for name in ("y", "x"))
    with np.errstate(divide="ignore", invalid="ignore"):
        log = np.log(y / x)
    usable = np.isfinite(log)
    return {
        "label": [label for label, use in zip(order, usable, strict=True) if use],
        "log": log[usable],
        "weight": x[usable],
        "first": [day for day, use in zip(first.loc[order], usable, strict=True) if use],
        "empty": int((~usable).sum()),
    }


def _numbers(found: Break, points: View, measure: View) -> dict[str, np.ndarray]:
    df = np.array([len(points["log"]) - 3.0])
    logs = Estimate(np.array([found.step]), np.array([found.step_se]), df)
    base = math.exp(float(np.average(points["log"][: found.last + 1])))
    scale = base * math.exp(found.step)
    units = Estimate(np.array([base * math.expm1(found.step)]), logs.se * scale, df)
    numbers = numbers_of(logs, units, measure, np.array([found.p]))
    return {**numbers, "p": np.array([found.p]), "p_equal": np.array([1.0])}


def _sides(rows: pd.DataFrame, measure: View, statistics: View) -> list[View]:
    whole = pair(rows, ["all"], SIDES)
    least = statistics["least_matches"]
    return [
        describe(sums, balls, measure, least)[0]
        for sums, balls in ((whole.a, whole.ball_a), (whole.b, whole.ball_b))
    ]


def _refused(rows: pd.DataFrame, points: View, measure: View, statistics: View) -> View:
    """Too few points to look for a date among them."""
    assert len(points["label"]) < LEAST_POINTS
    half = points["label"][: len(points["label"]) // 2 or 1]
    side = rows["season"].isin(half).map({True: SIDES[0], False: SIDES[1]})
    sides = _sides(rows.assign(window=side), measure, statistics)
    sides[0]["refused"] = "few_points"
    nothing = Estimate(*(np.full(1, np.nan) for _ in range(3)))
    return {
        **finding_of(0, *sides, numbers_of(nothing, nothing, measure, None), measure),
        "turn": None,
    }


def _event_place(found: Break, points: View, event: View | None) -> View | None:
    """Whether the event falls inside the interval of the date, and its rank among the dates."""
    if event is None:
        return None
    day = date.fromisoformat(event["date"])
    before = sum(first < day for first in points["first"])  # points begun before the event
    if not 0 < before < len(points["first"]):
        return None
    places = {before - 1, before - 2}  # the point it fell inside may be on either side
    inside = any(found.low <= place <= found.high for place in places)
    at = np.flatnonzero(found.dates == before)
    rank = int((found.f > found.f[at[0]] * (1 + 1e-12)).sum()) + 1 if len(at) else None
    return {"inside": inside, "rank": rank}


def _second(found: Break, points: View) -> View | None:
    """Another break, where its own test and the information criterion both ask for one."""
    try:
        other = turning_point(points["log"], points["weight"], known=(found.last + 1,), draws=DRAWS)
    except ValueError:
        return None
    if other.p >= 0.05 or other.bic >= found.bic:
        return None
    return {
        "last": points["label"][other.last],
        "next": points["label"][other.last + 1],
        "p": other.p,
    }

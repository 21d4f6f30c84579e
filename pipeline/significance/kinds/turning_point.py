"""turning_point: when did it really change, and does the event fall inside the interval?"""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pandas as pd

from pipeline.contracts.codes import Refusal
from pipeline.contracts.finding import Finding, Turn
from pipeline.contracts.parts import EventPlace, SecondBreak, Side, TurningDate
from pipeline.significance.arrays import pair
from pipeline.significance.effects import Compared, Numbers, compared, describe, numbers_of
from pipeline.significance.methods.ratio import Estimate, Floats
from pipeline.significance.methods.structural_break import Break, NoScatter, turning_point
from pipeline.significance.question import Question

if TYPE_CHECKING:
    from pipeline.config.project import Statistics
    from pipeline.config.views import EventDates, Scale

SIDES = ("earlier", "later")
DRAWS = 1999  # of the simulated p


class Points(NamedTuple):
    """A series in order of time: labels, log rates, weights, each point's first day."""

    labels: list[str]
    log: Floats
    weight: Floats
    first: list[date]


def findings(question: Question) -> list[Finding]:
    """The finding of the whole series; `turn` holds the date, its interval and the event's place.

    Its change is the step at the date found, on top of the trend, as if the date had been known;
    its p allows for the search over dates.
    """
    rows, every = question.every, question.beat.point
    points = points_of(rows, every)
    try:
        found = turning_point(points.log, points.weight, draws=DRAWS)
    except ValueError as error:
        reason: Refusal = "no_scatter" if isinstance(error, NoScatter) else "few_points"
        halves = _halves(rows, every, points, question.scale, question.statistics)
        result, turn = Compared(*halves, reason, None), None
    else:
        sides = _sides(rows, every, points, found, question.scale, question.statistics)
        numbers = _numbers(found, points, question.scale)
        result = compared(0, *sides, numbers, question.scale)
        turn = _turn(found, points, every, question.view.event, question.scale)
    common = question.answer("turn", "all", {}, SIDES)
    return [Turn(**common, **question.numbers(result), turn=turn)]


def _turn(
    found: Break, points: Points, every: str, event: EventDates | None, scale: Scale
) -> TurningDate:
    labels = points.labels
    return TurningDate(
        last=labels[found.last],
        next=labels[found.last + 1],
        low=labels[found.low],
        high=labels[found.high],
        points=len(labels),
        dates=len(found.dates),
        sup_f=found.sup_f,
        event=_event_place(found, points, event.date if event else None),
        second=_second(found, points),
        every=every,
        fit=_fit(found, points, scale),
    )


def period(rows: pd.DataFrame, every: str) -> pd.Series[str]:
    """The point of the series that each row belongs to."""
    if every == "season":
        return rows["season"]
    days = pd.to_datetime(rows["date"])
    return days.dt.year.astype(str) + " Q" + days.dt.quarter.astype(str)


def _fit(found: Break, points: Points, scale: Scale) -> list[tuple[str, float]]:
    """The model's value at every point, in the measure's units."""
    values = np.exp(found.fitted) * scale.per
    return [(label, float(value)) for label, value in zip(points.labels, values, strict=True)]


def points_of(rows: pd.DataFrame, every: str) -> Points:
    """The points that have a rate whose log can be taken."""
    grouped = rows.groupby(period(rows, every))
    totals = grouped[["y", "x"]].sum()
    first = grouped["date"].min()
    order = first.sort_values(kind="stable").index
    y, x = (totals.loc[order, name].to_numpy(float) for name in ("y", "x"))
    with np.errstate(divide="ignore", invalid="ignore"):
        log = np.log(y / x)
    usable = np.isfinite(log)
    return Points(
        [str(label) for label, use in zip(order, usable, strict=True) if use],
        log[usable],
        x[usable],
        [_day(day) for day, use in zip(first.loc[order], usable, strict=True) if use],
    )


def _day(value: date | str) -> date:
    """Dates of the tallies, whether they are kept as dates or as text."""
    return date.fromisoformat(value) if isinstance(value, str) else value


def _numbers(found: Break, points: Points, scale: Scale) -> Numbers:
    df = np.array([len(points.log) - 3.0])
    logs = Estimate(np.array([found.step]), np.array([found.step_se]), df)
    base = math.exp(float(np.average(points.log[: found.last + 1])))
    size = base * math.exp(found.step)
    units = Estimate(np.array([base * math.expm1(found.step)]), logs.se * size, df)
    numbers = numbers_of(logs, units, scale, np.array([found.p]))
    return {**numbers, "p": np.array([found.p]), "p_equal": np.array([1.0])}


def _sides(
    rows: pd.DataFrame,
    every: str,
    points: Points,
    found: Break,
    scale: Scale,
    statistics: Statistics,
) -> tuple[Side, Side]:
    """The levels before and after the break."""
    side = {label: SIDES[at > found.last] for at, label in enumerate(points.labels)}
    return _levels(rows.assign(window=period(rows, every).map(side)), scale, statistics)


def _levels(rows: pd.DataFrame, scale: Scale, statistics: Statistics) -> tuple[Side, Side]:
    whole = pair(rows, ["all"], SIDES)
    least = statistics.least_matches
    (a,) = describe(whole.a, whole.ball_a, scale, least)
    (b,) = describe(whole.b, whole.ball_b, scale, least)
    return a, b


def _halves(
    rows: pd.DataFrame, every: str, points: Points, scale: Scale, statistics: Statistics
) -> tuple[Side, Side]:
    """The levels of the earlier and the later half of the points, where no date is found."""
    half = points.labels[: len(points.labels) // 2 or 1]
    side = period(rows, every).isin(half).map({True: SIDES[0], False: SIDES[1]})
    return _levels(rows.assign(window=side), scale, statistics)


def _event_place(found: Break, points: Points, day: date | None) -> EventPlace | None:
    """Whether the event falls inside the interval of the date, and its rank among the dates."""
    if day is None:
        return None
    before = sum(first < day for first in points.first)  # points begun before the event
    if not 0 < before < len(points.first):
        return None
    places = {before - 1, before - 2}  # the point it fell inside may be on either side
    inside = any(found.low <= place <= found.high for place in places)
    at = np.flatnonzero(found.dates == before)
    rank = int((found.f > found.f[at[0]] * (1 + 1e-12)).sum()) + 1 if len(at) else None
    return EventPlace(inside=inside, rank=rank)


def _second(found: Break, points: Points) -> SecondBreak | None:
    """Another break, where its own test and the information criterion both ask for one."""
    try:
        other = turning_point(points.log, points.weight, known=(found.last + 1,), draws=DRAWS)
    except ValueError:
        return None
    if other.p >= 0.05 or other.bic >= found.bic:
        return None
    return SecondBreak(
        last=points.labels[other.last], next=points.labels[other.last + 1], p=other.p
    )

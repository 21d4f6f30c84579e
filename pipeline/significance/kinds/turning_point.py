"""turning_point: when did it really change, and does the event fall inside the interval?"""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING

import msgspec
import numpy as np
import pandas as pd

from pipeline.contracts.codes import Refusal
from pipeline.contracts.finding import Finding, Turn
from pipeline.contracts.over_time import EventPlace, SecondBreak, TurningDate
from pipeline.contracts.parts import CONFIDENCE, Effect, Side
from pipeline.event_of import event_of
from pipeline.significance.arrays import pair
from pipeline.significance.effects import Compared, compared, describe, numbers_of
from pipeline.significance.methods.log_linear import NoFit
from pipeline.significance.methods.ratio import Estimate
from pipeline.significance.methods.structural_break import (
    Break,
    FewPoints,
    NoScatter,
    Series,
    turning_point,
)
from pipeline.significance.points import Points, points_of
from pipeline.significance.question import Question
from pipeline.significance.searched import step_at

if TYPE_CHECKING:
    from pipeline.config.project import Statistics
    from pipeline.config.views import Scale

HALVES = ("earlier", "later")  # of a series that has no date
LEVELS = ("level before", "level after")
REFUSED: dict[type[ValueError], Refusal] = {
    FewPoints: "few_points",
    NoScatter: "no_scatter",
    NoFit: "none_at_an_end",
}


def findings(question: Question) -> list[Finding]:
    """The finding of the whole series; `turn` holds the date, its interval and the event's place.

    Its sides are the levels to which the model comes midway between the two points on either side
    of the date, so that they differ by its change: the step beside the trend. The step's interval
    and its p allow for the search over dates.
    """
    points = points_of(
        question.by_period(question.unit), question.periods, question.grid(question.unit)
    )
    if points.undefined:
        return [_refused(question, points, "nothing_to_divide_by")]
    try:
        series = points.series()
        found = turning_point(series)
    except (FewPoints, NoScatter, NoFit) as error:
        return [_refused(question, points, REFUSED[type(error)])]
    return [_found(question, points, series, found)]


def _found(question: Question, points: Points, series: Series, found: Break) -> Turn:
    scale, used = question.scale, points.kept()
    turn = _turn(found, series, points, question)
    a, b = _sides(question, used.labels[: found.last + 1], set(used.labels))
    before = math.exp(found.before) * scale.per
    a, b = _at_level(a, before), _at_level(b, before * math.exp(found.step))
    result = compared(0, a, b, _numbers(found, series, scale), scale)
    if result.effect:
        _allow_for_the_search(result.effect, turn, before)
    common = question.answer("turn", "all", {}, LEVELS)
    return Turn(**common, **question.numbers(result), turn=turn)


def _refused(question: Question, points: Points, reason: Refusal) -> Turn:
    """The two halves of the series, where no date is found."""
    half = points.labels[: len(points.labels) // 2 or 1]
    result = Compared(*_sides(question, half, set(points.labels)), reason, None)
    common = question.answer("turn", "all", {}, HALVES)
    return Turn(**common, **question.numbers(result), turn=None)


def _sides(question: Question, first: list[str], used: set[str]) -> tuple[Side, Side]:
    """What was counted in the first points, and in those that follow."""
    rows, statistics = question.by_period(question.unit), question.statistics
    at = rows["period"]
    side = at.isin(first).map({True: HALVES[0], False: HALVES[1]})
    return _described(rows.assign(window=side)[at.isin(used)], question.scale, statistics)


def _described(rows: pd.DataFrame, scale: Scale, statistics: Statistics) -> tuple[Side, Side]:
    whole = pair(rows, ["all"], HALVES)
    least = statistics.least_matches
    (a,) = describe(whole.a, whole.ball_a, scale, least)
    (b,) = describe(whole.b, whole.ball_b, scale, least)
    return a, b


def _at_level(side: Side, value: float) -> Side:
    """The model's level in place of the side's own rate, which is of all its points."""
    if side.refused:
        return side
    return msgspec.structs.replace(side, value=value, low=None, high=None)


def _numbers(found: Break, series: Series, scale: Scale) -> dict[str, np.ndarray]:
    """What is told of the step as of any change; its error is that of a date known beforehand."""
    df, before = np.array([float(series.df)]), math.exp(found.before)
    logs = Estimate(np.array([found.step]), np.array([found.error]), df)
    size = before * math.exp(found.step)
    units = Estimate(np.array([before * math.expm1(found.step)]), logs.se * size, df)
    p = np.array([found.p])
    numbers = numbers_of(logs, units, scale, p)
    return {**numbers, "p": p, "p_equal": np.array([1.0])}


def _allow_for_the_search(effect: Effect, turn: TurningDate, before: float) -> None:
    """Ends that hold the step though its date was searched for."""
    difference, relative = step_at(turn, before, CONFIDENCE)
    effect.difference, effect.relative, effect.interval = difference, relative, "searched"


def _turn(found: Break, series: Series, points: Points, question: Question) -> TurningDate:
    event, scale = event_of(question.view, question.beat), question.scale
    used = points.kept()
    labels = used.labels
    counts = zip(points.labels, points.y.tolist(), points.x.tolist(), strict=True)
    fit = zip(labels, (found.fitted * scale.per).tolist(), strict=True)
    return TurningDate(
        last=labels[found.last],
        next=labels[found.last + 1],
        low=labels[found.low],
        high=labels[found.high],
        points=len(labels),
        dates=len(series.dates),
        sup_f=found.sup_f,
        event=_event_place(found, series, used, event.date if event else None),
        second=_second(found, points),
        every=question.unit,
        fit=list(fit),
        parts=[one.label for one in question.periods if one.part],
        counts=list(counts),
        times=points.time.tolist(),
        trend=math.expm1(found.trend),
        rho=found.rho,
    )


def _event_place(
    found: Break, series: Series, points: Points, day: date | None
) -> EventPlace | None:
    """Whether the event falls inside the interval of the date, and its rank among the dates."""
    if day is None:
        return None
    before = sum(first < day for first in points.first)  # points begun before the event
    if not 0 < before < len(points.first):
        return None
    places = {before - 1}
    if day <= points.last[before - 1]:  # the point it fell inside may be on either side
        places.add(before - 2)
    inside = any(found.low <= place <= found.high for place in places)
    at = np.flatnonzero(series.dates == before)
    rank = int((found.f > found.f[at[0]] * (1 + 1e-12)).sum()) + 1 if len(at) else None
    return EventPlace(inside=inside, rank=rank)


def _second(found: Break, points: Points) -> SecondBreak | None:
    """Another break, where its own test and the information criterion both ask for one."""
    try:
        other = turning_point(points.series(known=(found.last + 1,)))
    except (FewPoints, NoScatter, NoFit):
        return None
    if other.p >= 0.05 or other.bic >= found.bic:
        return None
    labels = points.kept().labels
    return SecondBreak(last=labels[other.last], next=labels[other.last + 1], p=other.p)

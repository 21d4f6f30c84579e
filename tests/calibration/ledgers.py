"""A question asked until it gives something: false calls without a ledger, and counted with one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from pipeline.contracts.finding import Change
from pipeline.contracts.ledger import EarlierLook
from pipeline.contracts.parts import Effect
from pipeline.significance.earlier import counted
from pipeline.significance.methods.ratio import Sums, change
from pipeline.significance.verdicts import judge
from tests.calibration import worlds
from tests.calibration.base import STATISTICS, Row, row
from tests.finding_makers import answer
from tests.ledger_makers import look
from tests.look_makers import Asked, found, question

SEASON = 20  # matches
Windows = tuple[slice, slice]  # seasons before and after


def ledgers(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """One headline that has not changed: six windows are tried, or three dates by four windows."""
    topics = max(100, sims // 8)
    six = [windows(8, length) for length in (2, 3, 4, 5, 6, 7)]
    twelve = [windows(date, length) for date in (7, 8, 9) for length in (2, 3, 4, 5)]
    for name, tried in (("six windows", six), ("three dates by four windows", twelve)):
        told = _effects(rng, tried, topics)
        scenario = f"one headline without a change, {name}"
        for method, ledger in (("without a ledger", False), ("with a ledger", True)):
            alarms = [_best(effects, ledger) for effects in told]
            yield row(scenario, f"the best, {method}", "false_alarm", alarms)
        ends = [_first(effects) for effects in told]
        yield row(scenario, "the first that is called, with a ledger", "false_alarm", ends)


def windows(event: int, length: int) -> Windows:
    """As many seasons on either side of a date that falls before season `event`."""
    return slice(event - length, event), slice(event, event + length)


def _effects(rng: np.random.Generator, tried: Sequence[Windows], topics: int) -> list[list[Effect]]:
    """Of each topic the effect in each pair of windows, of the same sixteen seasons."""
    data = worlds.window(rng, "rate", (16 * SEASON, topics)).sums
    logs = [change(*(_part(data, side) for side in pair)) for pair in tried]
    return [
        [
            found(Asked("rates", float(one.value[at]), float(one.se[at]), int(one.df[at])))[2]
            for one in logs
        ]
        for at in range(topics)
    ]


def _part(data: Sums, seasons: slice) -> Sums:
    rows = slice(seasons.start * SEASON, seasons.stop * SEASON)
    return Sums(*(part[rows] for part in data))


def _best(effects: list[Effect], ledger: bool) -> bool:
    """All are tried; the one with the smallest p is built last, and kept."""
    first, *others = sorted(effects, key=lambda effect: effect.p)
    return called(first, others if ledger else [])


def _first(effects: list[Effect]) -> bool:
    """They are tried in turn until one is called: the first has a family of one still."""
    return any(called(effect, effects[:at]) for at, effect in enumerate(effects))


def called(effect: Effect, before: Sequence[Effect]) -> bool:
    """Whether a headline is called changed, these having been looked at before it."""
    mine = answer(Change, "b.m.0", effect=effect, asks=question("m", 0))
    earlier = [_line(at, each) for at, each in enumerate(before, 1)]
    judge([mine], [mine.id], STATISTICS, "simulation", counted(earlier, [mine], [mine.id]))
    return mine.verdict == "changed"


def _line(at: int, effect: Effect) -> EarlierLook:
    return look(asks=question("m", at), p=effect.p, p_held=effect.p_inside)

"""A step beside trends that are no straight line, and beside years that are alike; with matches."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np
from scipy.special import stdtr

from pipeline.contracts.finding import Change
from pipeline.contracts.over_time import StepTest
from pipeline.significance.methods.clusters import gathered
from pipeline.significance.methods.drift import of_rates
from pipeline.significance.methods.ratio import Sums
from pipeline.significance.second_family import judge_drift
from pipeline.significance.second_verdict import Asked
from pipeline.significance.step_tests import step_tests
from pipeline.significance.verdicts import judge
from tests.calibration import worlds
from tests.calibration.base import STATISTICS, Row, row
from tests.calibration.levels import MATCHES, compared, effects_of
from tests.finding_makers import answer, drift
from tests.look_makers import question

COUNT, EVENT, WINDOW = 14, 8, 5  # seasons in all, before the event, in each window
TIME = np.arange(float(COUNT))
ASKED = Asked(
    labels=[f"{at:02}" for at in range(COUNT)],
    middle=TIME,
    after=TIME >= EVENT,
    places=np.arange(COUNT),
    event=EVENT - 0.5,
    apart=float(WINDOW),
    unit="season",
    left_out=[],
)
DRIFT = 0.012 * TIME[:, None]  # of every trend, so that the first question has its change
Trend = Callable[[np.random.Generator, int], np.ndarray]  # log levels (seasons, sims)


def _alike(rho: float) -> Trend:
    return lambda rng, sims: worlds.shocks(rng, COUNT, sims, 0.02, rho)


def _walk(rng: np.random.Generator, sims: int) -> np.ndarray:
    walked: np.ndarray = rng.normal(0, 0.02, (COUNT, sims)).cumsum(0)
    return walked


def _bent(slope: np.ndarray) -> Trend:
    """A trend of its own beside shocks of 2 %."""
    return lambda rng, sims: slope[:, None] + worlds.shocks(rng, COUNT, sims, 0.02)


def _cycle(rng: np.random.Generator, sims: int) -> np.ndarray:
    begun = rng.uniform(0, 2 * np.pi, sims)
    shocks = worlds.shocks(rng, COUNT, sims, 0.02)
    return 0.03 * np.sin(2 * np.pi * TIME[:, None] / 10 + begun) + shocks


TRENDS: dict[str, Trend] = {
    "shocks 2%": _alike(0.0),
    **{f"shocks 2%, neighbours alike by {rho}": _alike(rho) for rho in (0.3, 0.5, 0.7)},
    "a random walk by 2%": _walk,
    "shocks 2%, a rise by 2% that ends after season 5": _bent(0.02 * np.minimum(TIME, 4)),
    "shocks 2%, a rise by 2% that begins after season 6": _bent(0.02 * np.maximum(TIME - 5, 0)),
    "shocks 2%, a cycle of ten seasons, 3% up and down": _cycle,
}


class Told(NamedTuple):
    """What is told of a change, one of each simulation, with its step."""

    finding: Change
    test: StepTest

    @property
    def beyond(self) -> bool:
        drifted = self.finding.drift
        return drifted is not None and drifted.verdict == "beyond the drift"

    @property
    def changed(self) -> bool:
        return self.finding.verdict == "changed"

    @property
    def survives(self) -> bool:
        return self.beyond and all(bend.survives for bend in self.test.bends)


def trends(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """No step: how often one is told; and steps of 5 and 8 % beside shocks: how often they are."""
    sims = min(sims, 5000)
    for name in TRENDS:
        yield from bent(rng, sims, name)
    for size in (0.05, 0.08):
        stepped = np.log1p(size) * ASKED.after[:, None]
        told = _told(rng, _alike(0.0)(rng, sims) + DRIFT + stepped)
        scenario = f"a step of {size:.0%}, 14 seasons, a drift, shocks 2%"
        yield from _rows(scenario, told, "power")
        inside = [each.test.step.low <= size <= each.test.step.high for each in told]
        yield row(scenario, "step, neighbours allowed for", "coverage", inside)


def bent(rng: np.random.Generator, sims: int, name: str) -> Iterator[Row]:
    """One trend, by its name, without a step."""
    told = _told(rng, TRENDS[name](rng, sims) + DRIFT)
    yield from _rows(f"no step, 14 seasons, a drift, {name}", told, "false_alarm")


def _rows(scenario: str, told: list[Told], quantity: str) -> Iterator[Row]:
    step, joint = "step, neighbours allowed for", "changed and beyond the drift"
    yield row(scenario, step, quantity, [each.beyond for each in told])
    yield row(scenario, joint, quantity, [each.changed and each.beyond for each in told])
    bent = [each.survives for each in told]
    yield row(scenario, "step, beside a bend and a curve too", quantity, bent)
    if quantity == "false_alarm":
        alone = [_alone(each.test) for each in told]
        yield row(scenario, "step as if neighbours were not alike", quantity, alone)


def _alone(test: StepTest) -> bool:
    """Whether its p would be under 5 % with the error of independent neighbours."""
    wide = abs(np.log1p(test.step.value)) / (test.se / np.sqrt(test.factor))
    return bool(2 * stdtr(test.df, -wide) < 0.05)


def _told(rng: np.random.Generator, logs: np.ndarray) -> list[Told]:
    """Both verdicts of a headline that is the only one, five seasons on either side."""
    played = worlds.played(rng, [MATCHES] * COUNT, logs)
    sides = [
        worlds.Clustered(Sums(*(part[mine] for part in played.sums)), played.labels[mine])
        for mine in (
            (played.labels >= EVENT - WINDOW) & (played.labels < EVENT),
            (played.labels >= EVENT) & (played.labels < EVENT + WINDOW),
        )
    ]
    effects = effects_of(compared(worlds.between(*sides)))
    totals = gathered(played.sums, played.labels)
    tests = step_tests(of_rates(totals.y, totals.x, TIME), ASKED)
    told = []
    for effect, test in zip(effects, tests, strict=True):
        finding = answer(
            Change, "b.m.0", effect=effect, asks=question("m", 0), drift=drift(test=test)
        )
        judge([finding], [finding.id], STATISTICS, "simulation")
        judge_drift([finding], [finding.id], STATISTICS.alpha)
        told.append(Told(finding, test))
    return told

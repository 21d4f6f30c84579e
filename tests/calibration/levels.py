"""Above the match: seasons, grounds, players and sides that differ among themselves anyway."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

import numpy as np

from pipeline.contracts.parts import Effect, Side
from pipeline.significance.arrays import Pair
from pipeline.significance.change import compare
from pipeline.significance.effects import Compared
from pipeline.significance.kinds.gap import gap_changes
from pipeline.significance.level import ByCluster, by_period
from tests.calibration import worlds
from tests.calibration.base import STATISTICS, Row, holds, measure, row
from tests.calibration.families import HEADS, HELD, any_told, topic

MATCHES = 40  # a season
WINDOWS = ((5, 5), (3, 3), (8, 3))
BY_SEASON = partial(by_period, unit="season")
AT_THE_MARGIN = float(np.log(1.05))


def seasons(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """A change between windows of seasons that differ by shocks, one season like the next or not.

    On the log scale, of p and of per cent, coverage is what false alarms leave of a hundred; the
    interval in units is another one.
    """
    sims = min(sims, 5000)
    for before, after in WINDOWS:
        for shock in (0.0, 0.01, 0.02, 0.03):
            for rho in (0.0, 0.3, 0.5) if shock else (0.0,):
                found = compared(windows(rng, (before, after), sims, shock, rho))
                yield from told(f"no change, {world(before, after, shock, rho)}", found, shock)
        found = compared(windows(rng, (before, after), sims, 0.02, step=AT_THE_MARGIN))
        scenario = f"a change of 5%, {world(before, after, 0.02, 0.0)}"
        effects = effects_of(found)
        yield row(scenario, "the wider error", "power", [one.p < 0.05 for one in effects])
        inside = [holds(one.change, 0.05) for one in effects]
        yield row(scenario, "the wider error, per cent", "coverage", inside)
        yield row(scenario, "matches alone", "power", [one.p_match < 0.05 for one in effects])


def world(before: int, after: int, shock: float, rho: float) -> str:
    """What a scenario of seasons is called."""
    alike = f", neighbours alike by {rho}" if rho else ""
    return f"{before} against {after} seasons, shocks {shock:.0%}{alike}"


def windows(
    rng: np.random.Generator,
    counts: tuple[int, int],
    sims: int,
    shock: float,
    rho: float = 0.0,
    step: float = 0.0,
) -> Pair:
    """Two windows of seasons that follow each other, on the log scale a step between them."""
    before, after = counts
    logs = worlds.shocks(rng, before + after, sims, shock, rho)
    logs[before:] += step
    sides = [worlds.played(rng, [MATCHES] * len(part), part) for part in np.split(logs, [before])]
    return worlds.between(*sides)


def compared(pair: Pair, by: Callable[[Pair], ByCluster] = BY_SEASON) -> list[Compared[Side]]:
    """As the significance stage compares, but for the check by shuffled matches."""
    return compare(pair, measure("rate"), STATISTICS, by, shuffled=False)


def effects_of(found: Sequence[Compared[Any]]) -> list[Effect]:
    """None of them is refused in these worlds: a refusal would be a number less, and unseen."""
    effects = [one.effect for one in found if one.effect and one.effect.cluster]
    if len(effects) < len(found):
        raise AssertionError(f"{len(found) - len(effects)} of {len(found)} were refused")
    return effects


def told(scenario: str, found: Sequence[Compared[Any]], spread: float) -> Iterator[Row]:
    """No difference: as it is told, and by matches alone where there is more than they show."""
    effects = effects_of(found)
    yield row(scenario, "the wider error", "false_alarm", [one.p < 0.05 for one in effects])
    inside = [holds(one.difference) for one in effects]
    yield row(scenario, "the wider error, units", "coverage", inside)
    if spread:
        alone = [one.p_match < 0.05 for one in effects]
        yield row(scenario, "matches alone", "false_alarm", alone)


def gaps(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Two groups that change alike: what a season does to both, and what it does to each."""
    sims = min(sims, 4000)
    for both, own in ((0.03, 0.0), (0.03, 0.02)):
        sides = []
        for count in (5, 5):
            common = worlds.shocks(rng, count, sims, both)
            logs = [common + worlds.shocks(rng, count, sims, own) for _ in "ab"]
            sides.append([worlds.played(rng, [MATCHES] * count, each) for each in logs])
        pairs = [worlds.between(*each) for each in zip(*sides, strict=True)]
        found = gap_changes(*pairs, measure("rate"), STATISTICS, "season", shuffled=False)
        scenario = f"two groups that change alike, 5 against 5 seasons, shocks {both:.0%}"
        yield from told(f"{scenario} to both and {own:.0%} to each", found, own)


def margins(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Five headlines that are all truly at the margin, in seasons that differ."""
    topics = min(sims, 1200)
    for before, after in ((5, 5), (3, 3)):
        for shock in (0.0, 0.01, 0.02):
            pair = windows(rng, (before, after), topics * 5, shock, step=AT_THE_MARGIN)
            effects = effects_of(compared(pair))
            each = [topic(effects[at : at + 5], 5) for at in range(0, len(effects), 5)]
            held = [any_told(one[HEADS], HELD) for one in each]
            scenario = f"five changes at the margin, {world(before, after, shock, 0.0)}"
            yield row(scenario, "any headline held", "false_alarm", held)

"""The first verdict over whole topics: false calls, false 'held', intervals that miss the truth."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from pipeline.contracts.finding import Change
from pipeline.contracts.parts import Effect
from pipeline.significance.change import compare
from pipeline.significance.printed import print_at_levels
from pipeline.significance.verdicts import judge
from tests.calibration import worlds
from tests.calibration.base import STATISTICS, Row, measure, row
from tests.finding_makers import answer
from tests.look_makers import Asked, found, question

RATE = f"{STATISTICS.table_rate:.0%}"
HEADS, ROWS = slice(0, 5), slice(5, None)
CHANGED, HELD = "changed", "held"


def families(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """The first verdict over a topic of 5 headlines and 20 rows: false calls, false 'held'."""
    topics = max(40, sims // 8)
    shape = (40, topics * 25)
    a, b = (worlds.window(rng, "rate", shape) for _ in "ab")
    effects = [one.effect for one in compare(worlds.pair(a, b), measure("rate"), STATISTICS)]
    told = [topic(effects[at : at + 25], 5) for at in range(0, len(effects), 25)]
    scenario = "a topic without any change"
    for name, part in (("headline changed (Holm)", HEADS), (f"row changed (BH, at {RATE})", ROWS)):
        yield row(
            scenario, f"any {name}", "false_alarm", [any_told(one[part], CHANGED) for one in told]
        )
    yield from _at_the_margin(rng, topics)
    yield from _picked(rng, topics)
    for level, name in ((1.05, "at the margin"), (1.0, "no change")):
        a, b = (worlds.window(rng, "rate", (200, sims), each) for each in (1.0, level))
        compared = compare(worlds.pair(a, b), measure("rate"), STATISTICS)
        quantity = "false_alarm" if level != 1.0 else "power"
        held = [any_told(topic([one.effect], 1), HELD) for one in compared]
        yield row(f"a change {name}, 200 matches a window", "held", quantity, held)


def _at_the_margin(rng: np.random.Generator, topics: int) -> Iterator[Row]:
    """Five headlines and ten rows, all truly at the margin, known to a fifth of it and better."""
    for error in (0.01, 0.006, 0.003):
        told = [topic(_known_to(rng, np.full(15, 0.05), error), 5) for _ in range(topics)]
        scenario = f"fifteen changes at the margin, each to {error:.1%}"
        for name, part in (("headline", HEADS), ("of ten rows", ROWS)):
            held = [any_told(one[part], HELD) for one in told]
            yield row(scenario, f"any {name} held", "false_alarm", held)


def _picked(rng: np.random.Generator, topics: int) -> Iterator[Row]:
    """Twenty rows, of which so many truly change: how many picked intervals miss the truth."""
    for changing in (0, 4, 12):
        missed = []
        true = np.where(np.arange(20) < changing, 0.06, 0.0)
        for _ in range(topics):
            told = topic(_known_to(rng, true, 0.02), 0)
            picked = [
                not one.told.change.low <= change <= one.told.change.high
                for one, change in zip(told, true, strict=True)
                if one.verdict == "changed"
            ]
            missed.append(np.mean(picked) if picked else 0.0)
        error = float(np.std(missed)) / math.sqrt(topics)
        name = f"intervals of the rows picked (at {RATE})"
        scenario = f"twenty rows, {changing} of them changed by 6%"
        yield Row(scenario, name, "false_coverage", float(np.mean(missed)), error)


def _known_to(rng: np.random.Generator, changes: np.ndarray, error: float) -> list[Effect]:
    """An effect of each true change, as a fraction, whose log is known to this error."""
    logs = rng.normal(np.log1p(changes), error)
    return [found(Asked("rates", float(log), error, 400))[2] for log in logs]


def topic(effects: Sequence[Effect | None], headlines: int) -> list[Change]:
    """The findings of one topic, judged and printed; the first of them are its headlines."""
    mine = [
        answer(
            Change,
            f"b.m.{at}",
            refused=None if effect else "few_matches",
            effect=effect,
            asks=question("m", at),
        )
        for at, effect in enumerate(effects)
    ]
    judge(mine, [each.id for each in mine[:headlines]], STATISTICS, "simulation")
    print_at_levels(mine, {"m": measure("rate")})
    return mine


def any_told(findings: list[Change], verdict: str) -> bool:
    return any(each.verdict == verdict for each in findings)

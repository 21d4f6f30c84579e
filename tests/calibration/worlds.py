"""Invented matches with a known truth: balls with outcomes, match effects, drift, season shocks.

Every simulation of a scenario is a column: the project's functions take all of them at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from pipeline.significance.arrays import Pair
from pipeline.significance.methods.ratio import Sums

# Runs off a ball and how often, about as the demo league plays: 0.8 runs a ball.
RUNS = np.array([0, 1, 2, 4, 6])
CHANCES = np.array([0.52, 0.31, 0.05, 0.10, 0.02])
MEAN = float(RUNS @ CHANCES)
WICKET = 0.028  # a ball
DOT = 0.48
MATCH_SD = 0.10  # of the log of a match's own effect
MATCH = 0.35  # of the log of a match's effect on wickets, which are fewer and go in clumps


class Window(NamedTuple):
    """Match totals (matches, simulations), the balls they come from, and per-ball squares."""

    sums: Sums
    balls: np.ndarray
    squares: np.ndarray


class Clustered(NamedTuple):
    """Match totals (matches, simulations) and each match's cluster: its season, or its ground."""

    sums: Sums
    labels: np.ndarray


def effects(rng: np.random.Generator, shape: tuple[int, int], sd: float = MATCH_SD) -> np.ndarray:
    """Multipliers of mean one."""
    return np.exp(rng.normal(-sd * sd / 2, sd, shape))


def balls(rng: np.random.Generator, shape: tuple[int, int]) -> np.ndarray:
    """Valid balls a match: a few overs to an innings, as a kind of bowler in a phase bowls."""
    return rng.integers(30, 181, shape)


def window(
    rng: np.random.Generator,
    kind: str,
    shape: tuple[int, int],
    level: float | np.ndarray = 1.0,
    effect: np.ndarray | None = None,
) -> Window:
    """One window of a rate (runs a ball), an average (runs a wicket) or a share (dots)."""
    x = balls(rng, shape)
    effect = effects(rng, shape) if effect is None else effect
    here = np.ones(shape, bool)
    if kind == "share":
        y = rng.binomial(x, np.clip(DOT * level * effect, 0, 1)).astype(float)
        return Window(Sums(y, x.astype(float), here), x, y)
    counts = _counts(rng, x, np.broadcast_to(level * effect, shape))
    runs, squares = counts @ RUNS, counts @ RUNS**2
    if kind == "rate":
        return Window(Sums(runs.astype(float), x.astype(float), here), x, squares)
    wickets = rng.binomial(x, np.clip(WICKET * effects(rng, shape, MATCH), 0, 1))
    return Window(Sums(runs.astype(float), wickets.astype(float), here), x, squares)


def _counts(rng: np.random.Generator, x: np.ndarray, level: np.ndarray) -> np.ndarray:
    """How many balls of each outcome: scoring shots as often as the level says, dots the rest."""
    left, chance_left = x.copy(), np.ones(x.shape)
    counts = [np.zeros(x.shape, np.int64)]
    for chance in CHANCES[1:]:
        wanted = np.minimum(chance * level, chance_left)
        drawn = rng.binomial(left, np.clip(wanted / chance_left, 0, 1))
        counts.append(drawn)
        left, chance_left = left - drawn, np.maximum(chance_left - wanted, 1e-9)
    counts[0] = left
    return np.stack(counts, axis=-1)


def truth(kind: str, level: float = 1.0) -> float:
    """The ratio that the window's expectation has: match effects have mean one."""
    return {"rate": MEAN, "share": DOT, "average": MEAN / WICKET}[kind] * level


def pair(a: Window, b: Window, shared: bool = False) -> Pair:
    """Two windows as the significance stage sees them, all matches in one block."""
    rows = len(a.balls) + len(b.balls)
    return Pair(a.sums, b.sums, a.balls, b.balls, np.zeros(rows, int), shared)


def seasons(
    rng: np.random.Generator, count: int, sims: int, drift: float, step: np.ndarray, shock: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """(numerators, denominators, times) of `count` seasons of 30 to 50 matches."""
    time = np.arange(count, dtype=float)
    matches = rng.integers(30, 51, (count, sims))
    x = matches * 105.0
    level = np.exp(drift * time[:, None] + step[:, None] + rng.normal(0, shock, (count, sims)))
    error = np.sqrt(MATCH_SD**2 + 2.4 / (MEAN * 105)) / np.sqrt(matches)
    return x * MEAN * level * np.exp(rng.normal(0, 1, (count, sims)) * error), x, time


def shocks(
    rng: np.random.Generator, count: int, sims: int, sd: float, rho: float = 0.0
) -> np.ndarray:
    """(count, sims) shocks of periods that follow each other, neighbours correlated by rho."""
    drawn = rng.normal(0, sd, (count, sims))
    for at in range(1, count):
        drawn[at] = rho * drawn[at - 1] + np.sqrt(1 - rho**2) * drawn[at]
    return drawn


def played(rng: np.random.Generator, sizes: Sequence[int], logs: np.ndarray) -> Clustered:
    """Whole innings in clusters of so many matches, each at its own log level (clusters, sims)."""
    labels = np.repeat(np.arange(len(sizes)), sizes)
    x = rng.integers(200, 320, (len(labels), logs.shape[1])).astype(float)
    y = x * MEAN * np.exp(logs[labels] + rng.normal(0, MATCH_SD, x.shape))
    return Clustered(Sums(y, x, np.ones(x.shape, bool)), labels)


def between(a: Clustered, b: Clustered, shared: bool = False) -> Pair:
    """Two sides of clustered matches, as the significance stage sees them."""
    blocks = np.zeros(len(a.labels) + len(b.labels), int)
    return Pair(a.sums, b.sums, a.sums.x, b.sums.x, blocks, shared, (a.labels, b.labels))

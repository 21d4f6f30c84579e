"""All findings of a topic in one pass against resampling each of them, as people do by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd
from scipy.stats import bootstrap

from pipeline.significance.findings import find
from tests.bench.clock import seconds

CELLS, MATCHES, SEASONS, RESAMPLES = 500, 2_500, 20, 9_999
RESAMPLED = 6  # cells that are resampled; the rest would take as long each


def figures() -> dict[str, Any]:
    """findings_vs_resampling: time of 9,999 cluster resamples of every cell over that of findings.

    The findings are those of `significance` for one before/after beat: both intervals, the test,
    999 shuffles of matches, equivalence, the drift over 20 seasons and the family, for 500 cells.
    A resample draws whole matches, each window on its own, and takes the change of the ratio
    (scipy.stats.bootstrap, paired match totals, percentile ends: the fastest of its methods).
    """
    tallies, selection, view = _topic(np.random.default_rng(5))
    taken = min(seconds(lambda: find(view, selection, tallies)) for _ in range(2))
    each = seconds(lambda: _resample(tallies)) / RESAMPLED
    return {
        "findings_seconds": round(taken, 2),
        "findings_vs_resampling": round(each * CELLS / taken, 1),
    }


def _topic(rng: np.random.Generator) -> tuple[pd.DataFrame, dict, dict]:
    shape = (MATCHES, CELLS)
    x = rng.integers(30, 120, shape)
    y = rng.poisson(x * 0.8 * np.exp(rng.normal(0, 0.1, (MATCHES, 1))))
    match, cell = (index.ravel() for index in np.indices(shape))
    season = match * SEASONS // MATCHES
    windows = np.select([season < 10, season < 15], ["outside", "before"], "after")
    labels = np.array([str(2000 + n) for n in range(SEASONS)])
    cells = np.array(["all", *(f"c{n}" for n in range(1, CELLS))])
    tallies = pd.DataFrame(
        {
            "beat": "b",
            "measure": "rate",
            "cell": cells[cell],
            "window": windows,
            "match_id": np.char.add("m", match.astype(str)),
            "season": labels[season],
            "ground": np.char.add("g", (match % 20).astype(str)),
            "reduced": False,
            "y": y.ravel(),
            "x": x.ravel(),
            "balls": x.ravel(),
        }
    )
    ends = [[label, f"{label}-04-01", f"{label}-09-30", MATCHES // SEASONS] for label in labels]
    kept = {"before": list(labels[10:15]), "after": list(labels[15:]), "transition": None}
    known = [
        {"id": name, "values": {"x": name} if name != "all" else {}, "known": True}
        for name in cells
    ]
    selection = {
        **{"data": {}, "corrections": [], "seasons": list(labels), "season_ends": ends},
        **{"windows": kept, "newcomers": {"matches": 625, "of_new_sides": 0}},
        "beats": {"b": {"query": "", "cells": known}},
    }
    measure = {"per": 6, "kind": "rate", "margin": {"size": 5.0, "unit": "percent"}}
    measure |= {"by_match": False, "per_wicket": False, "an_innings": False}
    statistics = {"alpha": 0.05, "table_rate": 0.1, "least_matches": 6, "few_matches": 20}
    view = {
        "file": "bench",
        "statistics": {**statistics, "permutations": 999},
        **{"headlines": ["b.rate"], "also": [], "measures": {"rate": measure}},
        "event": {"date": "2015-01-01", "trend_from": None},
        "format": {"phases": {}, "overs": 50, "balls_per_over": 6},
        "beats": [{"id": "b", "kind": "before_after", "measures": ["rate"], "by": [], "where": {}}],
    }
    return tallies, selection, view


def _resample(tallies: pd.DataFrame) -> None:
    rng = np.random.default_rng(1)
    for name in [f"c{n}" for n in range(1, RESAMPLED + 1)]:
        rows = tallies[tallies["cell"] == name]
        for window in ("before", "after"):
            side = rows[rows["window"] == window]
            totals = (side["y"].to_numpy(float), side["x"].to_numpy(float))
            bootstrap(
                totals,
                _log_ratio,
                paired=True,
                vectorized=True,
                n_resamples=RESAMPLES,
                method="percentile",
                batch=500,
                rng=rng,
            )


def _log_ratio(y: np.ndarray, x: np.ndarray, axis: int) -> np.ndarray:
    return np.log(y.sum(axis) / x.sum(axis))

"""All findings of a topic in one pass against resampling each of them, as people do by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd
from scipy.stats import bootstrap

from pipeline.config.kinds.before_after import BeforeAfter
from pipeline.config.project import Statistics
from pipeline.config.views import SignificanceView
from pipeline.contracts.selection import BeatSelection, Cell, Selection
from pipeline.significance.findings import find
from pipeline.tables import CLUSTERS
from tests.bench.clock import seconds
from tests.seasons import event, season, selection, windows
from tests.view_makers import significance_view

CELLS, MATCHES, SEASONS, RESAMPLES = 500, 2_500, 20, 9_999
NO_CLUSTERS = CLUSTERS.empty_table().to_pandas()
RESAMPLED = 6  # cells that are resampled; the rest would take as long each


def figures() -> dict[str, Any]:
    """findings_vs_resampling: time of 9,999 cluster resamples of every cell over that of findings.

    The findings are those of `significance` for one before/after beat: both intervals, the test,
    999 shuffles of matches, equivalence, the drift over 20 seasons and the family, for 500 cells.
    A resample draws whole matches, each window on its own, and takes the change of the ratio
    (scipy.stats.bootstrap, paired match totals, percentile ends: the fastest of its methods).
    """
    tallies, chosen, view = _topic(np.random.default_rng(5))
    taken = min(
        seconds(lambda: find(view, chosen, tallies, NO_CLUSTERS, "bench")) for _ in range(2)
    )
    each = seconds(lambda: _resample(tallies)) / RESAMPLED
    return {
        "findings_seconds": round(taken, 2),
        "findings_vs_resampling": round(each * CELLS / taken, 1),
    }


def _topic(rng: np.random.Generator) -> tuple[pd.DataFrame, Selection, SignificanceView]:
    shape = (MATCHES, CELLS)
    x = rng.integers(30, 120, shape)
    y = rng.poisson(x * 0.8 * np.exp(rng.normal(0, 0.1, (MATCHES, 1))))
    match, cell = (index.ravel() for index in np.indices(shape))
    year = match * SEASONS // MATCHES
    side = np.select([year < 10, year < 15], ["outside", "before"], "after")
    labels = np.array([str(2000 + n) for n in range(SEASONS)])
    cells = np.array(["all", *(f"c{n}" for n in range(1, CELLS))])
    tallies = pd.DataFrame(
        {
            "beat": "b",
            "measure": "rate",
            "cell": cells[cell],
            "window": side,
            "match_id": np.char.add("m", match.astype(str)),
            "season": labels[year],
            "date": (labels[year].astype(object) + "-06-01"),
            "ground": np.char.add("g", (match % 20).astype(str)),
            "team_1": np.char.add("s", (match % 12).astype(str)),
            "team_2": np.char.add("s", ((match + 5) % 12).astype(str)),
            "reduced": False,
            "y": y.ravel(),
            "x": x.ravel(),
            "balls": x.ravel(),
        }
    )
    known = [
        Cell(id=name, values={"ground": name} if name != "all" else {}, known=True)
        for name in cells.tolist()
    ]
    chosen = selection(
        [season(int(label)) for label in labels],
        windows(labels[10:15].tolist(), labels[15:].tolist()),
        {"b": BeatSelection(query="", cells=known)},
    )
    beat = BeforeAfter(id="b", kind="before_after", measure=["rate"], by=["ground"])
    view = significance_view(
        [beat],
        headlines=["b.rate"],
        event=event("2015-01-01"),
        statistics=Statistics(permutations=999),
    )
    return tallies, chosen, view


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

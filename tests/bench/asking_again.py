"""A headline's panel in one pass against its findings made anew for every other way to ask it."""

from __future__ import annotations

from functools import partial
from typing import Any

import numpy as np
import pandas as pd

from pipeline.config.kinds.before_after import BeforeAfter
from pipeline.config.project import Statistics
from pipeline.contracts.finding import Change
from pipeline.contracts.selection import BeatSelection, Cell
from pipeline.significance.asked_again import panel_of
from pipeline.significance.asking import asking_of
from pipeline.significance.findings import find
from pipeline.significance.question import question_of
from tests.bench.clock import seconds
from tests.bench.resampling import NO_CLUSTERS
from tests.seasons import event, season, selection, windows
from tests.view_makers import significance_view

MATCHES, SEASONS, GROUNDS, SIDES = 2_500, 20, 20, 12
REBUILT = 3  # ways that are made anew; the rest would take as long each


def figures() -> dict[str, Any]:
    """panel_vs_rebuilding: time of a panel over that of `find` on the tallies of each way.

    The rebuild is not even a whole one: its tallies are those that are there, cut down to the
    matches of the way, so that no query is run again.
    """
    tallies, chosen, view = _topic(np.random.default_rng(7))
    (headline,) = find(view, chosen, tallies, NO_CLUSTERS, "bench").findings
    question = question_of(view.beats[0], "rate", tallies, view, chosen)
    assert isinstance(headline, Change)
    taken = min(
        seconds(lambda: panel_of(headline, asking_of(question, [headline]))) for _ in range(5)
    )
    ways = len(panel_of(headline, asking_of(question, [headline])).choices)
    alone = view.model_copy(update={"headlines": []})
    rests = [_without(tallies, f"s{at}") for at in range(REBUILT)]
    each = np.mean(
        [seconds(partial(find, alone, chosen, rest, NO_CLUSTERS, "bench")) for rest in rests]
    )
    return {
        "panel_milliseconds": round(taken * 1000, 1),
        "panel_ways": ways,
        "panel_vs_rebuilding": round(float(each) * ways / taken, 1),
    }


def _without(tallies: pd.DataFrame, side: str) -> pd.DataFrame:
    return tallies[(tallies["team_1"] != side) & (tallies["team_2"] != side)]


def _topic(rng: np.random.Generator) -> tuple[pd.DataFrame, Any, Any]:
    match = np.arange(MATCHES)
    x = rng.integers(250, 320, MATCHES)
    y = rng.poisson(x * 0.8 * np.exp(rng.normal(0, 0.1, MATCHES)))
    year = match * SEASONS // MATCHES
    labels = np.array([str(2000 + n) for n in range(SEASONS)])
    one = rng.integers(0, SIDES, MATCHES)
    other = (one + rng.integers(1, SIDES, MATCHES)) % SIDES
    tallies = pd.DataFrame(
        {
            "beat": "b",
            "measure": "rate",
            "cell": "all",
            "window": np.select([year < 10, year < 15], ["outside", "before"], "after"),
            "match_id": np.char.add("m", match.astype(str)),
            "season": labels[year],
            "date": labels[year].astype(object) + "-06-01",
            "ground": np.char.add("g", (match % GROUNDS).astype(str)),
            "team_1": np.char.add("s", one.astype(str)),
            "team_2": np.char.add("s", other.astype(str)),
            "reduced": match % 40 == 0,
            "y": y,
            "x": x,
            "balls": x,
        }
    )
    chosen = selection(
        [season(int(label)) for label in labels],
        windows(labels[10:15].tolist(), labels[15:].tolist()),
        {"b": BeatSelection(query="", cells=[Cell(id="all", values={}, known=True)])},
    )
    beat = BeforeAfter(id="b", kind="before_after", measure=["rate"])
    view = significance_view(
        [beat],
        headlines=["b.rate"],
        event=event("2015-01-01"),
        statistics=Statistics(permutations=999),
    )
    return tallies, chosen, view

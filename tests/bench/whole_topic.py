"""All findings and panels of a topic of nine beats, over four times the demo's matches."""

from __future__ import annotations

import time
from functools import partial
from pathlib import Path
from typing import Any

import pandas as pd
import pyarrow as pa

from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.files import read_json
from pipeline.contracts.selection import Selection
from pipeline.significance.findings import find
from pipeline.tables import CLUSTERS, MIX, TALLIES, read_table
from tests.bench.clock import median, python

TOPIC, MATCHES, TIMES, RUNS = "who-paid", 2_400, 5, 5


def figures(project: Path) -> dict[str, Any]:
    """significance_topic_seconds: processor time of `find` on the built demo's longest topic.

    Its matches are taken several times over, up to 2,400; the tables are read before. The ratio is
    to the wall time of a bare `import numpy` of the same run.
    """
    out = project / "output" / TOPIC
    view = views.significance(load(project / "config", only=TOPIC), TOPIC)
    selection = read_json(out / "selection.json", Selection)
    read = partial(_read, out)
    tallies, mix, clusters = read("tallies", TALLIES), read("mix", MIX), read("clusters", CLUSTERS)
    more = [f"-{at}" for at in range(TIMES)]
    chosen = sorted(f"{match}{end}" for match in set(tallies["match_id"]) for end in more)[:MATCHES]
    tallies, mix = (_again(table, more, chosen) for table in (tallies, mix))
    taken = min(
        _processor(partial(find, view, selection, tallies, clusters, "bench", mix))
        for _ in range(RUNS)
    )
    base = median(lambda: python("-c", "import numpy").wait(), lambda: None, RUNS)
    return {
        "significance_topic_seconds": round(taken, 2),
        "significance_topic_vs_numpy": round(taken / base, 1),
    }


def _read(out: Any, name: str, schema: pa.Schema) -> pd.DataFrame:
    return read_table(out / f"{name}.parquet", schema).to_pandas()


def _again(table: pd.DataFrame, more: list[str], chosen: list[str]) -> pd.DataFrame:
    """Every match as several, each under a name of its own; of those the chosen."""
    parts = [table.assign(match_id=table["match_id"] + end) for end in more]
    whole = pd.concat(parts, ignore_index=True)
    return whole[whole["match_id"].isin(chosen)]


def _processor(work: Any) -> float:
    begun = time.process_time()
    work()
    return time.process_time() - begun

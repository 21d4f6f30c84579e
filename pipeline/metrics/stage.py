"""A topic's tallies, from the clean tables."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pyarrow as pa

from pipeline.contracts.files import as_json, read_json
from pipeline.contracts.selection import Fix, Fixes, Selection
from pipeline.errors import write_atomically
from pipeline.metrics.cluster_sums import cluster_sums
from pipeline.metrics.composition import mix_of
from pipeline.metrics.tally import tally
from pipeline.tables import CLUSTERS, MIX, TALLIES, played, write_table

if TYPE_CHECKING:
    from pipeline.config.views import MetricsView


def tallies_of(view: MetricsView, data: Path) -> tuple[pa.Table, Selection]:
    """The topic's tallies and what was selected, from the clean tables in `data`."""
    return tally(view, played(data), fixes(data))


def composed_of(view: MetricsView, data: Path, selection: Selection) -> pa.Table:
    """What else the balls of the headlines were of (`tables.MIX`)."""
    return mix_of(view, played(data), selection)


def clusters_of(view: MetricsView, data: Path) -> pa.Table:
    """The sums of batters, bowlers and sides that groups are made of."""
    return cluster_sums(view, played(data))


def write_tallies(view: MetricsView, out: Path, data: Path) -> None:
    """All four as files of the topic's folder `out`."""
    tallies, selection = tallies_of(view, data)
    mix = composed_of(view, data, selection)
    write_table(out / "tallies.parquet", tallies, TALLIES)
    write_table(out / "mix.parquet", mix, MIX)
    write_table(out / "clusters.parquet", clusters_of(view, data), CLUSTERS)
    write_atomically(out / "selection.json", as_json(selection))


def fixes(data: Path) -> list[Fix]:
    """The corrections that the clean tables were made with."""
    return read_json(data / "corrections.json", Fixes).corrections

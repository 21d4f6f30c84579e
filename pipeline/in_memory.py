"""A topic's numbers made again in this process, without a file: to check them, or to ask anew."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from pipeline.ledger.book import read_ledger
from pipeline.metrics.stage import clusters_of, composed_of, tallies_of
from pipeline.significance.findings import find

if TYPE_CHECKING:
    from pathlib import Path

    import pandas as pd

    from pipeline.config.views import MetricsView, SignificanceView
    from pipeline.contracts.findings import Findings
    from pipeline.contracts.selection import Selection


class Numbers(NamedTuple):
    """What a topic's first two stages make, without files."""

    tallies: pd.DataFrame
    selection: Selection
    findings: Findings
    mix: pd.DataFrame


def numbers_of(
    metrics: MetricsView, significance: SignificanceView, data: Path, fingerprint: str = ""
) -> Numbers:
    """Tallies and findings of these views of a topic, from the clean tables in `data`."""
    table, selection = tallies_of(metrics, data)
    tallies, clusters = table.to_pandas(), clusters_of(metrics, data).to_pandas()
    mix = composed_of(metrics, data, selection).to_pandas()
    ledger = read_ledger(significance.ledger)
    found = find(significance, selection, tallies, clusters, fingerprint, mix, ledger)
    return Numbers(tallies, selection, found, mix)

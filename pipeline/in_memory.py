"""A topic's numbers made again in this process, without a file: to check them, or to ask anew."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from pipeline.metrics.stage import tallies_of
from pipeline.significance.findings import find

if TYPE_CHECKING:
    from pathlib import Path

    import pandas as pd

View = dict[str, Any]


class Numbers(NamedTuple):
    """What a topic's first two stages make, without files."""

    tallies: pd.DataFrame
    selection: View
    findings: View


def numbers_of(metrics: View, significance: View, data: Path) -> Numbers:
    """Tallies and findings of these views of a topic, from the clean tables in `data`."""
    table, selection = tallies_of(metrics, data)
    tallies = table.to_pandas()
    return Numbers(tallies, selection, find(significance, selection, tallies))

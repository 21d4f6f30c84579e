"""Deliveries as they were bowled: matches one after the other, the balls of each in order."""

from __future__ import annotations

import numpy as np
import pyarrow as pa


def in_order(deliveries: pa.Table) -> pa.Table:
    """The rows by match, innings, over and delivery; matches in the order of their first row."""
    match = _first_seen(deliveries["match_id"])
    keys = [deliveries[name].to_numpy() for name in ("delivery", "over", "innings")]
    rows = np.lexsort([*keys, match])
    if np.array_equal(rows, np.arange(len(rows))):
        return deliveries
    return deliveries.take(pa.array(rows))


def _first_seen(column: pa.ChunkedArray) -> np.ndarray:
    """A number for each text, in the order in which they come first."""
    coded = column.unify_dictionaries().combine_chunks()
    codes = coded.indices.to_numpy(zero_copy_only=False)
    _, first, of_code = np.unique(codes, return_index=True, return_inverse=True)
    return np.argsort(np.argsort(first))[of_code]

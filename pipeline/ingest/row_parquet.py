"""A Parquet table as the text that a CSV of it would hold: a null is a blank cell."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pandas as pd
import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.parquet as pq
from pyarrow import types

from pipeline.errors import Problem, UserError, words_of

Picked = Callable[[list[str]], dict[str, int]]
MOST_ROWS = 20_000_000  # kilobytes can say that they hold more than any memory has room for
DAMAGED = (pa.ArrowException, OSError, ValueError, KeyError, TypeError, MemoryError)
PLAIN = (
    *(types.is_integer, types.is_boolean, types.is_string, types.is_large_string),
    *(types.is_string_view, types.is_date, types.is_timestamp, types.is_floating),
    *(types.is_decimal, types.is_null),
)
BYTES = (types.is_binary, types.is_large_binary, types.is_fixed_size_binary, types.is_binary_view)


def read_parquet(path: Path, picked: Picked, file: str) -> pd.DataFrame:
    """The picked columns as text under our names, and `line`: rows counted as a CSV's lines.

    `file` is what it is called.

    What pandas has written of itself into the file is not read.
    """
    try:
        opened = pq.ParquetFile(path)
        header = opened.schema_arrow.names
        if opened.metadata.num_rows > MOST_ROWS:
            message = f"{opened.metadata.num_rows:,} rows; the most is {MOST_ROWS:,}"
            raise UserError(Problem(file, message))
        places = picked(header)
        table = opened.read(columns=_wanted(places, header))
        cells = {
            ours: text_of(table.column(header[place]), header[place], file)
            for ours, place in places.items()
        }
    except DAMAGED as error:
        raise UserError(Problem(file, f"not a readable Parquet table: {words_of(error)}")) from None
    return pd.DataFrame({**cells, "line": np.arange(2, table.num_rows + 2)})


def _wanted(places: dict[str, int], header: list[str]) -> list[str] | None:
    """The columns to read; all (None) where a name has a point, which would mean a part of one."""
    if any("." in name for name in header):
        return None
    return sorted({header[place] for place in places.values()})


def text_of(column: pa.ChunkedArray, name: str, file: str) -> pd.Series:
    """A column as text; whole numbers and days are written so, whatever holds them."""
    if types.is_dictionary(column.type):
        column = column.cast(column.type.value_type)
    if any(is_kind(column.type) for is_kind in BYTES):
        column = column.cast(pa.large_binary())
    elif not any(is_kind(column.type) for is_kind in PLAIN):
        expected = "expected text, numbers, days, or true and false"
        raise UserError(Problem(file, f"column '{name}' holds {column.type}; {expected}"))
    if types.is_floating(column.type):
        wide = column.cast(pa.float32()) if types.is_float16(column.type) else column
        column = pc.if_else(pc.is_nan(wide), pa.scalar(None, wide.type), wide)
    text = column.cast(pa.large_string())
    text.validate(full=True)
    if types.is_floating(column.type) or types.is_decimal(column.type):
        text = pc.replace_substring_regex(text, r"\.0*$", "")
    if types.is_timestamp(column.type) or types.is_date(column.type):
        text = pc.replace_substring_regex(text, r"[ T]00:00:00(\.0*)?$", "")
    return pd.Series(pc.fill_null(text, "").to_numpy(), dtype=str)

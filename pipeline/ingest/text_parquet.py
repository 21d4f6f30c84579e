"""Parquet tables as the text that a CSV of them would hold: a null is a blank cell."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.parquet as pq
from pyarrow import types

from pipeline.errors import Problem, UserError, words_of
from pipeline.ingest.mistakes import OfRows
from pipeline.ingest.text_blocks import Text, from_arrow

MOST_ROWS = 20_000_000  # kilobytes can say that they hold more than any disk has room for
ROWS = 200_000  # read at once
DAMAGED = (pa.ArrowException, OSError, ValueError, KeyError, TypeError, MemoryError)
PLAIN = (
    *(types.is_integer, types.is_boolean, types.is_string, types.is_large_string),
    *(types.is_string_view, types.is_date, types.is_timestamp, types.is_floating),
    *(types.is_decimal, types.is_null),
)
BYTES = (types.is_binary, types.is_large_binary, types.is_fixed_size_binary, types.is_binary_view)


def stream_parquet(
    file: OfRows,
    picked: Callable[[list[str]], dict[str, int]],
    most: int | None = MOST_ROWS,
    rows: int = ROWS,
) -> Iterator[dict[str, Text]]:
    """The picked columns in pieces of some `rows`; `most` rows may be in it.

    What pandas has written of itself into the file is not read. Raises UserError where the file is
    not what it says.
    """
    try:
        with file.opened() as data:
            opened = pq.ParquetFile(data, pre_buffer=False)
            header = opened.schema_arrow.names
            if most is not None and opened.metadata.num_rows > most:
                message = f"{opened.metadata.num_rows:,} rows; the most is {most:,}"
                raise UserError(Problem(file.label, message))
            places = picked(header)
            names = _wanted(places, header)
            for piece in opened.iter_batches(batch_size=rows, columns=names):
                made = {
                    name: _text(piece.column(name), name, file.label)
                    for name in {header[place] for place in places.values()}
                }
                yield {ours: made[header[place]] for ours, place in places.items()}
    except DAMAGED as error:
        raise UserError(
            Problem(file.label, f"not a readable Parquet table: {words_of(error)}")
        ) from None


def _wanted(places: dict[str, int], header: list[str]) -> list[str] | None:
    """The columns to read; all (None) where a name has a point, which would mean a part of one."""
    if any("." in name for name in header):
        return None
    return sorted({header[place] for place in places.values()})


def _text(column: Any, name: str, file: str) -> Text:
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
    if types.is_null(column.type) or types.is_string_view(column.type):
        column = column.cast(pa.large_string())
    column.validate(full=True)
    coded = column.dictionary_encode()
    return from_arrow(pa.DictionaryArray.from_arrays(coded.indices, _written(coded.dictionary)))


def _written(values: Any) -> Any:
    """Distinct values as text."""
    text = values.cast(pa.large_string())
    text.validate(full=True)
    if types.is_floating(values.type) or types.is_decimal(values.type):
        text = pc.replace_substring_regex(text, r"\.0*$", "")
    if types.is_timestamp(values.type) or types.is_date(values.type):
        text = pc.replace_substring_regex(text, r"[ T]00:00:00(\.0*)?$", "")
    return text

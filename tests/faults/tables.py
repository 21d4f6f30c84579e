"""Tables by chance: columns whose types and names are odd, then damaged."""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq

from tests.faults.damage import damaged
from tests.faults.made import csv_bytes, rows


def columns(rng: Random, given: dict[str, str]) -> dict[str, str]:
    """What sources.yaml maps; now and then another column, or one that is none."""
    if rng.random() < 0.9:
        return given
    return {**given, rng.choice(("venue", "batter_id", "wides")): rng.choice(("striker", "none"))}


def table(rng: Random, folder: Path) -> Path:
    found = rows(rng)
    if rng.random() < 0.2:
        path = folder / "t.csv"
        path.write_bytes(csv_bytes(found, rng))
        return path
    path = folder / "t.parquet"
    pq.write_table(arrow(found, rng), path, compression=rng.choice(("snappy", "none", "zstd")))
    if rng.random() < 0.3:
        path.write_bytes(damaged(path.read_bytes(), rng))
    return path


TYPES = (
    *(pa.int8(), pa.int64(), pa.uint64(), pa.float16(), pa.float32(), pa.float64(), pa.bool_()),
    *(pa.date32(), pa.date64(), pa.timestamp("ns"), pa.timestamp("s", "UTC"), pa.time32("s")),
    *(pa.binary(), pa.large_string(), pa.string_view(), pa.null(), pa.decimal128(20, 3)),
    *(pa.dictionary(pa.int32(), pa.string()), pa.list_(pa.string()), pa.duration("s")),
    pa.struct([("x", pa.string())]),
)


def arrow(found: list[dict[str, Any]], rng: Random) -> pa.Table:
    """The rows as a table whose columns have types by chance, with nulls."""
    arrays = {}
    for name in found[0]:
        values = [None if rng.random() < 0.003 else str(row[name]) for row in found]
        kind = rng.choice(TYPES) if rng.random() < 0.04 else pa.string()
        arrays[name] = _cast(values, kind, rng)
    made = pa.table(arrays)
    if rng.random() < 0.1:
        told = rng.choice((b"{", b'{"columns": [{}]}', b'{"index_columns": ["x"]}', b"\xff"))
        made = made.replace_schema_metadata({b"pandas": told})
    return made


def _cast(values: list[str | None], kind: pa.DataType, rng: Random) -> pa.Array:
    """The values as the type where they can be, else nulls or numbers of it."""
    plain = pa.array(values, pa.string())
    try:
        return plain.cast(kind)
    except (pa.ArrowInvalid, pa.ArrowNotImplementedError):
        pass
    try:
        return pa.array([rng.choice((0, 1, 2**31, None)) for _ in values]).cast(kind)
    except (pa.ArrowInvalid, pa.ArrowNotImplementedError):
        return pa.nulls(len(values), kind)

"""Deliveries match by match: a stream of blocks into blocks of whole matches, in order of play."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pyarrow as pa

from pipeline.errors import UserError
from pipeline.ingest.ball_tables.checked_rows import FILE, ROW, SAID, Reading
from pipeline.ingest.ball_tables.table_files import TableFile
from pipeline.ingest.csv_by_line import lines_of
from pipeline.ingest.mistakes import short

MOST_ROWS = 100_000  # deliveries of one match; the longest that were ever played had some 6,000


def whole_matches(deliveries: Reading) -> Iterator[pa.Table]:
    """Blocks whose matches are whole, each named where it is torn apart or out of order.

    Never more than a block and one match are in memory. Raises UserError for a match of more rows
    than any has.
    """
    ended: set[str] = set()
    rest: pa.Table | None = None
    for block in deliveries.blocks():
        rows = block if rest is None else pa.concat_tables([rest, block])
        rows = rows.unify_dictionaries().combine_chunks()
        last = int(_starts(rows)[-1]) if rows.num_rows else 0
        rest = rows.slice(last)
        if rest.num_rows > MOST_ROWS:
            raise _too_long(deliveries, rest)
        if last:
            yield _checked(deliveries, rows.slice(0, last), ended)
    if rest is not None and rest.num_rows:
        yield _checked(deliveries, rest, ended)


def codes(rows: pa.Table, name: str) -> np.ndarray:
    """A coded column's codes; the same text has the same code all over the block."""
    found: np.ndarray = rows[name].combine_chunks().indices.to_numpy()
    return found


def _starts(rows: pa.Table) -> np.ndarray:
    """The first row of each run of rows of one match."""
    match = codes(rows, "match_id")
    return np.flatnonzero(np.concatenate([[True], match[1:] != match[:-1]]))


def _too_long(deliveries: Reading, rows: pa.Table) -> UserError:
    file: TableFile = deliveries.files[rows[FILE][0].as_py()]
    name = rows["match_id"][0].as_py()
    return file.unread(f"match '{name}' has more than {MOST_ROWS:,} deliveries")


def _checked(deliveries: Reading, rows: pa.Table, ended: set[str]) -> pa.Table:
    _check_together(deliveries, rows, ended)
    _check_order(deliveries, rows)
    return rows


def _check_together(deliveries: Reading, rows: pa.Table, ended: set[str]) -> None:
    """The rows of a match stand together: it was handed on when they ended.

    Raises UserError for one that comes again, whatever is done about other mistakes.
    """
    for start in _starts(rows):
        name = rows["match_id"][int(start)].as_py()
        if name in ended:
            file = deliveries.files[rows[FILE][int(start)].as_py()]
            row = rows[ROW][int(start)].as_py()
            message = f"match '{short(name)}' begins again here; keep the rows of a match together"
            csv = file.form == "csv"
            line = lines_of(file.opened, file.label, [row])[row] if csv else row + 2
            raise file.unread(message, line)
        ended.add(name)


def _check_order(deliveries: Reading, rows: pa.Table) -> None:
    """Innings, overs and deliveries one after the other, the deliveries of an over from 1 on."""
    match = codes(rows, "match_id")
    innings, over, delivery = (rows[n].to_numpy() for n in ("innings", "over", "delivery"))
    said = rows[SAID].to_numpy()
    after_said = np.concatenate([[False], said[:-1]])
    same_innings = (match[1:] == match[:-1]) & (innings[1:] == innings[:-1])
    same_over = same_innings & (over[1:] == over[:-1])
    back = np.zeros(rows.num_rows, bool)
    back[1:] = (match[1:] == match[:-1]) & (innings[1:] < innings[:-1])
    back[1:] |= same_innings & (over[1:] < over[:-1])
    place = "innings {innings}, over {over}, delivery {delivery} of match '{match_id}'"
    message = f"{place} comes after a later one; rows stand in order of play"
    deliveries.tell(rows, back & ~after_said, "order", message)
    due = np.ones(rows.num_rows, delivery.dtype)
    due[1:][same_over] = delivery[:-1][same_over] + 1
    wrong = (delivery != due) & ~back & ~after_said
    message = f"{place} is not the next one; each over's are counted 1, 2, 3 and so on"
    deliveries.tell(rows, wrong, "delivery", message)

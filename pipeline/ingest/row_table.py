"""The layout `table`: which file, which query, and its rows as ours are written."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd
import pyarrow as pa
import pyarrow.parquet as pq

from pipeline.errors import Problem, UserError, words_of
from pipeline.hashes import value_hash
from pipeline.ingest import databases
from pipeline.ingest.plain_csv import DELIMITERS
from pipeline.ingest.row_checks import Bad
from pipeline.ingest.row_forms import Text, in_our_forms
from pipeline.ingest.row_parquet import text_of
from pipeline.ingest.row_repeats import told_once

if TYPE_CHECKING:
    from pipeline.config.project import Source

Picked = Callable[[list[str]], dict[str, int]]
ASKED_BY = b"good-length-query"  # in what was fetched: sha256 of the query that it answers
KEPT = ("file", "line")


def asks(source: Source) -> bool:
    """Whether the source's rows are those of a query. Raises UserError where one is missing, and
    where rows that were fetched are another query's.
    """
    path = Path(source.path)
    if source.layout != "table":
        return False
    if source.connection_from:
        _check_fetched(source, path)
        return False
    if source.query is None and databases.is_database(path):
        message = "a database: say which rows by 'query' in sources.yaml; python -m pipeline look"
        raise UserError(Problem(str(path), f"{message} {path} proposes one"))
    if source.query and not path.is_file():
        message = "'query' goes with one file, not with a folder; leave it out, or join the files"
        raise UserError(Problem(str(path), message))
    return source.query is not None


def _check_fetched(source: Source, path: Path) -> None:
    """The server was asked by `fetch`; what it wrote is read as it stands, if it is of this query.

    A query that was changed is in the settings that a build sees; a table on a server is not.
    """
    try:
        kept = (pq.read_schema(path).metadata or {}).get(ASKED_BY)
    except (pa.ArrowException, OSError) as error:
        message = f"not a readable Parquet table: {words_of(error)}"
        raise UserError(Problem(str(path), message)) from None
    if kept != value_hash(source.query).encode():
        message = "not what today's 'query' asks for"
        how = f"python -m pipeline fetch {source.id} asks the server again"
        raise UserError(Problem(str(path), f"{message}: {how}"))


def read_query(source: Source, picked: Picked) -> pd.DataFrame:
    """The picked columns of the query as text under our names, and `line`: rows as CSV lines."""
    path = Path(source.path)
    asked = databases.ask(path, source.query or "", csv_options(source))
    places = picked(asked.names)
    wanted = sorted(set(places.values()))
    parts = [batch.select(wanted) for batch in asked.blocks]
    if not parts:
        raise UserError(Problem(str(path), "query: it gives no rows"))
    table = pa.Table.from_batches(parts)
    cells = {
        ours: text_of(table.column(wanted.index(place)), asked.names[place], path)
        for ours, place in places.items()
    }
    return pd.DataFrame({**cells, "line": np.arange(2, table.num_rows + 2)})


def csv_options(source: Source) -> dict[str, str]:
    """How a query's CSV is written, as its reader has it."""
    encoding = {"utf-8": "utf-8", "utf-16": "utf-16"}.get(source.written.encoding, "latin-1")
    return {"delim": DELIMITERS[source.written.delimiter], "encoding": encoding}


def formed(frame: pd.DataFrame, source: Source, bad: Bad) -> pd.DataFrame:
    """Rows of layout `table` as ours are written; those that can't be are named."""
    if source.layout != "table" or frame.empty:
        return frame
    columns = {str(name): _text(frame[name]) for name in frame.columns if name not in KEPT}
    columns, wrong = in_our_forms(columns, source.written)
    for each in wrong:
        bad.rows(_frame(columns, frame), pd.Series(each.rows, frame.index), each.message)
    told = told_once(columns, len(frame))
    rows = frame[told.kept]
    made = _frame(told.columns, rows)
    for each in told.wrong:
        bad.rows(made, pd.Series(each.rows, made.index), each.message)
    return made.drop(columns=[n for n in ("extra_kind", "delivery") if n in made]).reset_index(
        drop=True
    )


def _text(series: pd.Series) -> Text:
    codes, values = pd.factorize(series)
    return Text(codes, [str(value) for value in values])


def _frame(columns: dict[str, Text], rows: pd.DataFrame) -> pd.DataFrame:
    made = {
        name: pd.Series(np.array(column.values, object)[column.codes], rows.index, dtype=str)
        for name, column in columns.items()
    }
    return pd.DataFrame({**made, **{name: rows[name] for name in KEPT}})

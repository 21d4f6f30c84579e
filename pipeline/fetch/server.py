"""A query put to a PostgreSQL server through DuckDB's reader of it, into a Parquet file.

The query runs on the server, in a transaction that only reads, in the server's own SQL. Of the
server and the library nothing is passed on that holds a part of the connection.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import duckdb
import pyarrow as pa
import pyarrow.parquet as pq

from pipeline.errors import Problem, UserError, replacing
from pipeline.fetch.secret import Secret
from pipeline.hashes import value_hash
from pipeline.ingest.databases import BLOCK
from pipeline.ingest.row_spool import ASKED_BY
from pipeline.ingest.select_only import why_not
from pipeline.sql import quoted

if TYPE_CHECKING:
    from pipeline.config.project import Source

INSTALL = "import duckdb; duckdb.sql('INSTALL postgres')"
SETTINGS: dict[str, Any] = {
    "autoinstall_known_extensions": "false",
    "autoload_known_extensions": "false",
    "python_enable_replacements": "false",
}


def fetched(source: Source, connection: str) -> tuple[int, int]:
    """Write the rows of the source's query to its path; gives how many rows and columns.

    Raises UserError for what is no SELECT with an order, where DuckDB's reader is not installed,
    and for whatever the server has against it; a file that was there stays then.
    """
    path, query = Path(source.path), source.query or ""
    if reason := why_not(query):
        raise UserError(Problem(str(path), f"query: {reason}"))
    secret = Secret(connection)
    with duckdb.connect(config=SETTINGS) as db:
        try:
            attached(db, connection)
            put = quoted(query.rstrip().rstrip(";"))
            reader = db.sql(f"SELECT * FROM postgres_query('server', {put})")
            return _kept(reader.to_arrow_reader(BLOCK), path, query)
        except (duckdb.Error, pa.ArrowException) as error:
            told = f"the server's answer: {secret.kept_out_of(error)}"
            raise UserError(Problem(str(path), told)) from None


def attached(db: Any, connection: str) -> None:
    """The server as 'server', for reading only."""
    try:
        db.execute("LOAD postgres")
    except duckdb.Error:
        message = (
            "DuckDB's reader of PostgreSQL is not installed; with a network, once: "
            f'.venv/bin/python -c "{INSTALL}"'
        )
        raise UserError(Problem("DuckDB", message)) from None
    db.execute(f"ATTACH {quoted(connection)} AS server (TYPE postgres, READ_ONLY)")


def _kept(reader: pa.RecordBatchReader, path: Path, query: str) -> tuple[int, int]:
    """The rows as Parquet, with the hash of the query that they answer."""
    asked = {ASKED_BY: value_hash(query).encode()}
    schema = reader.schema.with_metadata(asked)
    rows = 0
    with (
        replacing(path) as temporary,
        pq.ParquetWriter(temporary, schema, compression="zstd") as writer,
    ):
        for batch in reader:
            rows += batch.num_rows
            writer.write_batch(batch.cast(schema))
    return rows, len(schema)

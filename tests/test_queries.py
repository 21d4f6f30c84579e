"""Rows of a query: of SQLite, DuckDB, CSV and Parquet, for reading only, and of one file alone."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import Any

import duckdb
import pyarrow as pa
import pyarrow.parquet as pq
import pytest

from pipeline.errors import UserError
from pipeline.hashes import content_hash
from pipeline.ingest.select_only import why_not
from tests.builders import COLUMNS, match, read_all, rows_of, source, write_csv
from tests.refusing import BALLS, said

ROWS = [
    {name: str(cell) for name, cell in {**row, "nr": nr}.items()}
    for nr, row in enumerate(rows_of(match(BALLS)))
]
ORDERED = "SELECT * FROM balls ORDER BY nr"


def sqlite(path: Path, rows: list[dict[str, Any]] = ROWS) -> Path:
    db = sqlite3.connect(path)
    db.execute(f"CREATE TABLE balls ({', '.join(rows[0])})")
    marks = ", ".join("?" * len(rows[0]))
    db.executemany(f"INSERT INTO balls VALUES ({marks})", [list(r.values()) for r in rows[::-1]])
    db.commit()
    db.close()
    return path


def duck(path: Path) -> Path:
    table = pa.Table.from_pylist(ROWS[::-1])
    with duckdb.connect(str(path)) as db:
        db.register("made", table)
        db.execute("CREATE TABLE balls AS SELECT * FROM made")
    return path


def parquet(path: Path) -> Path:
    pq.write_table(pa.Table.from_pylist(ROWS[::-1]), path)
    return path


def plain(path: Path) -> Path:
    return write_csv(path, ROWS[::-1])


MAKERS = {"t.sqlite": sqlite, "t.duckdb": duck, "t.parquet": parquet, "t.csv": plain}


def asked(path: Path, query: str | None = ORDERED, **more: Any) -> Any:
    if query and path.suffix in (".csv", ".parquet"):
        query = query.replace("FROM balls", "FROM data")
        query = query.replace("ORDER BY nr", "ORDER BY CAST(nr AS INTEGER)")
    return read_all(source(path, "table", columns=COLUMNS, query=query, **more))


@pytest.mark.parametrize("name", MAKERS)
def test_every_kind_of_file_gives_the_same_rows_in_the_querys_order(tmp_path: Path, name: str):
    path = MAKERS[name](tmp_path / name)
    before = content_hash(tmp_path)
    tables, problems = asked(path)
    wanted, _ = read_all(source(write_csv(tmp_path / "w.csv", ROWS), "delivery-csv"))
    (tmp_path / "w.csv").unlink()
    assert problems == []
    for table in ("deliveries", "dismissals", "people"):
        assert getattr(tables, table).to_pylist() == getattr(wanted, table).to_pylist(), table
    assert content_hash(tmp_path) == before, "nothing is written, and nothing left beside it"


def test_a_derived_column(tmp_path: Path):
    """What a table does not say as ours does is made of what it says."""
    path = plain(tmp_path / "t.csv")
    query = (
        "SELECT * EXCLUDE (runs_off_bat), CAST(runs_off_bat AS INTEGER) + 1 AS runs_off_bat "
        "FROM balls ORDER BY nr"
    )
    tables, problems = asked(path, query)
    plain_runs = asked(path)[0].deliveries["runs_batter"].to_pylist()
    assert problems == []
    assert tables.deliveries["runs_batter"].to_pylist() == [runs + 1 for runs in plain_runs]


@pytest.mark.parametrize(
    ("query", "message"),
    [
        ("DELETE FROM balls", "no SELECT; only reading is done here"),
        ("PRAGMA table_info(balls)", "no SELECT"),
        ("SELECT 1; DROP TABLE balls", "more than one statement"),
        ("WITH x AS (DELETE FROM balls RETURNING *) SELECT * FROM x ORDER BY 1", "'DELETE' in it"),
        ("SELECT * INTO other FROM balls ORDER BY 1", "'INTO' in it"),
        ("SELECT * FROM balls", "no ORDER BY at its end"),
        ("SELECT * FROM (SELECT * FROM balls ORDER BY nr) x", "no ORDER BY at its end"),
        ("SELECT 'ORDER BY', max(1) OVER (ORDER BY nr) FROM balls -- ORDER BY nr", "no ORDER BY"),
    ],
)
def test_what_is_no_select_with_an_order_is_refused_unread(
    tmp_path: Path, query: str, message: str
):
    path = sqlite(tmp_path / "t.sqlite")
    with pytest.raises(UserError, match=message):
        asked(path, query)


@pytest.mark.parametrize(
    "query",
    [
        'SELECT "set", replace(a, 1, 2) FROM balls ORDER BY 1;',
        "WITH x AS (SELECT 1) SELECT * FROM x /* ; */ ORDER BY 1 -- ; drop",
        "SELECT 'delete; it' FROM balls order  by 1",
        "SELECT $$ insert; into $$ ORDER BY 1",
    ],
)
def test_what_only_reads_is_not_refused(query: str):
    assert why_not(query) is None


@pytest.mark.parametrize("name", ["t.duckdb", "t.parquet", "t.csv"])
@pytest.mark.parametrize(
    "from_where",
    [
        "read_csv('{other}')",
        "read_text('{other}')",
        "'{other}'",
        "sqlite_scan('{other}', 'balls')",
        "glob('/*')",
    ],
)
def test_no_other_file_is_within_its_reach(tmp_path: Path, name: str, from_where: str):
    """Else a build would not know what it was made from."""
    other = write_csv(tmp_path / "other.csv", ROWS)
    path = MAKERS[name](tmp_path / name)
    with pytest.raises(UserError, match=r"query: .*(disabled|not exist|not in the catalog)"):
        asked(path, f"SELECT * FROM {from_where.format(other=other)} ORDER BY 1")


def test_sqlite_opens_no_other_file_and_loads_nothing(tmp_path: Path):
    path = sqlite(tmp_path / "t.sqlite")
    for call in ("load_extension('x')", "writefile('x', 'y')"):
        with pytest.raises(UserError, match="query: "):
            asked(path, f"SELECT {call} FROM balls ORDER BY 1")


@pytest.mark.parametrize("name", ["t.sqlite", "t.duckdb"])
def test_a_database_needs_a_query_and_a_query_one_file(tmp_path: Path, name: str):
    path = MAKERS[name](tmp_path / name)
    with pytest.raises(UserError, match=f"a database: say which rows by 'query'.*look .*{name}"):
        asked(path, None)
    with pytest.raises(UserError, match="'query' goes with one file, not with a folder"):
        asked(tmp_path)


@pytest.mark.parametrize("name", MAKERS)
def test_a_mistake_of_the_query_is_the_databases_own_words(tmp_path: Path, name: str):
    path = MAKERS[name](tmp_path / name)
    with pytest.raises(UserError, match=rf"{name}: query: .*nosuch"):
        asked(path, "SELECT nosuch FROM balls ORDER BY nr")
    with pytest.raises(UserError, match=r"query: it gives no rows"):
        asked(path, "SELECT * FROM balls WHERE 1 = 0 ORDER BY nr")


@pytest.mark.parametrize(("name", "beside"), [("t.sqlite", "-wal"), ("t.duckdb", ".wal")])
def test_a_database_that_is_being_written_is_refused(tmp_path: Path, name: str, beside: str):
    """What is not in the file yet is in no hash of it, and would be missed or read half."""
    path = MAKERS[name](tmp_path / name)
    left = tmp_path / f"{name}{beside}"
    left.write_bytes(b"not yet in it")
    with pytest.raises(UserError, match=f"{left.name} beside it holds what is not in it yet"):
        asked(path)
    left.write_bytes(b"")
    assert asked(path)[1] == []


def test_a_database_with_a_log_that_is_empty_by_now_is_read(tmp_path: Path):
    """One that is always written by way of a log, and was closed."""
    path = sqlite(tmp_path / "t.sqlite")
    db = sqlite3.connect(path)
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("UPDATE balls SET venue = 'Elsewhere'")
    db.commit()
    with pytest.raises(UserError, match=r"t\.sqlite-wal beside it holds what is not in it yet"):
        asked(path)
    db.close()
    tables, problems = asked(path)
    assert problems == [] and tables.matches["venue"].to_pylist() == ["Elsewhere"]
    assert [found.name for found in tmp_path.iterdir()] == ["t.sqlite"]


def test_a_damaged_database_is_named(tmp_path: Path):
    path = sqlite(tmp_path / "t.sqlite")
    path.write_bytes(path.read_bytes()[:100] + b"\xff" * 5000)
    with pytest.raises(UserError, match=r"t.sqlite: query: "):
        asked(path)


def test_cells_of_sqlite_are_as_a_csv_would_hold_them(tmp_path: Path):
    """A column of SQLite has numbers, text and nulls side by side."""
    rows = [{**row} for row in ROWS]
    rows[0] |= {"match_id": 7, "season": 2020.0, "wides": None, "striker": b"A Batt"}
    rows[1] |= {"match_id": "7", "season": "2020"}
    rows[2] |= {"match_id": 7.0, "season": 2020}
    tables, problems = asked(sqlite(tmp_path / "t.sqlite", rows))
    assert problems == []
    assert tables.matches["match_id"].to_pylist() == ["7"]
    assert tables.matches["season"].to_pylist() == ["2020"]
    rows[0]["striker"] = b"\xff\xfe"
    (tmp_path / "t.sqlite").unlink()
    with pytest.raises(UserError, match="column 'striker' holds bytes that are no UTF-8 text"):
        asked(sqlite(tmp_path / "t.sqlite", rows))


def test_a_mistake_in_a_row_is_named_by_its_place(tmp_path: Path):
    rows = [{**row} for row in ROWS]
    rows[2]["runs_off_bat"] = "many"
    (problem,) = said(asked(sqlite(tmp_path / "t.sqlite", rows))[1])
    assert "t.sqlite:4:1: 'many' is no count for runs_batter" in problem

"""The sources' raw tables gone, cut or damaged, and a full disk: one line that says what to do."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import duckdb
import pyarrow as pa
import pyarrow.parquet as pq
import pytest

from pipeline.batches import LIST, TABLES, files_of
from pipeline.clean import stage
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.config.project import Project
from pipeline.errors import UserError
from pipeline.ingest.stage import ingest
from tests.builders import FORMATS, delivery, match, source, write_zip

FOUND = {"m1.json": match([delivery(1), delivery(4)])}


@pytest.fixture
def project(tmp_path: Path) -> tuple[dict[str, Any], Path]:
    """The view and the data folder of one ingested source."""
    given = source(write_zip(tmp_path / "m.zip", FOUND))
    ingest(given, tmp_path / "data" / given.id)
    config = Config(tmp_path, Project(title="test"), {given.id: given}, {}, FORMATS)
    return views.clean(config), tmp_path / "data"


def said(view: dict[str, Any], data: Path) -> str:
    with pytest.raises(UserError) as caught:
        clean(view, data)
    (line,) = map(str, caught.value.problems)
    assert "\n" not in line and "run make brief" in line
    return line


def test_a_folder_that_is_not_there(project: tuple[dict[str, Any], Path]):
    view, _ = project
    line = said(view, Path("/nosuch"))
    assert line.startswith(f"/nosuch/pebbles/{LIST}: no such list of tables")


@pytest.mark.parametrize("name", TABLES)
def test_a_table_that_was_cut_or_overwritten(project: tuple[dict[str, Any], Path], name: str):
    view, data = project
    (path,) = files_of(data / "pebbles", name)
    whole = path.read_bytes()
    part = len(whole) // 4
    for damaged in (
        whole[: 2 * part],
        b"",
        b"x" * 99,
        whole[:part] + bytes(2 * part) + whole[3 * part :],
    ):
        path.write_bytes(damaged)
        assert said(view, data).startswith(f"{path}: ")
    path.unlink()
    assert said(view, data).startswith(f"{path}: no such table")


def test_a_table_of_other_columns(project: tuple[dict[str, Any], Path]):
    view, data = project
    (path,) = files_of(data / "pebbles", "matches")
    pq.write_table(pa.table({"match_id": [1]}), path)
    assert said(view, data).startswith(f"{path}: the table lacks date")


def test_a_full_disk_is_told_with_the_folder(
    project: tuple[dict[str, Any], Path], monkeypatch: pytest.MonkeyPatch
):
    view, data = project

    def full(*_: object) -> None:
        raise duckdb.IOException('IO Error: Could not write "x": No space left on device\n')

    for name in ("copy", "write_parquet"):
        with monkeypatch.context() as patched:
            patched.setattr(stage, name, full)
            line = said(view, data)
        assert line.startswith(f"{data}: ")
        assert "No space left on device: check the free space" in line
        assert [path.name for path in data.iterdir()] == ["pebbles"]


def test_a_disk_with_no_room_for_what_the_memory_can_not_hold(
    project: tuple[dict[str, Any], Path], monkeypatch: pytest.MonkeyPatch
):
    view, data = project

    def full(db: duckdb.DuckDBPyConnection, *_: object) -> None:
        db.execute("SET memory_limit = '40MB'; SET max_temp_directory_size = '1MB'")
        db.execute("CREATE TABLE t AS SELECT range AS a, hash(range) AS b FROM range(6_000_000)")

    monkeypatch.setattr(stage, "copy", full)
    line = said(view, data)
    assert line.startswith(f"{data}: what the memory can't hold found no room on the disk: check")
    assert [path.name for path in data.iterdir()] == ["pebbles"]

"""When a foreign table's source is made again: its file, its query, its forms; never its secret."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import Any

import pytest

from pipeline.config.load import Config, load_project
from pipeline.config.project import Source
from pipeline.config.written import Written
from pipeline.records.steps import Steps
from tests.builders import COLUMNS, source
from tests.conftest import ROOT
from tests.foreign_tables import database

QUERY = "SELECT * FROM deliveries ORDER BY id"


@pytest.fixture()
def club(tmp_path: Path) -> Path:
    path = tmp_path / "club.db"
    database(path)
    return path


@pytest.fixture()
def config(monkeypatch: pytest.MonkeyPatch) -> Config:
    monkeypatch.chdir(ROOT)
    return load_project()


def seen(config: Config, given: Source) -> str:
    """What decides whether the source is ingested again."""
    config.sources[given.id] = given
    return Steps(config, "output").ingest(given.id).seen


def asked(path: Path, **more: Any) -> Source:
    return source(path, "table", columns=COLUMNS, **{"query": QUERY, **more})


def test_a_database_that_changed_is_read_again(config: Config, club: Path):
    before = seen(config, asked(club))
    assert seen(config, asked(club)) == before, "to look at it changes nothing"
    db = sqlite3.connect(club)
    db.execute("UPDATE deliveries SET bat_runs = bat_runs + 1 WHERE id = 1")
    db.commit()
    db.close()
    assert seen(config, asked(club)) != before


@pytest.mark.parametrize(
    "more",
    [
        {"query": f"{QUERY} DESC"},
        {"written": Written(overs_from=0)},
        {"date_format": "DD/MM/YYYY"},
        {"constants": {"gender": "female"}},
    ],
)
def test_another_way_of_reading_reads_it_again(config: Config, club: Path, more: dict):
    assert seen(config, asked(club, **more)) != seen(config, asked(club))


def test_where_a_connection_is_kept_is_nothing_that_a_build_sees(config: Config, tmp_path: Path):
    """What was fetched is a file like any other; the variable's name makes nothing again."""
    kept = tmp_path / "kept.parquet"
    kept.write_bytes(b"fetched")
    one, other = (asked(kept, connection_from=name) for name in ("ONE_DB", "OTHER_DB"))
    assert seen(config, one) == seen(config, other)
    kept.write_bytes(b"fetched anew")
    assert seen(config, other) != seen(config, asked(tmp_path / "nothing.parquet"))


def test_sources_that_have_none_of_it_are_seen_as_before(config: Config):
    """Editions hold what ingest saw: a key that nobody set is no difference to them."""
    from pipeline.config import views

    for name in config.sources:
        keys = {"id", "path", "layout", "on_error", "columns", "constants", "date_format"}
        assert set(views.ingest(config, name)) == keys

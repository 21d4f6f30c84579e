"""How clean works: in the order of its sources, within its memory and threads, leaving nothing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from pipeline import processors
from pipeline.clean.opened import MOST_THREADS, database
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.config.project import Project
from pipeline.ingest import chunks
from pipeline.ingest.stage import ingest
from pipeline.scratch import put_in_place, scratch
from tests.builders import (
    FIXES,
    FORMATS,
    cleaned,
    delivery,
    match,
    rows,
    rows_of,
    source,
    write_csv,
)

WHY = "misheard,scorebook p. 3,R Searcher,2026-11-25"
DEAD = 999_999_999  # no process has this number


def overs(*counts: int) -> dict:
    """A match of overs with so many balls; its runs tell them apart."""
    found = match([])
    played = [[delivery(at % 7) for at in range(count)] for count in counts]
    found["innings"][0]["overs"] = [
        {"over": n, "deliveries": balls} for n, balls in enumerate(played)
    ]
    return found


def places(data: Path) -> list[tuple]:
    keys = ("match_id", "innings", "over", "delivery")
    return [tuple(row[key] for key in keys) for row in rows(data, "deliveries")]


def test_deliveries_stand_by_source_and_file_and_corrected_matches_last(
    tmp_path: Path, monkeypatch
):
    monkeypatch.setattr(chunks, "MEAN", 2)
    many = {f"m{at:02}.json": overs(6, 7, 3) for at in range(9)}
    text = f"{FIXES}m04,1,2,7,,,runs_batter,6,4,{WHY}\nm02,1,1,1,,,runs_batter,0,1,{WHY}\n"
    data = cleaned(tmp_path, {"corrections": text}, b=many, a={"m00b.json": overs(2)})
    found = places(data)
    order = list(dict.fromkeys(match_id for match_id, *_ in found))
    others = [f"m{at:02}" for at in range(9) if at not in (2, 4)]
    assert order == [*others, "m00b", "m02", "m04"]
    assert len(found) == len(set(found)) == 9 * 16 + 2
    for match_id in order:
        own = [place for place in found if place[0] == match_id]
        at = found.index(own[0])
        assert found[at : at + len(own)] == sorted(own)
    mended = dict(zip(found, rows(data, "deliveries"), strict=True))
    assert mended["m04", 1, 2, 7]["runs_total"] == 4 and mended["m02", 1, 1, 1]["runs_total"] == 1


def test_rows_that_are_mixed_up_are_put_in_order(tmp_path: Path):
    first, second = (rows_of(match([delivery(1), delivery(2)]), name) for name in ("b", "a"))
    path = write_csv(tmp_path / "t.csv", [second[0], first[0], second[1], first[1]])
    ingest(source(path, "delivery-csv"), tmp_path / "data" / "pebbles")
    config = Config(tmp_path, Project(title="test"), {"pebbles": source(path)}, {}, FORMATS)
    clean(views.clean(config), tmp_path / "data")
    assert places(tmp_path / "data") == [
        ("a", 1, 1, 1),
        ("a", 1, 1, 2),
        ("b", 1, 1, 1),
        ("b", 1, 1, 2),
    ]


@pytest.mark.parametrize(("threads", "used"), [(1, 1), (3, 3), (99, MOST_THREADS)])
def test_the_database_keeps_to_its_threads_and_its_memory(tmp_path: Path, threads: int, used: int):
    with database(tmp_path / "clean", threads) as db:
        query = "SELECT current_setting('threads'), current_setting('memory_limit')"
        found, memory = db.execute(query).fetchall()[0]
    assert found == used and memory.endswith("MiB")
    assert list(tmp_path.iterdir()) == []


def test_what_does_not_fit_goes_to_a_folder_that_is_removed(tmp_path: Path):
    with database(tmp_path / "clean", 1) as db:
        db.execute("SET memory_limit = '40MB'")
        db.execute("CREATE TABLE t AS SELECT range AS a, hash(range) AS b FROM range(6_000_000)")
        (folder,) = tmp_path.iterdir()
        assert any(folder.iterdir())
        assert db.execute("SELECT count(*) FROM (SELECT * FROM t ORDER BY b)").fetchall() == [
            (6_000_000,)
        ]
    assert list(tmp_path.iterdir()) == []


def test_threads_that_nobody_gives_are_those_of_the_job_then_of_the_process(monkeypatch):
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1, 5}, raising=False)
    monkeypatch.setenv(processors.GIVEN, "7")
    assert processors.available() == 7
    for nothing in ("", "0", "many"):
        monkeypatch.setenv(processors.GIVEN, nothing)
        assert processors.available() == 3


def test_a_scratch_folder_is_gone_however_its_work_ends(tmp_path: Path):
    left, other = (tmp_path / f".work.{process}" for process in (DEAD, os.getppid()))
    for folder in (left, other):
        folder.mkdir()
    with pytest.raises(ValueError), scratch(tmp_path / "work") as folder:
        (folder / "file").write_text("half", "utf-8")
        assert not left.exists() and other.exists()  # whose process is still at work
        raise ValueError
    assert list(tmp_path.iterdir()) == [other]


def test_a_folder_takes_the_place_of_another_at_once(tmp_path: Path):
    (tmp_path / "it").mkdir()
    (tmp_path / "it" / "old").write_text("old", "utf-8")
    with scratch(tmp_path / "it") as folder:
        (folder / "new").write_text("new", "utf-8")
        put_in_place(folder, tmp_path / "it")
    assert [path.name for path in (tmp_path / "it").iterdir()] == ["new"]
    assert [path.name for path in tmp_path.iterdir()] == ["it"]

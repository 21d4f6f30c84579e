"""Matches that were read already are not read again, and the tables are as if they had been."""

from __future__ import annotations

import json
import os
import pickle
import random
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pyarrow.parquet as pq
import pytest

from pipeline import batches, processors
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.config.project import Project
from pipeline.errors import Problem, UserError
from pipeline.hashes import value_hash
from pipeline.ingest import batch, chunks, stage
from pipeline.ingest.chunks import chunks_of
from pipeline.ingest.read import listed, read_chunk
from pipeline.ingest.stage import ingest
from pipeline.records.places import record_of
from pipeline.records.state import damaged
from pipeline.records.steps import Step
from tests.builders import (
    COLUMNS,
    FORMATS,
    contents,
    delivery,
    match,
    rows_of,
    source,
    write_csv,
    write_folder,
    write_zip,
)
from tests.editions import recorded

COUNT = 24
Read = list[str]


def one(at: int) -> dict[str, Any]:
    """A match unlike the others: its runs, its day, and a stray key or a wicket now and then."""
    found = match([delivery(at % 7), delivery(wides=1)], dates=[f"2020-06-{at % 28 + 1:02}"])
    if at % 5 == 0:
        found["info"]["weather"] = "fair"
    if at % 3 == 0:
        out = {"kind": "bowled", "player_out": "A Batt"}
        found["innings"][0]["overs"][0]["deliveries"].append(delivery(wicket=out))
    return found


MEMBERS = {f"m{at:02}.json": one(at) for at in range(COUNT)}


@pytest.fixture(autouse=True)
def small_chunks(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(chunks, "MEAN", 5)


@pytest.fixture()
def read(monkeypatch: pytest.MonkeyPatch) -> Read:
    """The names of the files that are read, as they are."""
    names: Read = []

    def noted(path: Path, source_id: str, members: Any) -> Any:
        asked = list(members)
        names.extend(name for name, _ in asked)
        return read_chunk(path, source_id, asked)

    monkeypatch.setattr(batch, "read_chunk", noted)
    return names


def ingested(path: Path, out: Path, **more: Any) -> dict[str, bytes]:
    """All that is there of a source after it was ingested by this process alone."""
    ingest(source(path, on_error="quarantine", **more), out / "pebbles", threads=1)
    return contents(out / "pebbles")


def chunk_of(*names: str, members: dict[str, Any] = MEMBERS) -> set[str]:
    """The files that stand in the chunks of these."""
    found = chunks_of(sorted(members))
    return {each for chunk in found if set(names) & set(chunk) for each in chunk}


@pytest.mark.parametrize("seed", range(3))
def test_one_name_more_or_less_moves_two_chunks_at_most(seed: int, monkeypatch):
    monkeypatch.setattr(chunks, "MEAN", 250)
    rng = random.Random(seed)
    names = sorted(f"{rng.randrange(10**6):06}.json" for _ in range(3_000))
    before = chunks_of(names)
    assert [name for chunk in before for name in chunk] == names
    assert max(map(len, before)) <= chunks.MOST
    moved = []
    for _ in range(60):
        more = chunks_of(sorted([*names, f"{rng.randrange(10**6):06}.json"]))
        moved.append(sum(chunk not in before for chunk in more))
        gone = rng.choice(names)
        less = chunks_of([name for name in names if name != gone])
        moved.append(sum(chunk not in before for chunk in less))
    assert sum(moved) / len(moved) < 1.5 and max(moved) <= 4


def test_no_files_are_one_chunk_of_none():
    assert chunks_of([]) == [[]]


def test_what_was_read_is_not_read_again(tmp_path: Path, read: Read):
    path = write_zip(tmp_path / "m.zip", MEMBERS)
    before = ingested(path, tmp_path / "out")
    assert sorted(read) == sorted(MEMBERS)
    assert len([name for name in before if name.endswith(batches.NOTE)]) > 3
    read.clear()
    assert ingested(path, tmp_path / "out") == before and read == []


CHANGES: dict[str, Callable[[dict[str, Any]], str]] = {
    "added": lambda members: [members.update({"m07b.json": one(40)}), "m07b.json"][1],
    "changed": lambda members: [members.update({"m07.json": one(41)}), "m07.json"][1],
    "spoilt": lambda members: [members.update({"m07.json": "{"}), "m07.json"][1],
    "taken away": lambda members: [members.pop("m07.json"), "m07.json"][1],
}


@pytest.mark.parametrize("change", CHANGES)
@pytest.mark.parametrize("write", [write_zip, write_folder])
def test_only_the_chunk_of_a_changed_file_is_read_and_all_is_as_in_a_full_run(
    tmp_path: Path, read: Read, change: str, write: Callable[..., Path]
):
    path, members = tmp_path / "matches", dict(MEMBERS)
    ingested(write(path, MEMBERS), tmp_path / "out")
    name = CHANGES[change](members)
    path.rename(tmp_path / "earlier")
    write(path, members)
    read.clear()
    found = ingested(path, tmp_path / "out")
    asked = chunk_of(name, members=MEMBERS) | chunk_of(name, members=members)
    assert read and set(read) <= asked and len(asked) < COUNT / 2
    assert found == ingested(path, tmp_path / "new")
    assert cleaned(path, tmp_path / "out") == cleaned(path, tmp_path / "new")


def cleaned(path: Path, data: Path) -> dict[str, bytes]:
    given = source(path)
    config = Config(data, Project(title="test"), {given.id: given}, {}, FORMATS)
    clean(views.clean(config), data)
    return {path.name: path.read_bytes() for path in data.iterdir() if path.is_file()}


def test_other_code_reads_everything_again(tmp_path: Path, read: Read, monkeypatch):
    path = write_zip(tmp_path / "m.zip", MEMBERS)
    before = ingested(path, tmp_path / "out")
    read.clear()
    monkeypatch.setattr(stage, "code_of", lambda _: "other")
    after = ingested(path, tmp_path / "out")
    assert sorted(read) == sorted(MEMBERS)
    assert after["report.json"] == before["report.json"]
    assert not set(notes(before)) & set(notes(after))


def notes(found: dict[str, bytes]) -> list[str]:
    return [name for name in found if name.endswith(batches.NOTE)]


def test_other_constants_make_other_tables(tmp_path: Path):
    path = write_csv(tmp_path / "t.csv", rows_of(match([delivery(1), delivery(4)])))
    found = {}
    for kind in ("one-day", "twenty-over"):
        constants = {"match_type": kind, "gender": "female"}
        given = {"layout": "table", "columns": COLUMNS, "constants": constants}
        ingested(path, tmp_path / "out", **given)
        file = batches.files_of(tmp_path / "out" / "pebbles", "matches")[-1]
        found[kind] = pq.read_table(file)["match_type"].to_pylist()
    assert found == {"one-day": ["one-day"], "twenty-over": ["twenty-over"]}
    assert len(list((tmp_path / "out" / "pebbles" / batches.FOLDER).iterdir())) == 1


def test_a_layout_of_which_nothing_comes_is_a_source_without_matches(tmp_path: Path, monkeypatch):
    path = write_csv(tmp_path / "t.csv", rows_of(match([delivery(1)])))
    monkeypatch.setattr(stage, "read_source", lambda _: iter([]))
    found = ingested(path, tmp_path / "out", layout="delivery-csv")
    assert json.loads(found["report.json"])["matches"] == 0
    assert cleaned(path, tmp_path / "out")["deliveries.parquet"]


@pytest.mark.parametrize("file", [*(f"{name}.parquet" for name in batches.TABLES), batches.NOTE])
@pytest.mark.parametrize("hand", ["cut", "edited", "gone"])
def test_a_batch_that_is_not_as_it_was_written_is_read_again(
    tmp_path: Path, read: Read, file: str, hand: str
):
    path = write_zip(tmp_path / "m.zip", MEMBERS)
    before = ingested(path, tmp_path / "out")
    read.clear()
    spoil(batches.listed(tmp_path / "out" / "pebbles")[1] / file, hand)
    assert ingested(path, tmp_path / "out") == before
    assert sorted(read) == chunks_of(sorted(MEMBERS))[1]


def spoil(path: Path, hand: str) -> None:
    whole = path.read_bytes()
    if hand == "gone":
        path.unlink()
    elif hand == "cut":
        path.write_bytes(whole[:-9])
    elif path.name == batches.NOTE:
        note = json.loads(whole)
        note["figures"]["runs"] += 1
        path.write_text(json.dumps(note), "utf-8")
    else:
        path.write_bytes(whole[:40] + bytes([whole[40] ^ 1]) + whole[41:])


def test_an_archive_that_was_damaged_and_is_mended_is_read_again(tmp_path: Path):
    """Its list, with the same checksums, was whole all along."""
    path = write_zip(tmp_path / "m.zip", {"m1.json": match([delivery(1)])})
    whole = path.read_bytes()
    path.write_bytes(whole.replace(b"Pebble Cup", b"Rubble Cup", 1))
    assert json.loads(ingested(path, tmp_path / "out")["report.json"])["matches"] == 0
    path.write_bytes(whole)
    assert json.loads(ingested(path, tmp_path / "out")["report.json"])["matches"] == 1


def test_an_archive_that_is_replaced_while_it_is_read_is_not_taken_for_the_new_one(
    tmp_path: Path, monkeypatch
):
    path = write_zip(tmp_path / "m.zip", {"m1.json": match([delivery(1)])})
    new = write_zip(tmp_path / "new.zip", {"m1.json": match([delivery(4)])})

    def replaced(path: Path, source_id: str, members: Any) -> Any:
        asked = list(members)
        if new.exists():
            new.replace(path)
        return read_chunk(path, source_id, asked)

    monkeypatch.setattr(batch, "read_chunk", replaced)
    assert json.loads(ingested(path, tmp_path / "out")["report.json"])["runs"] == 1
    assert json.loads(ingested(path, tmp_path / "out")["report.json"])["runs"] == 4


@pytest.mark.parametrize("left", ["ten", "none", "no archive"])
@pytest.mark.parametrize("first", [True, False])
def test_files_that_go_while_a_source_is_read_are_named(
    tmp_path: Path, monkeypatch, left: str, first: bool
):
    path = write_zip(tmp_path / "m.zip", MEMBERS)
    if not first:
        ingested(path, tmp_path / "out")
    kept = dict(list(MEMBERS.items())[:10])

    def going(given: Any) -> Any:
        found = listed(given)
        path.unlink()
        if left == "ten":
            write_zip(path, kept)
        elif left == "no archive":
            path.write_text("<html>", "utf-8")
        return found

    monkeypatch.setattr(stage, "listed", going)
    told = json.loads(ingested(path, tmp_path / "out")["report.json"])
    assert told["matches"] == (10 if left == "ten" else 0)
    assert len(told["quarantined"]) == COUNT - told["matches"]
    assert all("fetch it again" in line for line in told["quarantined"])


def test_what_a_stopped_run_read_is_not_read_again_when_its_file_is_mended(
    tmp_path: Path, read: Read
):
    path, out = tmp_path / "m.zip", tmp_path / "out" / "pebbles"
    write_zip(path, MEMBERS)
    before = ingested(path, tmp_path / "out")
    write_zip(path, {**MEMBERS, "m20.json": "{"})
    with pytest.raises(UserError, match=r"m20\.json: not readable JSON"):
        ingest(source(path), out, threads=1)
    assert {name: contents(out)[name] for name in before} == before
    write_zip(path, {**MEMBERS, "m20.json": one(50)})
    read.clear()
    after = ingested(path, tmp_path / "out")
    assert set(read) == chunk_of("m20.json")
    assert after == ingested(path, tmp_path / "new")


def test_a_run_that_is_ended_from_outside_leaves_whole_batches_only(
    tmp_path: Path, read: Read, monkeypatch
):
    path, out = write_zip(tmp_path / "m.zip", MEMBERS), tmp_path / "out" / "pebbles"
    write, begun = batch._write_table, 0

    def ended(*table: Any) -> None:
        nonlocal begun
        begun += 1
        if begun == 8:  # within the second batch
            raise KeyboardInterrupt
        write(*table)

    monkeypatch.setattr(batch, "_write_table", ended)
    with pytest.raises(KeyboardInterrupt):
        ingest(source(path), out, threads=1)
    (whole,) = (out / batches.FOLDER).iterdir()
    assert batches.whole(whole) and not (out / batches.LIST).exists()
    left = out / batches.FOLDER / ".some-batch.999999999"  # as a killed process leaves it
    left.mkdir()
    read.clear()
    monkeypatch.setattr(batch, "_write_table", write)
    assert ingested(path, tmp_path / "out") == ingested(path, tmp_path / "new")
    assert not set(read[: COUNT - len(chunks_of(sorted(MEMBERS))[0])]) & set(
        chunks_of(sorted(MEMBERS))[0]
    )


def test_a_hands_edit_of_a_batch_is_named_by_who_wrote_it_and_who_read_it(tmp_path: Path):
    ingested(write_zip(tmp_path / "m.zip", MEMBERS), tmp_path / "data")
    listing = tmp_path / "data" / "pebbles" / batches.LIST
    table = tmp_path / "data" / "matches.parquet"
    table.write_text("rows", "utf-8")
    steps = [
        Step(
            "ingest",
            "pebbles",
            "i",
            "",
            [],
            [str(listing)],
            str(record_of("ingest", listing.parent)),
        ),
        Step(
            "clean",
            "",
            "c",
            "",
            [str(listing)],
            [str(table)],
            str(record_of("clean", table.parent)),
        ),
    ]
    for step in steps:
        recorded(step, tmp_path)
    assert damaged(steps, tmp_path) == []
    file = batches.files_of(listing.parent, "innings")[2]
    spoil(file, "edited")
    assert [each.because for each in damaged(steps, tmp_path)] == [
        f"ingest of pebbles: {file} is not as it was written",
        f"clean: {file} has changed since",
    ]
    file.unlink()
    assert damaged(steps, tmp_path)[0].file == str(file)


def test_a_list_that_can_not_be_read_is_at_fault_itself(tmp_path: Path):
    path = tmp_path / batches.LIST
    path.write_text("[", "utf-8")
    assert batches.at_fault(path) == path


def test_mistakes_come_out_of_other_processes_as_they_are():
    problems = [Problem("a.zip", "it can't be read", 3, 1, "there"), Problem("b", "nor this")]
    assert pickle.loads(pickle.dumps(UserError(problems))).problems == problems


@pytest.mark.parametrize(("threads", "used"), [(1, None), (3, 3), (99, stage.MOST_WORKERS)])
def test_as_many_processes_are_used_as_are_given(
    tmp_path: Path, monkeypatch, threads: int, used: int | None
):
    asked: list[int] = []

    class Pool:
        def __init__(self, workers: int):
            asked.append(workers)

        def __enter__(self) -> Any:
            return self

        def __exit__(self, *_: object) -> None:
            pass

        map = staticmethod(map)

    monkeypatch.setattr("pipeline.ingest.read.ProcessPoolExecutor", Pool)
    monkeypatch.setattr(chunks, "MEAN", 1)
    path = write_zip(tmp_path / "m.zip", MEMBERS)
    ingest(source(path), tmp_path / "out", threads)
    assert asked == ([used] if used else [])
    asked.clear()
    monkeypatch.delenv(processors.GIVEN, raising=False)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1})
    ingest(source(path), tmp_path / "other")
    assert asked == [2]
    asked.clear()
    monkeypatch.setenv(processors.GIVEN, "4")
    ingest(source(path), tmp_path / "third")
    assert asked == [4]


def killed(path: Path, source_id: str, members: Any) -> Any:
    asked = list(members)
    if any(name == "m12.json" for name, _ in asked):
        os.kill(os.getpid(), signal.SIGKILL)
    return read_chunk(path, source_id, asked)


def test_a_process_that_is_killed_is_told_and_the_next_run_goes_on(tmp_path: Path, monkeypatch):
    path = write_zip(tmp_path / "m.zip", MEMBERS)
    with monkeypatch.context() as patched:
        patched.setattr(batch, "read_chunk", killed)
        with pytest.raises(UserError, match=r"m\.zip: a process that read it was ended .* CORES=1"):
            ingest(source(path), tmp_path / "out" / "pebbles", threads=2)
    assert ingested(path, tmp_path / "out") == ingested(path, tmp_path / "new")


def test_any_number_of_processes_makes_the_same_files(tmp_path: Path):
    path = write_zip(tmp_path / "m.zip", MEMBERS)
    ingest(source(path), tmp_path / "two" / "pebbles", threads=2)
    assert contents(tmp_path / "two" / "pebbles") == ingested(path, tmp_path / "one")


def test_a_seal_is_of_all_other_fields(tmp_path: Path):
    ingested(write_zip(tmp_path / "m.zip", MEMBERS), tmp_path / "out")
    folder = batches.listed(tmp_path / "out" / "pebbles")[0]
    note = json.loads((folder / batches.NOTE).read_text("utf-8"))
    seal = note.pop("seal")
    del note["format"]
    assert seal == value_hash({**note, "seal": ""})

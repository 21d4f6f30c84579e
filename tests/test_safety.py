"""Hostile and broken files: one clear line each, earlier outputs as they were."""

from __future__ import annotations

import errno
import os
import stat
import zipfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pipeline.errors import Problem, UserError, replacing, run_stage, words_of, write_atomically
from pipeline.ingest import members
from pipeline.ingest.members import LARGEST_MEMBER
from pipeline.ingest.stage import ingest
from tests.builders import (
    contents,
    delivery,
    match,
    read_all,
    rows_of,
    source,
    write_csv,
    write_delivery_csv,
    write_zip,
)
from tests.refusing import GOOD, refused


def archive(path: Path, members: list[tuple[str, bytes | str]], **attributes: int) -> Path:
    """A zip of members in order, names as they are; `attributes` are external file attributes."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as opened:
        for name, content in members:
            item = zipfile.ZipInfo(name)
            item.compress_type = zipfile.ZIP_DEFLATED
            item.external_attr = attributes.get(Path(name).stem, 0)
            opened.writestr(item, content)
    return path


@pytest.mark.parametrize("name", ["../m2.json", "a/../../m2.json", "/etc/m2.json", "C:/m2.json"])
def test_names_that_lead_out_of_the_archive(tmp_path: Path, name: str):
    path = archive(tmp_path / "m.zip", [("m1.json", GOOD), (name, GOOD)])
    refused(path, f"{name}: its name leads out of the archive")


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_a_name_that_stands_twice(tmp_path: Path):
    path = archive(tmp_path / "m.zip", [("m1.json", GOOD), ("m2.json", GOOD), ("m2.json", "{}")])
    refused(path, "m2.json: stands twice in the archive")


def test_a_link_in_an_archive(tmp_path: Path):
    members = [("m1.json", GOOD), ("m2.json", "/etc/passwd")]
    path = archive(tmp_path / "m.zip", members, m2=(stat.S_IFLNK | 0o777) << 16)
    refused(path, "m2.json: a link, not a file")


def test_gigabytes_from_kilobytes(tmp_path: Path):
    members = [("m1.json", GOOD), ("m2.json", b" " * (LARGEST_MEMBER + 1))]
    path = archive(tmp_path / "m.zip", members)
    assert path.stat().st_size < 200_000
    refused(path, "bytes when unpacked; the most a match file may have is")


def test_days_of_unpacking_from_kilobytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(members, "SUSPECT", 1_000_000)
    packed = [(f"m{n}.json", b" " * 500_000) for n in range(4)]
    with pytest.raises(UserError, match=r"m\.zip: 2,000,000 bytes when unpacked, from") as caught:
        read_all(source(archive(tmp_path / "m.zip", packed)))
    assert len(caught.value.problems) == 1


def test_an_archive_that_lies_about_a_members_size(tmp_path: Path):
    """The list says one byte; what is unpacked is bounded and found damaged."""
    path = archive(tmp_path / "m.zip", [("m1.json", GOOD), ("m2.json", b" " * 5_000_000)])
    size = (5_000_000).to_bytes(4, "little")
    path.write_bytes(path.read_bytes().replace(size, (1).to_bytes(4, "little")))
    refused(path, "m2.json: damaged in the archive")


def test_a_problem_is_one_line_of_what_can_be_seen():
    odd = Problem("a\nb\udcff.csv", "Expected 23 fields,\n  saw 24\n", 3, 1, "x\x1b[2J")
    assert str(odd) == r"a\nb\udcff.csv:3:1: x\x1b[2J: Expected 23 fields, saw 24"
    assert words_of(ValueError("23,\n  24\n")) == "23, 24"


def test_a_full_disk_is_told_with_the_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    def full() -> None:
        with replacing(tmp_path / "file.json"):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with pytest.raises(SystemExit):
        run_stage(full)
    said = capsys.readouterr().err
    assert said.startswith(f"{tmp_path / 'file.json'}: No space left on device: ")


@pytest.mark.parametrize("opening", ["[", '{"a":', '{"meta":{"created":['])
def test_thousands_of_nested_levels(tmp_path: Path, opening: str):
    path = archive(tmp_path / "m.zip", [("m1.json", GOOD), ("m2.json", opening * 20_000)])
    refused(path, "m2.json: not readable JSON")


@pytest.mark.parametrize(
    "content",
    [b"\xff\xfe" + GOOD.encode("utf-16-le"), GOOD.encode().replace(b"A Batt", b"A B\xe9tt"), b"\0"],
)
def test_bytes_that_are_no_text(tmp_path: Path, content: bytes):
    path = archive(tmp_path / "m.zip", [("m1.json", GOOD), ("m2.json", content)])
    tables, problems = read_all(source(path))
    (line,) = [str(problem) for problem in problems]
    assert "m.zip/m2.json: not" in line and tables.matches.num_rows == 1


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"match_id,innings\n1,\0\n", "not a text file (a NUL byte at"),
        ("match_id,saison\n1,é\n".encode("latin-1"), "not UTF-8 text"),
        (b"match,runs\n1,2\n", "wrong header: nothing for match_id"),
        (b"", "not a readable CSV"),
        (b'match_id,"innings\n', "not a readable CSV"),
    ],
)
def test_csv_files_that_are_none(tmp_path: Path, content: bytes, said: str):
    folder = write_delivery_csv(tmp_path / "csv", match([delivery(1)]))
    (folder / "m2.csv").write_bytes(content)
    refused(folder, said, "delivery-csv")


@pytest.mark.parametrize("content", [b"", b"PK\x05\x06" + bytes(18), b"not a zip"])
def test_archives_that_are_empty_or_none(tmp_path: Path, content: bytes):
    path = tmp_path / "m.zip"
    path.write_bytes(content)
    with pytest.raises(UserError, match=r"m\.zip: (no \.json file|not a readable zip)") as caught:
        read_all(source(path))
    assert len(caught.value.problems) == 1


def test_a_failing_source_leaves_earlier_outputs_as_they_were(tmp_path: Path):
    out = tmp_path / "out"
    ingest(source(archive(tmp_path / "m.zip", [("m1.json", GOOD)])), out)
    before = contents(out)
    bad = source(archive(tmp_path / "bad.zip", [("m1.json", GOOD), ("../m2.json", GOOD)]))
    with pytest.raises(UserError, match="1 mistake"):
        ingest(bad, out)
    after = contents(out)
    assert {name: after[name] for name in before} == before


@given(place=st.integers(0, len(GOOD) - 1), bit=st.integers(0, 7))
@settings(max_examples=400, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_flipped_bit_ends_in_success_or_a_named_error(tmp_path: Path, place: int, bit: int):
    data = bytearray(GOOD.encode())
    data[place] ^= 1 << bit
    path = write_zip(tmp_path / "m.zip", {"m1.json": bytes(data)})
    tables, problems = read_all(source(path))
    assert tables.matches.num_rows + len(problems) == 1
    assert all("m1.json: " in str(problem) for problem in problems)


@given(place=st.integers(0, 2000), bit=st.integers(0, 7))
@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_flipped_bit_of_an_archive_too(tmp_path: Path, place: int, bit: int):
    path = archive(tmp_path / "m.zip", [("m1.json", GOOD), ("m2.json", GOOD)])
    data = bytearray(path.read_bytes())
    data[place % len(data)] ^= 1 << bit
    path.write_bytes(data)
    try:
        read_all(source(path))
    except UserError as error:
        assert "m.zip" in str(error)


@given(place=st.integers(0, 5000), bit=st.integers(0, 7))
@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_flipped_bit_of_rows_too(tmp_path: Path, place: int, bit: int):
    path = write_csv(tmp_path / "m.csv", rows_of(match([delivery(1), delivery(wides=2)])))
    data = bytearray(path.read_bytes())
    data[place % len(data)] ^= 1 << bit
    path.write_bytes(data)
    try:
        read_all(source(path, "delivery-csv"))
    except UserError as error:
        assert "m.csv" in str(error)


def test_a_write_that_fails_leaves_the_old_file(tmp_path: Path):
    path = tmp_path / "file.json"
    write_atomically(path, "old")
    with pytest.raises(RuntimeError), replacing(path) as temporary:
        temporary.write_text("half")
        raise RuntimeError
    assert path.read_text() == "old" and list(tmp_path.iterdir()) == [path]


def test_what_a_killed_run_left_is_removed(tmp_path: Path):
    dead, alive = tmp_path / ".file.json.99999999", tmp_path / f".file.json.{os.getppid()}"
    dead.write_text("half")
    alive.write_text("another run's")
    write_atomically(tmp_path / "file.json", "new")
    assert not dead.exists() and alive.exists()

"""Links, pipes, names and rights: what is no plain file is named, and never opened."""

from __future__ import annotations

import errno
import json
import os
import zipfile
from pathlib import Path
from typing import Any

import pytest

from pipeline import hashes
from pipeline.errors import UserError
from pipeline.hashes import content_hash
from pipeline.ingest.stage import ingest
from tests.builders import read_all, source, write_zip
from tests.refusing import GOOD, refused


def folder_with(tmp_path: Path) -> Path:
    """A folder of one good match, to which something odd is added."""
    folder = tmp_path / "matches"
    folder.mkdir()
    (folder / "m1.json").write_text(GOOD, "utf-8")
    return folder


@pytest.mark.parametrize("target", ["elsewhere.json", "nowhere", "/dev/zero", "m2.json"])
def test_a_link_in_a_folder(tmp_path: Path, target: str):
    folder = folder_with(tmp_path)
    (tmp_path / "elsewhere.json").write_text(GOOD, "utf-8")
    (folder / "m2.json").symlink_to(target if target != "elsewhere.json" else tmp_path / target)
    refused(folder, "m2.json: a link, not a file")
    assert len(content_hash(folder)) == 64


def test_a_link_to_a_folder_in_a_folder(tmp_path: Path):
    folder, other = folder_with(tmp_path), tmp_path / "other"
    other.mkdir()
    (other / "m2.json").write_text(GOOD, "utf-8")
    (folder / "more").symlink_to(other)
    refused(folder, "more: a link, not a file")


def test_a_pipe_in_a_folder_is_not_waited_for(tmp_path: Path):
    folder = folder_with(tmp_path)
    before = content_hash(folder)
    os.mkfifo(folder / "m2.json")
    refused(folder, "m2.json: a pipe or a device, not a file")
    assert content_hash(folder) != before


def test_a_name_that_is_no_text(tmp_path: Path):
    folder = folder_with(tmp_path)
    (folder / os.fsdecode(b"m\xff.json")).write_text(GOOD, "utf-8")
    refused_there = str(read_all(source(folder))[1][0])
    assert refused_there.endswith("m\\udcff.json: its name is not UTF-8 text; give it another")
    assert len(content_hash(folder)) == 64
    ingest(source(folder, on_error="quarantine"), tmp_path / "out")
    report = json.loads((tmp_path / "out" / "report.json").read_text("utf-8"))
    assert report["matches"] == 1 and report["quarantined"] == [refused_there]


@pytest.mark.parametrize("layout", ["match-json", "delivery-csv"])
@pytest.mark.parametrize("name", ["m.json", "m.csv", "m.parquet", "m.zip"])
def test_a_source_that_is_a_pipe_or_a_device_or_nothing(tmp_path: Path, layout: str, name: str):
    pipe, link, gone = (tmp_path / kind / name for kind in ("pipe", "link", "gone"))
    for path in (pipe, link, gone):
        path.parent.mkdir()
    os.mkfifo(pipe)
    link.symlink_to("/dev/zero")
    for path in (pipe, link, gone):
        with pytest.raises(UserError, match=f"{name}: (not a file|no such file) or") as caught:
            read_all(source(path, layout))
        assert len(caught.value.problems) == 1 and len(content_hash(path)) in (4, 64)


@pytest.mark.parametrize("inside", [False, True])
def test_a_file_without_the_right_to_read_it_is_unread_and_no_traceback(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, inside: bool
):
    path = tmp_path / "folder" / "m.csv"
    path.parent.mkdir()
    path.write_text("x", "utf-8")
    asked = path.parent if inside else path
    before = content_hash(asked)

    def locked(path: Path) -> str:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    monkeypatch.setattr(hashes, "file_hash", locked)
    assert content_hash(asked) != before


@pytest.mark.parametrize(("of", "method"), [(Path, "is_file"), (zipfile, "ZipFile")])
def test_a_source_without_the_right_to_read_it_or_to_enter_its_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, of: Any, method: str
):
    path = write_zip(tmp_path / "m.zip", {"m1.json": {}})

    def locked(path: Path) -> bool:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    monkeypatch.setattr(of, method, locked)
    with pytest.raises(UserError, match=r"m\.zip: can't be read: Permission denied"):
        read_all(source(path))

"""Verify: each damaged, missing and extra file of an edition is named; nothing else is read."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path
from typing import Any

import bagit
import pytest

from pipeline.archive.bag import ALGORITHMS, quiet, seal
from pipeline.contracts.editions import Edition
from pipeline.editions.store import take
from pipeline.errors import UserError
from pipeline.verify import check as checking
from pipeline.verify import manifests
from pipeline.verify.check import check
from pipeline.verify.command import verify
from pipeline.verify.manifests import climbs

FILES = {
    "brief.pdf": "%PDF-",
    "facts.json": "[]\n",
    "charts/rate.csv": "season,value\n2009,4.77\n",
    "edition.json": "{}\n",
}


def edition(folder: Path, number: int = 2) -> Path:
    """A small sealed edition of the topic 'long-grass' at folder/<number>."""
    made = folder / "making"
    for name, text in FILES.items():
        (made / name).parent.mkdir(parents=True, exist_ok=True)
        (made / name).write_text(text, "utf-8")
    about = described(edition=number)
    seal(made, about)
    return take(made, folder / str(number))


def described(**more: Any) -> Edition:
    """edition.json of an edition that rests on nothing."""
    made = {
        **{"topic": "long-grass", "edition": 1, "publisher": "Somebody", "question": "Did it?"},
        **{"title": "Did the long grass rescue the spinner?", "date": date(2026, 11, 25)},
        **{"fingerprint": "2baa345d", "content": "", "code": "", "commit": None, "sources": []},
        **{"software": {"good-length": "0.1", "bagit": "1.9.0"}, "rebuild": ""},
    }
    return Edition(**{**made, **more})


@pytest.fixture()
def bag(tmp_path: Path) -> Path:
    """An edition that can be written to, as somebody might make it."""
    made = edition(tmp_path / "long-grass")
    for path in (made, *made.rglob("*")):
        path.chmod(path.stat().st_mode | 0o200)
    return made


def wrong(path: Path) -> list[str]:
    """The lines that verify ends with; fails when it finds the path whole."""
    with pytest.raises(UserError) as found:
        verify([str(path)])
    return sorted(str(problem) for problem in found.value.problems)


def library_finds_it_whole(path: Path) -> bool:
    with quiet():
        try:
            return bagit.Bag(str(path)).is_valid()
        except bagit.BagError:
            return False


def retag(bag: Path) -> None:
    """Make the tag manifests fit the tag files again, as a forger would."""
    for algorithm in ALGORITHMS:
        names = ("bag-info.txt", "bagit.txt", *(f"manifest-{a}.txt" for a in ALGORITHMS))
        lines = [
            f"{hashlib.new(algorithm, (bag / name).read_bytes()).hexdigest()}  {name}\n"
            for name in names
        ]
        (bag / f"tagmanifest-{algorithm}.txt").write_text("".join(lines), "utf-8")


def test_a_whole_edition(bag: Path, capsys: pytest.CaptureFixture[str]):
    verify([str(bag)])
    assert capsys.readouterr().out == f"{bag}: whole: 10 files, edition 2 of long-grass\n"
    assert library_finds_it_whole(bag)


@pytest.mark.parametrize("name", ["data/brief.pdf", "data/charts/rate.csv"])
@pytest.mark.parametrize("bit", range(8))
def test_one_flipped_bit(bag: Path, name: str, bit: int):
    content = bytearray((bag / name).read_bytes())
    content[-1] ^= 1 << bit
    (bag / name).write_bytes(content)
    assert wrong(bag) == [f"{name}: damaged (sha512 differs)"]
    assert not library_finds_it_whole(bag)


@pytest.mark.parametrize(
    "name", ["bagit.txt", "bag-info.txt", "manifest-sha256.txt", "manifest-sha512.txt"]
)
def test_a_damaged_tag_file(bag: Path, name: str):
    with (bag / name).open("a") as file:
        file.write("\n")
    assert wrong(bag) == [f"{name}: damaged (sha512 differs)"]


@pytest.mark.parametrize("name", ["data/facts.json", "data/edition.json"])
def test_a_missing_file(bag: Path, name: str):
    (bag / name).unlink()
    assert wrong(bag) == [f"{name}: missing"]
    assert not library_finds_it_whole(bag)


@pytest.mark.parametrize(
    "name", ["bagit.txt", "bag-info.txt", "tagmanifest-sha256.txt", "tagmanifest-sha512.txt"]
)
def test_a_missing_tag_file(bag: Path, name: str):
    (bag / name).unlink()
    assert wrong(bag) == [f"{name}: missing"]


def test_a_missing_manifest(bag: Path):
    (bag / "manifest-sha512.txt").unlink()
    assert wrong(bag) == ["manifest-sha512.txt: missing"]
    (bag / "data/facts.json").write_text("[1]\n")
    lines = ["data/facts.json: damaged (sha256 differs)", "manifest-sha512.txt: missing"]
    assert wrong(bag) == lines


@pytest.mark.parametrize("name", ["data/new.txt", "data/charts/deep/new.txt", "new.txt", "x/y"])
def test_an_extra_file(bag: Path, name: str):
    (bag / name).parent.mkdir(parents=True, exist_ok=True)
    (bag / name).write_text("new", "utf-8")
    assert wrong(bag) == [f"{name}: extra"]


def test_everything_wrong_at_once(bag: Path):
    (bag / "data/facts.json").write_text("[1]\n")
    (bag / "data/brief.pdf").unlink()
    (bag / "data/new\nline.txt").write_text("")
    (bag / "bag-info.txt").write_text("A: b\n")
    assert wrong(bag) == [
        "bag-info.txt: damaged (sha512 differs)",
        "data/brief.pdf: missing",
        "data/facts.json: damaged (sha512 differs)",
        "data/new\\nline.txt: extra",
    ]


@pytest.mark.parametrize(
    "name", ["data/../../outside.txt", "../outside.txt", "{outside}", "~/outside.txt", "C:\\x"]
)
@pytest.mark.parametrize("forged", [True, False])
def test_a_climbing_path_is_named_and_never_read(
    bag: Path, name: str, forged: bool, monkeypatch: pytest.MonkeyPatch
):
    outside = bag.parent / "outside.txt"
    outside.write_text("secret", "utf-8")
    name = name.format(outside=outside)
    opened = []
    digests = checking.digests
    monkeypatch.setattr(checking, "digests", lambda *of: (opened.append(of[0]), digests(*of))[1])
    for algorithm in ALGORITHMS:
        line = f"{hashlib.new(algorithm, b'secret').hexdigest()}  {name}\n"
        with (bag / f"manifest-{algorithm}.txt").open("a", encoding="utf-8") as file:
            file.write(line)
    if forged:
        retag(bag)
    lines = [line for line in wrong(bag) if not line.startswith("manifest")]
    assert lines == [
        f"{name}: in manifest-{algorithm}.txt, line 5: leads out of the edition's folder; not read"
        for algorithm in ALGORITHMS
    ]
    assert opened and all(path.is_relative_to(bag) for path in opened)


@pytest.mark.parametrize(
    ("name", "leads_out"),
    [
        ("data/x", False),
        ("data/a..b", False),
        ("data/..", True),
        ("..\\x", True),
        ("/x", True),
        ("\\x", True),
        ("~root/x", True),
        ("data/~x", False),
        ("d:/x", True),
    ],
)
def test_which_paths_climb(name: str, leads_out: bool):
    assert climbs(name) is leads_out


def test_links_are_named_and_not_followed(bag: Path):
    (bag / "data/facts.json").rename(bag.parent / "facts.json")
    (bag / "data/facts.json").symlink_to(bag.parent / "facts.json")
    (bag / "data/charts").rename(bag.parent / "charts")
    (bag / "data/charts").symlink_to(bag.parent / "charts")
    assert wrong(bag) == [
        "data/charts/rate.csv: missing",
        "data/charts: a link, not a file; not read",
        "data/facts.json: a link, not a file; not read",
        "data/facts.json: missing",
    ]


def test_a_pipe_does_not_hang_it(bag: Path):
    os.mkfifo(bag / "data/pipe")
    assert wrong(bag) == ["data/pipe: not a regular file; not read"]


def test_manifests_that_are_no_manifests(bag: Path):
    (bag / "manifest-sha256.txt").write_bytes(b"\xff\xfe")
    (bag / "manifest-sha512.txt").write_text("only-one-word\n")
    retag(bag)
    lines = wrong(bag)
    assert "manifest-sha256.txt: not UTF-8 text (byte 0)" in lines
    assert "manifest-sha512.txt:1: not a checksum and a path" in lines
    assert "data/facts.json: extra" in lines


def test_manifests_that_disagree(bag: Path):
    lines = (bag / "manifest-sha256.txt").read_text("utf-8").splitlines(keepends=True)
    (bag / "manifest-sha256.txt").write_text("".join([*lines[1:], lines[-1]]), "utf-8")
    retag(bag)
    name = lines[0].split()[1]
    again = lines[-1].split()[1]
    assert wrong(bag) == [
        f"manifest-sha256.txt: lacks 1 that another manifest has, such as '{name}'",
        f"manifest-sha256.txt:4: '{again}' stands in it twice",
    ]


def test_what_only_the_library_checks(bag: Path):
    info = bag / "bag-info.txt"
    info.write_text(info.read_text("utf-8").replace("Payload-Oxum: ", "Payload-Oxum: 9"), "utf-8")
    retag(bag)
    assert wrong(bag)[0].startswith("bagit.txt: not a valid bag: Payload-Oxum")


@pytest.mark.parametrize("encoding", ["zlib_codec", "hex", "rot13", "utf-16", "no-such", ""])
def test_tag_files_in_another_encoding_than_ours(bag: Path, encoding: str):
    declared = f"BagIt-Version: 1.0\nTag-File-Character-Encoding: {encoding}\n"
    (bag / "bagit.txt").write_text(declared, "utf-8")
    retag(bag)
    said = "bagit.txt: not what every edition declares: BagIt-Version 1.0, tag files in UTF-8"
    assert wrong(bag) == [said]


@pytest.mark.parametrize("algorithm", ALGORITHMS)
@pytest.mark.parametrize(
    "changed",
    [
        lambda text: text.replace(b"\n", b"\r\n"),
        lambda text: re.sub(rb"^[0-9a-f]+", lambda found: found[0].upper(), text),
        lambda text: text.replace(b"  ", b" *"),
        lambda text: text.replace(b"  ", b"\t"),
        lambda text: text.replace(b"  ", b"  ./"),
        lambda text: text + b"\n",
        lambda text: text.rstrip(b"\n"),
        lambda text: b"".join(text.splitlines(keepends=True)[::-1]),
    ],
)
def test_a_tag_manifest_in_another_form(bag: Path, algorithm: str, changed):
    """Nothing has its checksum; so its bytes have to be those that an edition is written with."""
    path = bag / f"tagmanifest-{algorithm}.txt"
    before = path.read_bytes()
    path.write_bytes(changed(before))
    assert path.read_bytes() != before
    (line,) = wrong(bag)
    assert line.startswith(f"{path.name}: not as an edition is written")


def test_a_tag_file_that_no_manifest_lists(bag: Path):
    for algorithm in ALGORITHMS:
        path = bag / f"tagmanifest-{algorithm}.txt"
        lines = path.read_text("utf-8").splitlines(keepends=True)
        path.write_text("".join(line for line in lines if "bag-info" not in line), "utf-8")
    with (bag / "bag-info.txt").open("a") as file:
        file.write("Contact-Name: Somebody else\n")
    assert all("not as an edition is written" in line for line in wrong(bag))


def test_two_names_that_differ_in_how_accents_are_put(bag: Path):
    for name in ("caf\u00e9.csv", "cafe\u0301.csv"):
        (bag / "data" / name).write_text(name, "utf-8")
    assert len([line for line in wrong(bag) if "extra" in line]) == 2


def test_a_manifest_that_would_take_for_ever(bag: Path):
    """A line of spaces, and names with what no file's name can hold."""
    with (bag / "manifest-sha256.txt").open("ab") as file:
        file.write(b"0" * 64 + b" " * 200_000 + b"x" + b" " * 200_000 + b"y\n0  a\0b\n")
    retag(bag)
    assert any("a\\x00b" in line and "not read" in line for line in wrong(bag))


def test_a_tag_file_that_is_too_large_is_not_read(bag: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(manifests, "MOST", 100)
    assert "manifest-sha512.txt: more than 0 MB, which no edition's is; not read" in wrong(bag)


@pytest.mark.parametrize("target", ["/dev/zero", "pipe", "/etc/passwd", "itself"])
def test_tag_files_that_are_links_or_devices(bag: Path, target: str):
    path = bag / "manifest-sha256.txt"
    path.unlink()
    if target == "pipe":
        os.mkfifo(path)
    else:
        path.symlink_to(path if target == "itself" else target)
    assert any(line.startswith("manifest-sha256.txt") and "not read" in line for line in wrong(bag))


@pytest.mark.parametrize(
    ("name", "deep", "said"), [("x", 1500, "deeper"), ("x" * 250, 30, "too long")]
)
def test_folders_within_folders(bag: Path, name: str, deep: int, said: str):
    """As deep as they can be named, and deeper."""
    at = os.open(bag / "data", os.O_RDONLY)
    for _ in range(deep):
        os.mkdir(name, dir_fd=at)
        inner = os.open(name, os.O_RDONLY, dir_fd=at)
        os.close(at)
        at = inner
    os.close(at)
    try:
        ((_, line),) = check(bag).wrong
    finally:
        subprocess.run(["rm", "-rf", str(bag / "data" / name)], check=True)
    assert said in line


def test_a_topic_and_the_whole_archive(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    archive = tmp_path / "archive"
    for number in (1, 2, 10):
        edition(archive / "long-grass", number)
    other = edition(archive / "sea-air", 1)
    (archive / "long-grass" / ".new.7").mkdir()
    verify([str(archive / "long-grass")])
    said = capsys.readouterr().out.splitlines()
    assert [line.split(", ")[1] for line in said] == [
        f"edition {number} of long-grass" for number in (1, 2, 10)
    ]
    (other / "data/facts.json").chmod(0o644)
    (other / "data/facts.json").write_text("")
    assert wrong(archive) == ["sea-air/1/data/facts.json: damaged (sha512 differs)"]
    assert len(capsys.readouterr().out.splitlines()) == 3


def test_a_folder_whose_name_is_no_text(bag: Path, capsys: pytest.CaptureFixture[str]):
    odd = bag.rename(os.fsdecode(os.fsencode(bag) + b"\xff\n"))
    verify([str(odd)])
    (line,) = capsys.readouterr().out.splitlines()
    assert "2\\udcff\\n: whole: 10 files" in line and line.encode()


def test_no_edition_here(tmp_path: Path):
    (tmp_path / "notes.txt").write_text("")
    for path in (tmp_path, tmp_path / "nowhere", tmp_path / "notes.txt"):
        (line,) = wrong(path)
        assert line.startswith(f"{path}: no archived edition here; expected an edition's folder")


def state(folder: Path) -> dict[str, tuple]:
    """Content, mode and times of all that is in a folder; a folder's time tells of new files."""
    return {
        str(path.relative_to(folder)): (
            path.stat().st_mtime_ns,
            path.stat().st_mode,
            path.read_bytes() if path.is_file() else b"",
        )
        for path in (folder, *sorted(folder.rglob("*")))
    }


def test_it_only_reads(bag: Path, tmp_path: Path):
    whole = tmp_path / "copied" / "anywhere"
    shutil.copytree(bag, whole)
    for path in (*whole.rglob("*"), whole):
        path.chmod(path.stat().st_mode & ~0o222)
    before = state(whole)
    verify([str(whole)])
    assert state(whole) == before
    (bag / "data/facts.json").write_text("")
    before = state(bag)
    assert wrong(bag)
    assert state(bag) == before


def test_a_path_that_has_accents_as_another_system_writes_them(tmp_path: Path):
    made = tmp_path / "making"
    made.mkdir()
    composed, apart = "caf\u00e9.csv", "cafe\u0301.csv"
    (made / composed).write_text("x")
    seal(made, described(software={"good-length": None, "bagit": "1"}))
    (made / "data" / composed).rename(made / "data" / apart)
    verify([str(made)])
    assert library_finds_it_whole(made)


def test_the_program_of_the_format_agrees(bag: Path):
    """bagit.py --validate, as README.md of an edition says it, on a whole bag and a damaged one."""
    program = [sys.executable, bagit.__file__, "--quiet", "--validate", str(bag)]
    assert subprocess.run(program, capture_output=True, check=False).returncode == 0
    (bag / "data/facts.json").write_text("[0]")
    assert subprocess.run(program, capture_output=True, check=False).returncode == 1

"""The ledger's file: what was added is read again; what was changed by hand is named."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from pipeline.contracts.comparison import Against
from pipeline.errors import UserError
from pipeline.ledger.book import COLUMNS, add_lines, ledger_of, read_ledger
from tests.finding_makers import asks
from tests.ledger_makers import look

MEND = "put the file back as it was kept, or delete it to begin anew"
ODD = asks(
    "economy",
    "groups",
    balls=(("ground", ('The "Old, new" Ground\n', "=1+1")), ("overs", ("7-15",))),
    sides=(("'=odd",), ("@home, ö",)),
    control=Against(competition=("Sand Cup",), balls=(("phase", ("death",)),)),
)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A ledger of three lines."""
    path = ledger_of(tmp_path, "hail")
    add_lines(path, [look(0), look(1)])
    add_lines(path, [look(2, role="expected")])
    return path


def refused(path: Path) -> str:
    with pytest.raises(UserError) as caught:
        read_ledger(path)
    return str(caught.value)


def test_lines_are_read_as_they_were_added_and_the_file_is_plain_to_read(book: Path):
    assert read_ledger(book) == [look(0), look(1), look(2, role="expected")]
    header, first, *_ = book.read_text("utf-8").splitlines()
    assert header == ",".join(COLUMNS)
    told = f"{look(0).asks.look},change of economy: all balls,2000,2017,-0.031,0.02,"
    assert first.startswith(f"2024-05-01,headline,{told}")


@pytest.mark.parametrize(
    "line",
    [
        look(asks=ODD),
        look(value=None, p=None, p_held=None, p_step=None),
        look(p=1e-300, p_held=0.0, value=1 / 3, p_control=1.0),
        look(asks=asks(sides=None, every="quarter", known=("bowler_kind",), at_least="300 balls")),
    ],
)
def test_any_line_comes_back(tmp_path: Path, line):
    path = tmp_path / "a" / "b.csv"
    add_lines(path, [line])
    again = read_ledger(path)[0]
    assert again.asks == line.asks and again.p == line.p and again.p_held == line.p_held
    assert again.value == (None if line.value is None else pytest.approx(line.value, rel=1e-11))
    add_lines(path, [line])
    assert len(read_ledger(path)) == 2


def test_no_ledger_and_a_deleted_one_hold_nothing(book: Path):
    book.unlink()
    assert read_ledger(book) == [] == read_ledger(None)
    add_lines(book, [look(3)])
    assert read_ledger(book) == [look(3)]


def test_other_ends_of_lines_and_none_at_the_end_are_the_same_ledger(book: Path):
    text = book.read_bytes()
    for other in (text.replace(b"\n", b"\r\n"), text.rstrip(b"\n"), b"\xef\xbb\xbf" + text):
        book.write_bytes(other)
        assert len(read_ledger(book)) == 3
        add_lines(book, [look(7)])
        assert read_ledger(book)[3] == look(7)


def swapped(text: str) -> str:
    header, first, second, third = text.splitlines(keepends=True)
    return header + second + first + third


HANDS: dict[str, tuple[Callable[[str], str], str]] = {
    "a value": (lambda text: text.replace("-0.031", "-0.013", 1), ":2:1: not as the project wrote"),
    "a p": (lambda text: text.replace("0.02,1.0", "0.2,1.0"), ":2:1: not as the project wrote"),
    "its words": (lambda text: text.replace("all balls", "some"), ":2:1: not as the project"),
    "its last line": (
        lambda text: text.replace("expected", "headline"),
        ":4:1: not as the project",
    ),
    "a line out": (
        lambda text: "".join(text.splitlines(True)[:1] + text.splitlines(True)[2:]),
        ":2",
    ),
    "lines moved": (swapped, ":2:1: not as the project wrote it"),
    "a line twice": (lambda text: text + text.splitlines(True)[3], ":5:1: not as"),
    "half a line": (lambda text: text[:-30], ":4:1: not"),
    "an open quote": (lambda text: text + '2024,"', ":5:1: not readable (unexpected end of data)"),
    "a stray line": (lambda text: text + "a note of mine\n", ":5:1: not as the project wrote it"),
    "a blank line": (lambda text: text + "\n", ":5:1: not as the project wrote it"),
    "nothing": (lambda text: "", ":1:1: not the header of a ledger; expected date,as,look"),
    "no header": (lambda text: text.partition("\n")[2], ":1:1: not the header of a ledger"),
}


@pytest.mark.parametrize("hand", HANDS)
def test_what_was_changed_by_hand_is_an_error_with_its_line(book: Path, hand: str):
    change, said = HANDS[hand]
    book.write_text(change(book.read_text("utf-8")), "utf-8")
    before = book.read_bytes()
    told = refused(book)
    assert told.startswith(f"{book}{said}") and MEND in told
    with pytest.raises(UserError):
        add_lines(book, [look(9)])
    assert book.read_bytes() == before


def test_what_is_no_file_of_text_is_an_error_and_not_begun_anew(book: Path):
    text = book.read_bytes()
    book.write_bytes(text + b"\xff")
    assert "not UTF-8 text" in refused(book)
    book.write_bytes(text + b"\0")
    assert "NUL byte" in refused(book)
    book.unlink()
    book.mkdir()
    assert f"{book}: not a file; {MEND}" in refused(book)
    book.rmdir()
    book.symlink_to("nowhere.csv")
    assert f"{book}: no such file; {MEND}" in refused(book)
    book.unlink()
    book.parent.rmdir()
    book.parent.write_text("", "utf-8")
    assert "is to be a folder that can be read" in refused(book)
    with pytest.raises(UserError):
        add_lines(book, [look(9)])


def test_a_disk_that_takes_nothing_leaves_the_lines_that_were(book: Path, monkeypatch):
    before = book.read_bytes()

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(UserError, match="can't be written"):
        add_lines(book, [look(9)])
    assert book.read_bytes() == before and list(book.parent.iterdir()) == [book]


@pytest.mark.parametrize("after", [0.02, 0.05, 0.11, 0.17])
def test_a_writer_that_is_killed_leaves_whole_lines_in_their_order(tmp_path: Path, after: float):
    path = tmp_path / "hail.csv"
    add_lines(path, [look(0)])
    child = os.fork()
    if child == 0:
        at = 0
        while True:
            at += 1
            add_lines(path, [look(at), look(at + 1000)])
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    lines = read_ledger(path)
    assert lines[0] == look(0) and len(lines) % 2 == 1
    count = (len(lines) - 1) // 2
    assert lines[1:] == [one for at in range(1, count + 1) for one in (look(at), look(at + 1000))]
    add_lines(path, [look(5000)])
    assert read_ledger(path)[-1] == look(5000)
    assert list(tmp_path.iterdir()) == [path]

"""Files of text as columns: quickly where they are plain, by lines where not; alike either way."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from datetime import date
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pipeline.date_forms import check_form, day_of
from pipeline.errors import Problem, UserError
from pipeline.ingest import match_blocks as blocks_of_matches
from pipeline.ingest import rows_aside, text_csv, text_reader
from pipeline.ingest.match_blocks import match_blocks
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.text_blocks import Block, File
from pipeline.ingest.text_checks import check_known, check_present, flag, whole
from pipeline.ingest.text_dates import Days
from pipeline.ingest.text_reader import Reader
from tests.builders import write_folder, write_zip

quick = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
HEADER = ["match_id", "over", "note"]
cells = st.text(alphabet="ab,\"\n é1'", max_size=5)


def picked(header: list[str], file: str) -> dict[str, int]:
    missing = [name for name in HEADER if name not in header]
    if missing:
        raise UserError(Problem(file, f"nothing for {', '.join(missing)}"))
    return {name: header.index(name) for name in HEADER}


def as_csv(rows: list[list[str]], header: list[str] = HEADER, end: str = "\n") -> str:
    text = io.StringIO(newline="")
    csv.writer(text, lineterminator=end).writerows([header, *rows])
    return text.getvalue()


def told(blocks: list[Block]) -> dict[str, list[list[str]]]:
    """The cells of each file, in the order of their places."""
    found: dict[str, list[tuple[int, list[str]]]] = {}
    for block in blocks:
        for row in range(len(block)):
            file = block.files[block.file[row]].name
            texts = [block.cells(row)[name] for name in HEADER]
            found.setdefault(file, []).append((int(block.place[row]), texts))
    return {file: [texts for _, texts in sorted(rows)] for file, rows in found.items()}


def read(path: Path, names: list[str]) -> tuple[Reader, dict[str, list[list[str]]]]:
    reader = Reader(path, picked)
    return reader, told(list(reader.blocks(names)))


def trimmed(rows: list[list[str]]) -> list[list[str]]:
    """Rows that have any cell at all, without spaces around their cells."""
    return [[cell.strip() for cell in row] for row in rows if any(row)]


def small_pieces(monkeypatch: pytest.MonkeyPatch, size: int = 100) -> None:
    """Every file counts as large, and pieces are of some lines."""
    monkeypatch.setattr(text_reader, "BATCH", size)
    monkeypatch.setattr(text_csv, "PIECE", size)


@given(
    files=st.lists(st.lists(st.lists(cells, min_size=3, max_size=3), max_size=5), max_size=4),
    end=st.sampled_from(["\n", "\r\n"]),
)
@quick
def test_many_files_at_once_are_what_the_library_reads(tmp_path: Path, files, end: str):
    names = {f"f{n}.csv": as_csv(rows, end=end) for n, rows in enumerate(files)}
    path = write_zip(tmp_path / "m.zip", names)
    reader, found = read(path, sorted(names))
    kept = [trimmed(rows) for rows in files]
    wanted = {f"f{n}.csv": rows for n, rows in enumerate(kept) if rows}
    assert reader.problems == [] and found == wanted


@given(rows=st.lists(st.lists(cells, min_size=3, max_size=3), max_size=30))
@quick
def test_a_large_file_in_pieces_is_the_same(tmp_path: Path, rows: list[list[str]]):
    path = tmp_path / "m.csv"
    path.write_text("\ufeff\n" + as_csv(rows), "utf-8", newline="")
    with pytest.MonkeyPatch.context() as patch:
        small_pieces(patch)
        reader, found = read(path, ["m.csv"])
    kept = trimmed(rows)
    assert reader.problems == [] and found == ({"m.csv": kept} if kept else {})


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("quoting", [csv.QUOTE_ALL, csv.QUOTE_MINIMAL])
def test_plain_files_of_any_writer_are_read_quickly(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, large: bool, end: str, quoting: int
):
    """Quoted throughout, a mark of byte order, blank lines, cells of two lines, no last end."""

    def slow(*of: object) -> None:
        raise AssertionError("by lines")

    monkeypatch.setattr(text_reader, "read_by_line", slow)
    rows = [["m", "1", "é"], ["m", "2", 'two\nlines "of" it, and a comma']] * 20
    text = io.StringIO(newline="")
    csv.writer(text, lineterminator=end, quoting=quoting).writerows([HEADER, *rows])
    path = tmp_path / "m.csv"
    whole = f"\ufeff{end}{text.getvalue()}".replace(f"{end}m,2", f"{end}{end}m,2")
    path.write_bytes(whole.removesuffix(end).encode())
    if large:
        small_pieces(monkeypatch)
    reader, found = read(path, ["m.csv"])
    assert reader.problems == [] and found == {"m.csv": rows}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("match_id,over,note\na,1,x,y\n", ":2:1: 4 cells under 3 columns; quote commas"),
        ("match_id,over,note\na,1,x\na,1\nb\n", ":3:1: 2 cells under 3 columns, as on 1 more"),
        ("match_id,over,note\na,1,x\n\na,1", ":4:1: the file ends in the middle of this row"),
        ('match_id,over,note\na,1,x\n\n"a,1,x\n', ":4:1: not a readable CSV: a quotation mark is"),
        ('match_id,over,note\na,"1"2,x\n', ":2:1: not a readable CSV: a quotation mark inside a"),
        (
            "match_id,over,note\na,1,\0\n",
            ":2:1: not a text file (a NUL byte at 23); fetch it again",
        ),
        ("match_id,over\na,1\n", ": nothing for note"),
        ("\n\n", ": not a readable CSV: there is nothing in it"),
    ],
)
@pytest.mark.parametrize("large", [False, True])
def test_what_is_wrong_in_a_file_is_told_with_its_line_and_the_others_are_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str, message: str, large: bool
):
    good = as_csv([["g", "1", "é"]] * 30)
    folder = write_folder(tmp_path / "f", {"a.csv": good, "b.csv": text, "c.csv": good})
    if large:
        small_pieces(monkeypatch, 10)
        reader, found = read(folder / "b.csv", ["b.csv"])
        assert found == {}
    else:
        reader, found = read(folder, ["a.csv", "b.csv", "c.csv"])
        assert found == dict.fromkeys(("a.csv", "c.csv"), [["g", "1", "é"]] * 30)
    (problem,) = reader.problems
    assert f"b.csv{message}" in str(problem)


def test_bytes_that_are_no_text_are_told_with_their_place(tmp_path: Path):
    path = tmp_path / "m.csv"
    path.write_bytes(as_csv([["a", "1", "é"]]).encode("latin-1"))
    reader, found = read(path, ["m.csv"])
    assert found == {} and "m.csv:2:1: not UTF-8 text (byte 23)" in str(reader.problems[0])


@pytest.mark.parametrize("name", ["m.csv", "m.parquet"])
def test_mistakes_are_one_problem_a_kind_and_file_with_the_first_line(tmp_path: Path, name: str):
    rows = [["m1", "1", "x"], ["m1", "two", "x"], ["m2", "x", "x"], ["m3", "2.0", ""]]
    path = tmp_path / name
    if name == "m.csv":
        path.write_text(as_csv(rows).replace("m2,", "\n\nm2,"), "utf-8")
    else:
        texts = [[text or None for text in column] for column in zip(*rows, strict=True)]
        pq.write_table(pa.table(dict(zip(HEADER, texts, strict=True))), path)
    reader, mistakes = Reader(path, picked), Mistakes()
    (block,) = reader.blocks([name])
    assert whole(block, "over", mistakes).tolist() == [1, 0, 0, 2]
    check_present(block, HEADER, mistakes)
    check_known(block, "note", ["y"], "note", mistakes)
    blank = 7 if name == "m.csv" else 5
    assert [str(problem).removeprefix(f"{path}:") for problem in mistakes.problems()] == [
        "3:1: 'two' is no count for over; 1 more row like it, in matches m1 and m2",
        f"{blank}:1: note is blank",
        "2:1: unknown note 'x'; 2 more rows like it, in matches m1 and m2",
    ]
    assert mistakes.matches == {"m1", "m2", "m3"}


@pytest.mark.parametrize("text", ["1", "1.0", "True", ""])
def test_flags_are_read_in_any_of_their_spellings(tmp_path: Path, text: str):
    path = tmp_path / "m.csv"
    path.write_text(as_csv([["m", "0", text], ["m", "0", "maybe"]]), "utf-8")
    (block,) = Reader(path, picked).blocks(["m.csv"])
    mistakes = Mistakes()
    assert flag(block, "note", True, mistakes).tolist() == [True, True]
    assert flag(block, "none", False, mistakes).tolist() == [False, False]
    assert [problem.line for problem in mistakes.problems()] == [3]


def matches_of(reader: Reader, names: list[str], mistakes: Mistakes) -> list[list[tuple[str, str]]]:
    """The rows of each block, as match and note."""
    made = []
    for block in match_blocks(reader, names, mistakes, "test"):
        cells = [block.cells(row) for row in range(len(block))]
        made.append([(each["match_id"], each["note"]) for each in cells])
    return made


@pytest.mark.parametrize("pieces", [False, True])
@pytest.mark.parametrize("in_memory", [200_000, 3])
def test_a_match_stands_whole_in_a_block_whatever_the_order_of_the_rows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, pieces: bool, in_memory: int
):
    """Of a, c and e the rows stand together; b and d come back after others."""
    order = "aaabbbcccdddbbbeeeddd"
    rows = [[match, "1", str(n)] for n, match in enumerate(order)]
    path = tmp_path / "m.csv"
    path.write_text(as_csv(rows), "utf-8")
    if pieces:
        small_pieces(monkeypatch, 30)
        monkeypatch.setattr(blocks_of_matches, "BATCH", 30)
        monkeypatch.setattr(rows_aside, "IN_MEMORY", in_memory)
    found = matches_of(Reader(path, picked), ["m.csv"], Mistakes())
    assert (len(found) > 2) == pieces
    seen: list[str] = []
    for block in found:
        names = list(dict.fromkeys(match for match, _ in block))
        assert not set(names) & set(seen)
        seen += names
        for name in names:
            notes = [note for match, note in block if match == name]
            assert notes == [str(n) for n, match in enumerate(order) if match == name]
    assert sorted(seen) == list("abcde")


def test_a_match_with_a_file_of_its_own_is_not_taken_from_another_too(tmp_path: Path):
    texts = {
        "a.csv": as_csv([["a", "1", "own"]]),
        "b.csv": as_csv([["b", "1", "own"]]),
        "c.csv": as_csv([["d", "1", "other"], ["a", "1", "again"]]),
    }
    folder = write_folder(tmp_path / "f", texts)
    mistakes = Mistakes()
    found = matches_of(Reader(folder, picked), sorted(texts), mistakes)
    assert found == [[("a", "own"), ("b", "own")], [("d", "other")]]
    (problem,) = mistakes.problems()
    assert (
        str(problem)
        == f"{folder}/c.csv:3:1: match a has a file of its own too; keep one of the two"
    )
    assert mistakes.matches == set()


def test_a_match_of_all_rows_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    path = tmp_path / "m.csv"
    path.write_text(as_csv([["a", "1", "x"]] * 9 + [["b", "1", "x"]]), "utf-8")
    monkeypatch.setattr(blocks_of_matches, "BATCH", 10)
    monkeypatch.setattr(blocks_of_matches, "MOST_ROWS_OF_A_MATCH", 8)
    reader = Reader(path, picked)
    assert matches_of(reader, ["m.csv"], Mistakes()) == [[("b", "x")]]
    assert "match a has 9 rows; the most is 8: is match_id the right column?" in str(
        reader.problems[0]
    )


@pytest.mark.parametrize(
    ("text", "form", "day"),
    [
        ("2019-12-31", "YYYY-MM-DD", date(2019, 12, 31)),
        ("2019-1-31", "YYYY-MM-DD", None),
        ("31/12/2019", "DD/MM/YYYY", date(2019, 12, 31)),
        ("1/6/2019", "DD/MM/YYYY", date(2019, 6, 1)),
        ("12/31/2019", "DD/MM/YYYY", None),
        ("20191231", "YYYYMMDD", date(2019, 12, 31)),
        ("31 Dec 2019", "DD MMM YYYY", date(2019, 12, 31)),
        ("31 Dez 2019", "DD MMM YYYY", None),
        ("2019-12-31 23:30:00", "YYYY-MM-DD hh:mm:ss", date(2019, 12, 31)),
        ("0000-01-01", "YYYY-MM-DD", None),
        ("٢٠٢٠-٠٦-٠١", "YYYY-MM-DD", None),
    ],
)
def test_days_of_a_form(text: str, form: str, day: date | None):
    assert day_of(text, form) == day


@pytest.mark.parametrize("form", ["MM/YYYY", "DD/MM/YY", "DD/MM/MMM/YYYY", "day"])
def test_a_form_must_say_year_month_and_day(form: str):
    with pytest.raises(ValueError, match="must say YYYY, MM"):
        check_form(form)


@pytest.mark.parametrize(
    ("days", "likely"),
    [
        (["31/12/2019", "01/06/2019"], "day first? write date_format: DD/MM/YYYY for this source"),
        (["12/31/2019"], "month first? write date_format: MM/DD/YYYY for this source"),
        (
            ["01/06/2019"],
            "day first or month first? write date_format: DD/MM/YYYY or date_format: MM/DD/YYYY",
        ),
        (["June", "31/12/2019"], "not all of one form that is known"),
    ],
)
def test_all_days_that_are_none_are_one_problem_with_the_likely_form(
    tmp_path: Path, days: list[str], likely: str
):
    rows = [["a", "1", day] for day in days] * 50
    texts = {f"f{n}.csv": as_csv([["b", "1", "2019-06-01"], *rows]) for n in range(3)}
    folder = write_folder(tmp_path / "f", texts)
    read_days = Days("note")
    for block in Reader(folder, picked).blocks(sorted(texts)):
        found = read_days.read(block)
        assert np.isnat(found).sum() == 3 * len(rows)
    (problem,) = read_days.problems()
    more = f"{3 * len(rows) - 1} more rows like it, also in 2 other files; "
    said = f"{folder}/f0.csv:3:1: '{days[0]}' is no date; expected YYYY-MM-DD; {more}"
    assert str(problem).startswith(said) and likely in str(problem)
    assert read_days.matches == {"a"}


def test_a_file_of_a_zip_is_opened_anew(tmp_path: Path):
    path = write_zip(tmp_path / "m.zip", {"a.csv": "x"})
    opened: Callable = File(path, "a.csv").opened
    assert opened().read() == opened().read() == b"x"
    with pytest.raises(UserError, match=r"b\.csv: damaged in the archive"):
        File(path, "b.csv").opened()


def test_a_mark_too_many_in_a_large_file_is_told_without_reading_on_to_its_end():
    """Lines are counted once each; a piece is no longer than twice its size and a line."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(text_csv, "PIECE", 1_000)
        pieces = list(text_csv.pieces_of(io.BytesIO(b'a,"b\n' + b"c,d\n" * 5_000)))
    assert max(map(len, pieces)) < 2_100 and sum(map(len, pieces)) == 20_005
    assert not text_csv.plain_text(pieces[0])

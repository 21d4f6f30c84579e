"""Files of other letters, another delimiter, or a name in capitals: read, or told what to do."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest

from pipeline.errors import UserError
from pipeline.ingest import other_forms
from pipeline.ingest.other_forms import first_undecoded, is_utf_16
from tests.ball_tables import as_parquet, small, texts, write, zipped
from tests.builders import (
    COLUMNS,
    match,
    read_all,
    rows_of,
    source,
    write_csv,
    write_delivery_csv,
    write_folder,
    write_zip,
)
from tests.refusing import BALLS, said

LETTERS = {"utf-16": "UTF-16", "utf-16-le": "UTF-16", "latin-1": "Windows-1252 or Latin-1"}


def problems_of(path: Path, layout: str, **more: Any) -> list[str]:
    """What is told of a source, whether it stops or not."""
    try:
        return said(read_all(source(path, layout, **more))[1])
    except UserError as error:
        return said(error.problems)


def rows_text(venue: str = "Pebblé Field") -> str:
    rows = [{**row, "venue": venue} for row in rows_of(match(BALLS))]
    header = ",".join(rows[0])
    return "\n".join([header, *(",".join(map(str, row.values())) for row in rows), ""])


@pytest.mark.parametrize("layout", ["delivery-csv", "table", "ball-tables"])
@pytest.mark.parametrize("letters", LETTERS)
def test_a_csv_of_other_letters_says_what_it_looks_like(tmp_path: Path, layout: str, letters: str):
    if layout == "ball-tables":
        files = texts(
            {**small(), "matches": [{**row, "venue": "Pebblé"} for row in small()["matches"]]}
        )
        path = write(tmp_path / "own", files)
        (path / "matches.csv").write_bytes(files["matches.csv"].encode(letters))
    else:
        path = tmp_path / "t.csv"
        path.write_bytes(rows_text().encode(letters))
    lines = problems_of(path, layout, **({"columns": COLUMNS} if layout == "table" else {}))
    told = f"it looks like {LETTERS[letters]}: save it as UTF-8 (in a spreadsheet 'CSV UTF-8')"
    assert told in lines[0] and "fetch it again" not in lines[0]
    assert "encoding: " in lines[0] and ("t.csv:" in lines[0] or "matches.csv:" in lines[0])


@pytest.mark.parametrize("letters", ["utf-16", "latin-1"])
def test_a_match_file_of_other_letters_says_so(tmp_path: Path, letters: str):
    text = json.dumps(match(BALLS, venue="Pebblé"), ensure_ascii=False)
    folder = write_folder(tmp_path / "m", {"m1.json": match(BALLS)})
    (folder / "m2.json").write_bytes(text.encode(letters))
    tables, (problem,) = read_all(source(folder))
    assert "m2.json: not " in str(problem) and "table" not in str(problem)
    assert str(problem).endswith(f"it looks like {LETTERS[letters]}: save it as UTF-8")
    assert tables.matches["match_id"].to_pylist() == ["m1"]


def test_a_mark_of_byte_order_is_no_harm_in_any_layout(tmp_path: Path):
    text = json.dumps(match(BALLS))
    folder = write_folder(tmp_path / "m", {"m1.json": "\ufeff" + text})
    assert read_all(source(folder))[1] == []
    own = write(tmp_path / "own", {name: "\ufeff" + each for name, each in texts(small()).items()})
    assert read_all(source(own, "ball-tables"))[1] == []
    (tmp_path / "t.csv").write_text("\ufeff" + rows_text(), "utf-8")
    assert problems_of(tmp_path / "t.csv", "delivery-csv") == []


def test_bytes_of_no_letters_are_fetched_again(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_bytes(rows_text("x").encode().replace(b"x", b"\0", 1))
    assert "a NUL byte at" in (line := problems_of(path, "delivery-csv")[0])
    assert line.endswith("fetch it again")
    path.write_bytes(rows_text().encode()[:-3] + "é".encode()[:1])
    assert problems_of(path, "delivery-csv")[0].endswith("fetch it again")


@pytest.mark.parametrize("piece", [5, 64, 1 << 22])
@pytest.mark.parametrize("letters", ["utf-8", "utf-16"])
def test_the_byte_and_the_line_are_the_files(
    monkeypatch: pytest.MonkeyPatch, piece: int, letters: str
):
    monkeypatch.setattr(other_forms, "PIECE", piece)
    good = ("line é\n" * 30).encode(letters)
    bad = b"\xff" if letters == "utf-8" else b"\x00\xdc"
    wrong = first_undecoded(io.BytesIO(good + bad + good), letters, nul=False)
    assert wrong and (wrong.byte, wrong.line) == (len(good), 31)
    assert first_undecoded(io.BytesIO(good), letters, nul=False) is None


def test_what_looks_like_utf_16():
    assert is_utf_16("ab".encode("utf-16")) and is_utf_16("match,date".encode("utf-16-be"))
    assert not is_utf_16(b"") and not is_utf_16(b"match,date") and not is_utf_16(b"a\0bcdef")


def test_a_table_said_to_be_of_other_letters_names_the_line_of_the_file(tmp_path: Path):
    """Far behind the first piece that a library reads at once."""
    text = rows_text("Pebble Field")
    lines = text.splitlines(keepends=True)
    whole = lines[0] + "".join(lines[1:]) * 2_000
    path = tmp_path / "t.csv"
    path.write_bytes(whole.encode() + lines[1].replace("Pebble", "Pebbl\x81").encode("latin-1"))
    written = {"encoding": "windows-1252"}
    (line,) = problems_of(path, "table", columns=COLUMNS, written=written)
    at = len(whole) + lines[1].index("Pebble") + 5
    assert line.startswith(f"{path}:{len(whole.splitlines()) + 1}:1: not windows-1252 text")
    assert f"(byte {at}); mend 'encoding' in sources.yaml" in line


MARKS = {"semicolon": ";", "tab": "\t", "bar": "|"}


@pytest.mark.parametrize("layout", ["delivery-csv", "ball-tables"])
@pytest.mark.parametrize("name", MARKS)
def test_another_delimiter_is_named_with_what_to_do(tmp_path: Path, layout: str, name: str):
    path = tmp_path / "t.csv"
    path.write_text(rows_text().replace(",", MARKS[name]), "utf-8")
    if layout == "ball-tables":
        files = texts(small())
        files["deliveries.csv"] = files["deliveries.csv"].replace(",", MARKS[name])
        path = write(tmp_path / "own", files)
    line = problems_of(path, layout)[0]
    assert f".csv:1:1: its cells are kept apart by a {name}, not a comma: save it with" in line
    assert line.endswith(f"or read it as layout table with written: delimiter: {name}")


@pytest.mark.parametrize(("said_to_be", "found"), [("comma", "tab"), ("semicolon", "comma")])
def test_a_table_of_another_delimiter_points_to_its_setting(
    tmp_path: Path, said_to_be: str, found: str
):
    mark = {"comma": ",", **MARKS}[found]
    (tmp_path / "t.csv").write_text(rows_text().replace(",", mark), "utf-8")
    written = {"delimiter": said_to_be}
    line = problems_of(tmp_path / "t.csv", "table", columns=COLUMNS, written=written)[0]
    assert f"kept apart by a {found}, not a {said_to_be}: write delimiter: {found} under" in line


@pytest.mark.parametrize("name", ["m1_info.csv", "matches.csv"])
def test_another_delimiter_beside_the_rows_is_named(tmp_path: Path, name: str):
    text = {"m1_info.csv": "info;gender;female\n", "matches.csv": "match_id;winner\nm1;x\n"}[name]
    folder = write_folder(tmp_path / "rows", {name: text})
    write_csv(folder / "m1.csv", rows_of(match(BALLS)))
    assert (
        f"{name}:1:1: its cells are kept apart by a semicolon"
        in problems_of(folder, "delivery-csv")[0]
    )


def capitals(folder: Path) -> Path:
    for path in list(folder.iterdir()):
        path.rename(path.with_name(path.name.upper().replace("M1", "m1")))
    return folder


def test_capitals_in_a_files_ending_make_no_difference(tmp_path: Path):
    own = write(tmp_path / "own", texts(small()))
    wanted = read_all(source(own, "ball-tables"))[0]
    parquet = as_parquet(write(tmp_path / "parquet", texts(small())))
    members = {path.name.upper(): path.read_bytes() for path in parquet.iterdir()}
    for path in (capitals(own), zipped(tmp_path / "P.ZIP", members), capitals(parquet)):
        tables, problems = read_all(source(path, "ball-tables"))
        assert problems == [] and tables.deliveries.to_pylist() == wanted.deliveries.to_pylist()


def test_capitals_in_rows_and_match_files(tmp_path: Path):
    rows = write_delivery_csv(tmp_path / "rows", match(BALLS))
    wanted = read_all(source(rows, "delivery-csv"))[0]
    tables, problems = read_all(source(capitals(rows), "delivery-csv"))
    assert problems == [] and tables.people.to_pylist() == wanted.people.to_pylist()
    assert tables.deliveries.num_rows == 3
    alone = write_csv(tmp_path / "T.CSV", rows_of(match(BALLS)))
    assert problems_of(alone, "table", columns=COLUMNS) == []
    archive = write_zip(tmp_path / "M.ZIP", {"m1.JSON": match(BALLS)})
    assert read_all(source(archive))[0].matches["match_id"].to_pylist() == ["m1"]

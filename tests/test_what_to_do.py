"""What is said of a mistake names the cure that there is; what holds nothing is told too."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pipeline.contracts.quality import Odd
from pipeline.convert.convert import write_converted
from pipeline.errors import Problem, UserError, told
from pipeline.ingest import match_blocks
from pipeline.ingest.oddities import KINDS, merged
from pipeline.ingest.read import read_source
from pipeline.ingest.stage import ingest
from pipeline.terminal import fitted
from tests.ball_tables import small, texts, write
from tests.builders import (
    COLUMNS,
    FIXES,
    cleaned,
    delivery,
    match,
    quality_of,
    read_all,
    rows_of,
    source,
    write_csv,
    write_delivery_csv,
    write_folder,
    write_zip,
)
from tests.refusing import BALLS, said


def fallen(path: Path, kind: str) -> Path:
    rows = rows_of(match(BALLS))
    rows[2]["wicket_type"] = kind
    return write_csv(path, rows)


def test_a_kind_of_dismissal_points_to_the_map_of_a_table(tmp_path: Path):
    path = fallen(tmp_path / "t.csv", "ct behind")
    (line,) = said(read_all(source(path, "table", columns=COLUMNS))[1])
    assert line.endswith(
        "unknown kind of dismissal 'ct behind'; say which it is in sources.yaml, "
        "such as written: {values: {dismissal: {'ct behind': caught}}}"
    )
    written = {"values": {"dismissal": {"ct behind": "caught"}}}
    tables, problems = read_all(source(path, "table", columns=COLUMNS, written=written))
    assert problems == [] and tables.dismissals["kind"].to_pylist() == ["caught"]


def test_in_a_layout_that_has_no_map_the_kinds_are_named(tmp_path: Path):
    (line,) = said(read_all(source(fallen(tmp_path / "a.csv", "gone"), "delivery-csv"))[1])
    assert "'gone'; expected bowled, caught, " in line and "sources.yaml" not in line
    (line,) = said(read_all(source(fallen(tmp_path / "b.csv", "Bowled"), "delivery-csv"))[1])
    assert line.endswith("unknown kind of dismissal 'Bowled' (did you mean 'bowled'?)")
    wicket = {"kind": "bowld", "player_out": "A Batt"}
    archive = write_zip(tmp_path / "m.zip", {"m1.json": match([delivery(wicket=wicket)])})
    assert said(read_all(source(archive))[1])[0].endswith("(did you mean 'bowled'?)")


@pytest.mark.parametrize("left", [True, False])
def test_going_on_without_them_is_offered_where_some_are_left(tmp_path: Path, left: bool):
    members: dict[str, Any] = {"m1.json": "{", **({"m2.json": match(BALLS)} if left else {})}
    given = source(write_zip(tmp_path / "m.zip", members))
    with pytest.raises(UserError) as caught:
        ingest(given, tmp_path / "out")
    last = str(caught.value.problems[-1])
    assert ("on_error: quarantine" in last) == left
    assert last.endswith("mend them: without them no match is left") == (not left)
    with pytest.raises(UserError, match="nothing written; mend them"):
        write_converted(given, tmp_path / "own", "csv")


def test_a_cure_is_never_cut():
    cure = "drop the line, or write as its old: " + "; ".join(f"wides={n}" for n in range(90))
    line = next(
        told(UserError(Problem("f" * 500, f"'{'m' * 500}' and {'n' * 500}", 3, 1, cure=cure)))
    )
    assert line.endswith(f"…{'n' * 72}; {cure}") and line.startswith("ffff")
    assert len(line) - len(cure) == 150
    short = Problem("a.csv", "no", 3, 1, cure="write yes")
    assert next(told(UserError(short))) == str(short) == "a.csv:3:1: no; write yes"
    assert fitted("a" * 400, kept="b") == fitted("a" * 400)


def test_the_delivery_that_a_correction_should_name_is_told_whole(tmp_path: Path):
    pebbles = {"m1.json": match(BALLS)}
    cell = "batter_id=id-a; bowler_id=id-q; non_striker_id=id-b; runs_batter=3"
    line = f'm1,1,1,1,,,delivery,"{cell}",,why,score,me,2026-01-01\n'
    with pytest.raises(UserError) as caught:
        cleaned(
            tmp_path / ("long-" * 30),
            {"corrections": FIXES + line},
            pebbles=pebbles,
        )
    (printed,) = told(caught.value)
    assert "old is not the whole delivery as the data have it" in printed
    right = "batter_id=id-a; non_striker_id=id-b; bowler_id=id-q; runs_batter=1"
    assert printed.endswith(f"drop the line, or write as its old: {right}")
    again = f'm1,1,1,1,,,delivery,"{right}",,why,score,me,2026-01-01\n'
    data = cleaned(tmp_path / "b", {"corrections": FIXES + again}, pebbles=pebbles)
    assert quality_of(data)["counts"]["deliveries"] == 2


def odd_of(path: Path) -> dict[str, Odd]:
    found = list(read_source(source(path, "delivery-csv")))
    assert [problem for part in found for problem in part.problems] == []
    return merged(part.tables.odd for part in found)


def test_matches_that_are_told_of_and_have_no_row_are_counted(tmp_path: Path):
    folder = write_delivery_csv(tmp_path / "rows", match(BALLS))
    write_csv(folder / "other.csv", rows_of(match(BALLS), "m5"))
    (folder / "m2_info.csv").write_text("info,gender,female\n", "utf-8")
    (folder / "matches.csv").write_text("match_id,winner\nm1,Northmoor\nm3,Northmoor\n", "utf-8")
    (folder / "innings.csv").write_text("match_id,innings,declared\nm4,1,1\nm5,1,1\n", "utf-8")
    odd = odd_of(folder)["told_of_without_deliveries"]
    assert (odd.count, odd.examples) == (3, ["m2", "m3", "m4"])


def test_a_match_that_is_left_out_or_unread_is_told_as_that_alone(tmp_path: Path):
    folder = write_delivery_csv(tmp_path / "rows", match(BALLS))
    rows = [{**row, "wides": "x"} for row in rows_of(match(BALLS), "m2")]
    write_csv(folder / "m2.csv", rows)
    (folder / "m3.csv").write_text("a,b\n1\n", "utf-8")
    for name in ("m2", "m3"):
        (folder / f"{name}_info.csv").write_text("info,gender,female\n", "utf-8")
    found = list(read_source(source(folder, "delivery-csv")))
    assert sum(len(part.problems) for part in found) > 1
    assert merged(part.tables.odd for part in found)["told_of_without_deliveries"].count == 0


def test_a_file_of_a_header_alone_is_counted(tmp_path: Path):
    folder = write_delivery_csv(tmp_path / "rows", match(BALLS))
    header = (folder / "m1.csv").read_text("utf-8").splitlines()[0]
    (folder / "m2.csv").write_text(f"{header}\n", "utf-8")
    (folder / "m3.csv").write_text(f"{header}\n{',' * header.count(',')}\n", "utf-8")
    odd = odd_of(folder)["files_without_deliveries"]
    assert (odd.count, odd.examples) == (2, [f"{folder}/m2.csv", f"{folder}/m3.csv"])
    (folder / "m2.csv").unlink()
    (folder / "m3.csv").unlink()
    assert odd_of(folder)["files_without_deliveries"].count == 0


def test_a_part_of_our_own_tables_with_a_header_alone_is_counted(tmp_path: Path):
    files = texts(small())
    files["deliveries-2.csv"] = files["deliveries.csv"].splitlines()[0] + "\n"
    path = write(tmp_path / "own", files)
    found = list(read_source(source(path, "ball-tables")))
    odd = merged(part.tables.odd for part in found)["files_without_deliveries"]
    assert odd.examples == [f"{path}/deliveries-2.csv"]


def test_every_kind_of_oddity_has_its_title():
    from pipeline.clean.quality_page import ODD

    assert set(KINDS) <= set(ODD)


def test_a_match_of_all_rows_is_named_by_the_sources_own_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """Its rows are read from a plain copy in a folder that is gone afterwards."""
    rows = [row for name in ("m1", "m2") for row in rows_of(match(BALLS * 4), name)]
    path = write_csv(tmp_path / "t.csv", rows)
    path.write_text(path.read_text("utf-8").replace(",", ";"), "utf-8")
    monkeypatch.setattr(match_blocks, "BATCH", 10)
    monkeypatch.setattr(match_blocks, "MOST_ROWS_OF_A_MATCH", 8)
    written = {"delimiter": "semicolon"}
    _, problems = read_all(source(path, "table", columns=COLUMNS, written=written))
    assert problems and {problem.file for problem in problems} == {str(path)}


def test_a_folder_of_one_match_and_nothing_beside_it_has_nothing_odd(tmp_path: Path):
    folder = write_folder(tmp_path / "rows", {"m1_info.csv": "info,gender,female\n"})
    write_csv(folder / "m1.csv", rows_of(match(BALLS)))
    odd = odd_of(folder)
    assert not odd["told_of_without_deliveries"].count + odd["files_without_deliveries"].count

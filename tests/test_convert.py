"""`python -m pipeline convert`: every layout into our own and back, equal table by table."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import Any

import pytest

from pipeline.config.project import Source
from pipeline.convert.command import convert
from pipeline.convert.convert import write_converted
from pipeline.convert.write import TableWriters
from pipeline.errors import UserError
from pipeline.ingest.columns import Tables
from tests.ball_tables import small, texts, write, zipped
from tests.builders import (
    COLUMNS,
    delivery,
    match,
    read_all,
    rows_of,
    source,
    write_csv,
    write_delivery_csv,
    write_folder,
    write_zip,
)
from tests.untidy import matches as untidy

NAMES = ("deliveries", "dismissals", "matches", "innings", "people")
BALLS = [delivery(1), delivery(0, wides=2), delivery(4, noballs=1), delivery(0, legbyes=1, byes=2)]
BALLS += [delivery(0, wicket={"kind": "retired hurt", "player_out": "A Batt"})]
WICKETS = [
    {"kind": kind, "player_out": name}
    for kind, name in (("caught", "A Batt"), ("run out", "B Batt"))
]


def worlds(tmp_path: Path) -> dict[str, Source]:
    """A source of each layout."""
    odd = [match([*BALLS, {**delivery(0), "wickets": WICKETS}]), *untidy()]
    odd[0]["info"] |= {"venue": 'The "Old", Field', "dates": ["2020-06-01", "2020-06-03"]}
    odd[0]["innings"] += [
        {"team": "Southfen", "overs": [], "forfeited": True, "penalty_runs": {"pre": 5}},
        {"team": "Southfen", "overs": [{"over": 0, "deliveries": []}], "super_over": True},
    ]
    odd[0]["innings"][1]["target"] = {"runs": 9, "overs": 40.2}
    odd[0]["innings"][0]["miscounted_overs"] = {"0": {"balls": "5"}}
    members = {f"m{at}.json": found for at, found in enumerate(odd, start=1)}
    csvs = write_csv(tmp_path / "t.csv", rows_of(match(BALLS)))
    return {
        "match-json": source(write_folder(tmp_path / "json", members)),
        "delivery-csv": source(write_delivery_csv(tmp_path / "rows", match(BALLS)), "delivery-csv"),
        "table": source(csvs, "table", columns=COLUMNS, constants={"match_type": "one-day"}),
        "ball-tables": source(write(tmp_path / "own", texts(small())), "ball-tables"),
    }


def in_order(tables: Tables) -> dict[str, list[dict[str, Any]]]:
    """Each table's rows, matches in the order of their ids."""
    rows = {name: getattr(tables, name).to_pylist() for name in NAMES}
    return {
        name: sorted(each, key=lambda row: row.get("match_id", "")) for name, each in rows.items()
    }


@pytest.mark.parametrize("form", ["csv", "parquet"])
@pytest.mark.parametrize("layout", ["match-json", "delivery-csv", "table", "ball-tables"])
def test_a_round_trip_gives_equal_tables(tmp_path: Path, layout: str, form: str):
    given = worlds(tmp_path)[layout]
    before, _ = read_all(given)
    converted = write_converted(given, tmp_path / "new", form)
    assert converted.left_out == []
    folder = tmp_path / "new"
    members: dict[str, str | bytes] = {p.name: p.read_bytes() for p in folder.iterdir()}
    assert set(members) == {f"{name}.{form}" for name in NAMES}
    for path in (folder, zipped(tmp_path / "new.zip", members)):
        after, problems = read_all(source(path, "ball-tables"))
        assert problems == []
        for name, rows in in_order(before).items():
            assert in_order(after)[name] == rows, name
    assert converted.rows["deliveries"] == before.deliveries.num_rows > 0


def test_cells_are_quoted_where_they_must_be_and_nowhere_else(tmp_path: Path):
    write_converted(worlds(tmp_path)["match-json"], tmp_path / "new", "csv")
    text = (tmp_path / "new" / "matches.csv").read_text("utf-8")
    assert '"The ""Old"", Field"' in text
    balls = (tmp_path / "new" / "deliveries.csv").read_text("utf-8")
    assert '"' not in balls and ",1,0,0,0,0,0,0,1\n" in balls
    assert len(list(csv.reader(io.StringIO(text)))) > 1


def test_what_is_there_is_not_written_over(tmp_path: Path):
    given = worlds(tmp_path)["table"]
    taken = write(tmp_path / "taken", {"mine.txt": "mine"})
    with pytest.raises(UserError, match="is there and not empty; name a new folder"):
        write_converted(given, taken, "csv")
    assert [path.name for path in taken.iterdir()] == ["mine.txt"]
    (tmp_path / "empty").mkdir()
    write_converted(given, tmp_path / "empty", "csv")
    assert (tmp_path / "empty" / "deliveries.csv").exists()


def test_it_goes_to_no_link_and_not_into_the_source(tmp_path: Path, monkeypatch):
    given = source(write(tmp_path / "own", texts(small())), "ball-tables")
    with pytest.raises(UserError, match=r"own/new: is inside the source, .*; name a folder beside"):
        write_converted(given, tmp_path / "own" / "new", "csv")
    (tmp_path / "empty").mkdir()
    (tmp_path / "link").symlink_to("empty")
    with pytest.raises(UserError, match="link: is a link; name a new folder"):
        write_converted(given, tmp_path / "link", "csv")
    monkeypatch.chdir(tmp_path / "empty")
    write_converted(given, Path(), "csv")
    assert (tmp_path / "empty" / "deliveries.csv").exists()


@pytest.mark.parametrize("on_error", ["stop", "quarantine"])
def test_bad_files_stop_it_or_are_named(tmp_path: Path, on_error: str):
    folder = write_folder(tmp_path / "json", {"m1.json": match(BALLS), "m2.json": "{"})
    given = source(folder, on_error=on_error)
    if on_error == "stop":
        with pytest.raises(UserError, match=r"m2\.json: not readable JSON"):
            write_converted(given, tmp_path / "new", "csv")
        assert sorted(path.name for path in tmp_path.iterdir()) == ["json"]
        return
    converted = write_converted(given, tmp_path / "new", "csv")
    assert ["m2.json" in problem.file for problem in converted.left_out] == [True]
    assert converted.rows["matches"] == 1


SOURCES = """sources:
  - id: pebbles
    path: {path}
    layout: match-json
    title: Pebble Cup
    publisher: nobody
    licence: CC0-1.0
    retrieved: 2020-07-01
    on_error: quarantine
"""


def test_the_command_says_what_it_wrote_and_left_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    bad = {f"b{number}.json": "{" for number in range(22)}
    folder = write_folder(tmp_path / "json", {"m1.json": match(BALLS), **bad})
    config = write(tmp_path / "config", {"sources.yaml": SOURCES.format(path=folder)})
    words = ["pebbles", "--to", str(tmp_path / "new"), "--config", str(config)]
    convert(words)
    said = capsys.readouterr().out
    assert f"{tmp_path}/new/deliveries.csv: 5 rows" in said
    assert said.count("left out: ") == 20 and "b0.json: not readable JSON" in said
    assert "and 2 more, left out likewise" in said
    assert said.endswith("layout: ball-tables\n")
    with pytest.raises(UserError, match="is there and not empty"):
        convert(words)
    with pytest.raises(UserError, match=r"no source 'peebles' \(did you mean 'pebbles'\?\)"):
        convert(["peebles", *words[1:]])


def test_what_is_read_again_otherwise_is_not_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """A writer that loses a dismissal is found out, and leaves nothing behind."""
    whole = TableWriters.write

    def losing(self: TableWriters, name: str, rows: Any) -> None:
        whole(self, name, rows.slice(1) if name == "dismissals" else rows)

    monkeypatch.setattr(TableWriters, "write", losing)
    given = worlds(tmp_path)["ball-tables"]
    with pytest.raises(
        UserError, match=r"dismissals is not the same \(wickets 1 and 0, bowler_wickets 1 and 0"
    ):
        write_converted(given, tmp_path / "new", "csv")
    assert not [path for path in tmp_path.iterdir() if "new" in path.name]


def test_what_a_killed_run_left_is_taken_away(tmp_path: Path):
    left = tmp_path / ".there.999999999"  # no process has that number
    left.mkdir()
    (left / "deliveries.csv").write_text("half", "utf-8")
    given = source(write_zip(tmp_path / "m.zip", {"m1.json": match([delivery(1)])}))
    write_converted(given, tmp_path / "there", "csv")
    assert not left.exists() and (tmp_path / "there" / "deliveries.csv").is_file()

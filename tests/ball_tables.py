"""Small sources of the layout `ball-tables`: tables as lists of rows, written as CSV or Parquet."""

from __future__ import annotations

import csv
import io
import zipfile
from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.csv as pacsv
import pyarrow.parquet as pq

from pipeline.ingest.ball_tables.match_contract import TABLES
from tests.conftest import ROOT

DEMO = ROOT / "demo_data" / "tidewater-shield.zip"
Row = dict[str, Any]
MATCH: Row = {
    **{"match_id": "m1", "date": "2020-06-01", "season": "2020", "match_type": "domestic one-day"},
    **{"team_1": "Northmoor", "team_2": "Southfen", "gender": "female", "overs_limit": 50},
}


def ball(delivery: int, over: int = 1, innings: int = 1, match: str = "m1", **more: Any) -> Row:
    """A dot ball by s1 to n1, of the second innings the other way round."""
    sides = ("Northmoor", "Southfen") if innings % 2 else ("Southfen", "Northmoor")
    bat, bowl = ("n", "s") if innings % 2 else ("s", "n")
    return {
        **{"match_id": match, "innings": innings, "over": over, "delivery": delivery},
        **{"batter_id": f"{bat}1", "non_striker_id": f"{bat}2", "bowler_id": f"{bowl}1"},
        **{"batting_team": sides[0], "bowling_team": sides[1], "runs_batter": 0},
        **more,
    }


def out(delivery: int, kind: str = "bowled", player: str = "n1", **more: Any) -> Row:
    place = {"match_id": "m1", "innings": 1, "over": 1, "delivery": delivery}
    return {**place, "kind": kind, "player_out_id": player, **more}


def small() -> dict[str, list[Row]]:
    """Two matches of two balls an innings, with a wicket."""
    other = {**MATCH, "match_id": "m2"}
    balls = [
        ball(delivery, innings=innings, match=match, runs_batter=delivery)
        for match in ("m1", "m2")
        for innings in (1, 2)
        for delivery in (1, 2)
    ]
    return {"matches": [dict(MATCH), other], "deliveries": balls, "dismissals": [out(2)]}


def csv_text(rows: list[Row]) -> str:
    header = list(dict.fromkeys(name for row in rows for name in row))
    text = io.StringIO()
    writer = csv.DictWriter(text, header, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def texts(tables: dict[str, list[Row]]) -> dict[str, str]:
    """Each table's CSV by the name of its file."""
    return {f"{name}.csv": csv_text(rows) for name, rows in tables.items() if rows}


def write(folder: Path, files: dict[str, str]) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def zipped(path: Path, files: dict[str, str | bytes]) -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return path


def write_many(folder: Path, times: int, form: str = "csv") -> int:
    """The demo's matches so many times, each time under other ids; gives the deliveries."""
    folder.mkdir(parents=True)
    lines = 0
    with zipfile.ZipFile(DEMO) as archive:
        for name in archive.namelist():
            header, *rows = archive.read(name).decode().splitlines(keepends=True)
            again = times if name != "people.csv" else 1
            with (folder / name).open("w", encoding="utf-8") as file:
                file.write(header)
                for number in range(again):
                    file.writelines(row.replace("ts-", f"t{number}-", 1) for row in rows)
            lines += len(rows) * times if name == "deliveries.csv" else 0
    if form == "parquet":
        as_parquet(folder)
    return lines


def as_parquet(folder: Path) -> Path:
    """A folder's CSV files as Parquet: numbers and days as a reader of CSV guesses them."""
    for path in folder.glob("*.csv"):
        table = TABLES[path.stem]
        texts_of = {column.name: pa.string() for column in table.columns if column.holds == "text"}
        options = pacsv.ConvertOptions(
            column_types=texts_of, null_values=[""], strings_can_be_null=True
        )
        read = pacsv.open_csv(path, convert_options=options)
        with pq.ParquetWriter(path.with_suffix(".parquet"), read.schema) as written:
            for batch in read:
                written.write_batch(batch)
        path.unlink()
    return folder

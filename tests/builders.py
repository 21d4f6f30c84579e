"""Tiny invented matches, and the files of each layout made from them."""

from __future__ import annotations

import csv
import json
import zipfile
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq

from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.config.project import Format, Project, Source
from pipeline.errors import Problem
from pipeline.ingest.columns import STREAMED, Person, Tables, people_table
from pipeline.ingest.read import read_source
from pipeline.ingest.stage import ingest

PEOPLE = {"A Batt": "id-a", "B Batt": "id-b", "C Batt": "id-c", "Q Bowl": "id-q"}


def delivery(batter_runs: int = 0, wicket: dict | None = None, **extras: int) -> dict[str, Any]:
    """One delivery by Q Bowl to A Batt; extras by kind."""
    total = sum(extras.values())
    made: dict[str, Any] = {
        "batter": "A Batt",
        "bowler": "Q Bowl",
        "non_striker": "B Batt",
        "runs": {"batter": batter_runs, "extras": total, "total": batter_runs + total},
    }
    if extras:
        made["extras"] = extras
    if wicket:
        made["wickets"] = [wicket]
    return made


def match(deliveries: list[dict], version: str = "1.1.0", **info: Any) -> dict[str, Any]:
    """A match of one over between Northmoor and Southfen."""
    return {
        "meta": {"data_version": version, "created": "2020-01-01", "revision": 1},
        "info": {
            "balls_per_over": 6,
            "dates": ["2020-06-01"],
            "event": {"name": "Pebble Cup"},
            "gender": "female",
            "match_type": "domestic one-day",
            "outcome": {"winner": "Northmoor", "by": {"runs": 3}},
            "overs": 50,
            "players": {"Northmoor": ["A Batt", "B Batt", "C Batt"], "Southfen": ["Q Bowl"]},
            "registry": {"people": PEOPLE},
            "season": "2020",
            "team_type": "club",
            "teams": ["Northmoor", "Southfen"],
            "toss": {"winner": "Northmoor", "decision": "bat"},
            "venue": "Pebble Field",
            **info,
        },
        "innings": [{"team": "Northmoor", "overs": [{"over": 0, "deliveries": deliveries}]}],
    }


def source(path: Path, layout: str = "match-json", **more: Any) -> Source:
    return Source(
        id=more.pop("id", "pebbles"),
        path=str(path),
        layout=layout,
        title="Pebble Cup",
        publisher="nobody",
        licence="CC0-1.0",
        retrieved=date(2020, 7, 1),
        **more,
    )


def write_zip(path: Path, members: dict[str, Any]) -> Path:
    """Members may be matches (written as JSON), text or bytes."""
    with zipfile.ZipFile(path, "w") as archive:
        for name, content in members.items():
            plain = isinstance(content, (str, bytes))
            archive.writestr(name, content if plain else json.dumps(content))
    return path


def write_folder(path: Path, members: dict[str, Any]) -> Path:
    """Members may be matches (written as JSON) or text."""
    path.mkdir()
    for name, content in members.items():
        text = content if isinstance(content, str) else json.dumps(content)
        (path / name).write_text(text, "utf-8")
    return path


def read_all(given: Source) -> tuple[Tables, list[Problem]]:
    """A whole source at once: its tables and the problems found."""
    found = list(read_source(given))
    people = {Person(**row) for part in found for row in part.tables.people.to_pylist()}
    whole = {
        name: pa.concat_tables([getattr(part.tables, name) for part in found]).unify_dictionaries()
        for name in STREAMED
    }
    problems = [problem for part in found for problem in part.problems]
    return Tables(**whole, people=people_table(people)), problems


def strays_of(given: Source) -> dict[str, int]:
    """Stray keys by place."""
    return dict(sum((part.strays for part in read_source(given)), Counter()))


def read(tmp_path: Path, *matches: dict[str, Any]) -> Tables:
    """The tables of some matches through a zip; any problem fails the test."""
    members = {f"m{i}.json": found for i, found in enumerate(matches, start=1)}
    tables, problems = read_all(source(write_zip(tmp_path / "matches.zip", members)))
    assert problems == []
    return tables


def rows_of(found: dict[str, Any], match_id: str = "m1") -> list[dict[str, Any]]:
    """The same match as rows of the delivery-csv layout."""
    rows, info = [], found["info"]
    for over in found["innings"][0]["overs"]:
        for position, ball in enumerate(over["deliveries"], start=1):
            extras, wicket = ball.get("extras", {}), (ball.get("wickets") or [{}])[0]
            rows.append(
                {
                    "match_id": match_id,
                    "season": info["season"],
                    "start_date": info["dates"][0],
                    "venue": info["venue"],
                    "innings": 1,
                    "ball": f"{over['over']}.{position}",
                    "batting_team": "Northmoor",
                    "bowling_team": "Southfen",
                    "striker": ball["batter"],
                    "non_striker": ball["non_striker"],
                    "bowler": ball["bowler"],
                    "runs_off_bat": ball["runs"]["batter"],
                    "extras": ball["runs"]["extras"],
                    **{
                        kind: extras.get(kind, "")
                        for kind in ("wides", "noballs", "byes", "legbyes", "penalty")
                    },
                    "wicket_type": wicket.get("kind", ""),
                    "player_dismissed": wicket.get("player_out", ""),
                }
            )
    return rows


# What a table needs to be told to read rows_of's names.
COLUMNS = {
    **{ours: ours for ours in ("match_id", "season", "innings", "ball", "bowler")},
    **{ours: ours for ours in ("batting_team", "bowling_team", "non_striker")},
    **{"date": "start_date", "batter": "striker", "runs_batter": "runs_off_bat"},
    **{"dismissal": "wicket_type", "player_out": "player_dismissed"},
}


def write_delivery_csv(folder: Path, found: dict[str, Any]) -> Path:
    """A match as the delivery-csv layout has it: its rows, and its info file beside them."""
    info = ["info,gender,female", "info,event,Pebble Cup"]
    info += [f"info,registry,people,{name},{identity}" for name, identity in PEOPLE.items()]
    write_folder(folder, {"m1_info.csv": "\n".join(info)})
    write_csv(folder / "m1.csv", rows_of(found))
    return folder


def contents(folder: Path) -> dict[str, bytes]:
    """All files beneath a folder."""
    files = [path for path in folder.rglob("*") if path.is_file()]
    return {str(path.relative_to(folder)): path.read_bytes() for path in files}


def write_csv(path: Path, rows: list[dict[str, Any]]) -> Path:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)
    return path


PLAYERS = "id,name,batting_hand,bowling_style,tags\nid-a,A Batt,left,,\nid-q,Q Bowl,,Legbreak,\n"
GROUNDS = "venue,ground,city,country,region\nPebble Field,The Pebbles,Pebbleton,,coast\n"
FIXES = "match,innings,over,delivery,player,venue,field,old,new,reason,source,by,date\n"


def cleaned(tmp_path: Path, sheets: dict[str, str] | None = None, **sources: dict) -> Path:
    """Ingest and clean some sources, each given as its matches by name; the data folder.

    `sheets` are the texts of players, grounds, people and corrections.
    """
    tmp_path.mkdir(parents=True, exist_ok=True)
    given = [
        source(write_zip(tmp_path / f"{name}.zip", members), id=name)
        for name, members in sources.items()
    ]
    return cleaned_sources(
        tmp_path, given, {"players": PLAYERS, "grounds": GROUNDS, **(sheets or {})}
    )


def cleaned_sources(folder: Path, sources: list[Source], sheets: dict[str, str]) -> Path:
    """The same of declared sources of any layout."""
    for name, text in sheets.items():
        (folder / f"{name}.csv").write_text(text, "utf-8")
    for each in sources:
        ingest(each, folder / "data" / each.id)
    project = Project(title="test", **{name: str(folder / f"{name}.csv") for name in sheets})
    config = Config(folder, project, {each.id: each for each in sources}, {}, FORMATS)
    clean(views.clean(config), folder / "data")
    return folder / "data"


FORMATS = {"one-day": Format(label="one-day", match_types=["domestic one-day"], overs=50)}


def rows(data: Path, table: str) -> list[dict[str, Any]]:
    """A clean table's rows."""
    return pq.read_table(data / f"{table}.parquet").to_pylist()


def quality_of(data: Path) -> dict[str, Any]:
    return json.loads((data / "quality.json").read_text("utf-8"))

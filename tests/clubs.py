"""A small league of five clubs over twelve seasons, in which one club may be the whole story."""

from __future__ import annotations

import shutil
from itertools import combinations
from pathlib import Path
from random import Random
from typing import Any

import duckdb

from tests.builders import delivery
from tests.league import league
from tests.tallying import played_in

CLUBS = ("Brackwater", "Foxley", "Harrowby", "Moorgate", "Quillport")
GROUNDS = ("Brack Meadow", "Fox Lane", "Harrow Green", "Moor Top", "Quill Quay")
YEARS = range(2011, 2023)
HEAD = """title: A question
question: What happened?
data: {competition: Pebble Cup, format: one-day}
event: {name: the hail, date: 2017-01-01, before: 2012 to 2016, after: 2017 to 2021}
"""
PLAYERS = """id,name,batting_hand,bowling_style,tags
id-q,Q Bowl,right,Right arm fast,
id-r,R Bowl,right,Offbreak,
"""
PEOPLE = {"A Batt": "id-a", "B Batt": "id-b", "C Batt": "id-c", "Q Bowl": "id-q", "R Bowl": "id-r"}
USUAL, NOISE, BALLS = 60, 12, 60


def fixture(year: int, day: int, clubs: tuple[str, str], ground: str, runs: int) -> dict[str, Any]:
    """A match of one innings of so many runs, by the first club, which wins on even days."""
    one, other = clubs
    each, more = divmod(runs, BALLS)
    bowled = [
        {**delivery(each + (at < more)), "bowler": ("Q Bowl", "R Bowl")[at % 2]}
        for at in range(BALLS)
    ]
    made = played_in(
        year,
        bowled,
        dates=[f"{year}-06-{day:02}"],
        teams=[one, other],
        players={one: ["A Batt", "B Batt", "C Batt"], other: ["Q Bowl", "R Bowl"]},
        registry={"people": PEOPLE},
        outcome={"winner": one if day % 2 else other, "by": {"runs": 3}},
        toss={"winner": one, "decision": "bat"},
        venue=ground,
    )
    made["innings"][0]["team"] = one
    return made


def matches(club: str = "", season: int = 0, worth: int = 0) -> list[dict[str, Any]]:
    """Each club at home to half of the others every year; noise alike before the event and after.

    After it the matches of `club`, or of `season`, are `worth` so many runs more.
    """
    made = []
    for year in YEARS:
        chance = Random(year if year < 2017 else year - 5)
        for at, pair in enumerate(combinations(range(len(CLUBS)), 2)):
            home, away = pair if (sum(pair) + year) % 2 else pair[::-1]
            runs = USUAL + chance.randint(-NOISE, NOISE)
            clubs = CLUBS[home], CLUBS[away]
            moved = club in clubs if club else year == season
            if year >= 2017 and moved:
                runs += worth
            made.append(fixture(year, at + 1, clubs, GROUNDS[home], runs))
    return made


def without(project: Path, folder: Path, condition: str) -> Path:
    """The project with only those clean matches of which an SQL condition is false."""
    shutil.copytree(project, folder, symlinks=True)
    path = folder / "output" / "data" / "matches.parquet"
    whole = project / "output" / "data" / "matches.parquet"
    query = f"SELECT * FROM read_parquet('{whole}') WHERE NOT ({condition}) ORDER BY match_id"
    path.unlink()
    duckdb.connect().execute(f"COPY ({query}) TO '{path}' (FORMAT parquet)")
    return folder


def clubs(folder: Path, **story: Any) -> Path:
    """Its project, cleaned."""
    return league(folder, matches(**story), players=PLAYERS)

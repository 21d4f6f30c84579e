"""Invented matches, and three tables of them as strangers write them."""

from __future__ import annotations

import csv
import random
import sqlite3
from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq

Ball = dict[str, Any]
SIDES = {
    "Northmoor": ["Ann Fenner", "Bea Coldwell", "Cat Marsh", "Dot Ridley", "Eve Stannard"],
    "Southfen": ["Fay Garrick", "Gwen Hollis", "Hope Inskip", "Ivy Jessop", "Joy Kettle"],
}
DAYS = ("2018-05-01", "2018-05-19", "2019-06-02", "2019-06-23")
KINDS = ("caught", "bowled", "lbw", "run out", "stumped", "caught and bowled")
EXTRAS = ("wides", "noballs", "byes", "legbyes")


def balls(seed: int = 7) -> list[Ball]:
    """Four matches of two innings of five overs, under our names; one ball has two dismissals."""
    chance, found = random.Random(seed), list[Ball]()
    for number, day in enumerate(DAYS, start=1):
        for innings, (batting, bowling) in enumerate((tuple(SIDES), tuple(SIDES)[::-1]), start=1):
            for over in range(1, 6):
                found += _over(chance, number, day, innings, over, batting, bowling)
    twice = next(ball for ball in found if ball["dismissal"] == "run out")
    twice |= {"other_dismissal": "retired out", "other_player_out": twice["non_striker"]}
    return found


def _over(
    chance: random.Random, match: int, day: str, innings: int, over: int, batting: str, bowling: str
) -> list[Ball]:
    found: list[Ball] = []
    valid = 0
    while valid < 6:
        batter, other = chance.sample(SIDES[batting], 2)
        ball: Ball = {
            "match_id": str(match),
            "date": day,
            "season": day[:4],
            "innings": innings,
            "over": over,
            "delivery": len(found) + 1,
            "batting_team": batting,
            "bowling_team": bowling,
            "batter": batter,
            "non_striker": other,
            "bowler": SIDES[bowling][over % 2],
            "runs_batter": chance.choice((0, 0, 1, 1, 2, 4, 6)),
            **dict.fromkeys((*EXTRAS, "penalty"), 0),
            **dict.fromkeys(("dismissal", "player_out", "other_dismissal"), ""),
            "other_player_out": "",
            "venue": f"Field {match % 2}",
        }
        draw = chance.random()
        if draw < 0.2:
            ball |= {"runs_batter": 0, chance.choice(EXTRAS): chance.choice((1, 1, 2))}
        elif draw < 0.35:
            ball |= {"runs_batter": 0, "dismissal": chance.choice(KINDS), "player_out": batter}
        valid += not ball["wides"] and not ball["noballs"]
        found.append(ball)
    return found


def truth(found: list[Ball]) -> dict[str, int]:
    """What an ingest of them must count."""
    return {
        "matches": len({ball["match_id"] for ball in found}),
        "deliveries": len(found),
        "runs": sum(
            ball["runs_batter"] + sum(ball[n] for n in (*EXTRAS, "penalty")) for ball in found
        ),
        "wickets": sum(bool(b["dismissal"]) + bool(b["other_dismissal"]) for b in found),
    }


def semicolons(path: Path) -> list[Ball]:
    """A CSV as a spreadsheet of the Continent saves it: semicolons, Latin-1, days first, overs
    from 0, extras by kind, and NA where nothing is.
    """
    found = [ball | {"other_dismissal": "", "other_player_out": ""} for ball in balls()]
    head = "Fixture No;Day Played;Inns;Over No;Side Batting;Side Bowling;Striker;Non-Striker;"
    head += "Bowler Name;Runs off Bat;Extra Runs;Extra Type;How Out;Batsman Out;Ground;Umpire"
    codes = {"wides": "Wd", "noballs": "NB", "byes": "B", "legbyes": "LB"}
    outs = {"caught": "ct", "caught and bowled": "c & b", "run out": "Run Out", "stumped": "st"}
    with path.open("w", encoding="windows-1252", newline="") as file:
        file.write(head + "\r\n")
        writer = csv.writer(file, delimiter=";")
        for ball in found:
            kind = next((name for name in EXTRAS if ball[name]), "")
            year, month, day = ball["date"].split("-")
            writer.writerow(
                [
                    *(ball["match_id"], f"{day}/{month}/{year}", ball["innings"], ball["over"] - 1),
                    *(ball["batting_team"], ball["bowling_team"]),
                    *(ball["batter"], ball["non_striker"], ball["bowler"], ball["runs_batter"]),
                    *(ball[kind] if kind else 0, codes.get(kind, "NA")),
                    *(outs.get(ball["dismissal"], ball["dismissal"]) or "NA",),
                    *(ball["player_out"] or "NA", f"{ball['venue']}, Pré", "U; One"),
                ]
            )
    return found


def database(path: Path) -> list[Ball]:
    """An SQLite database, normalised: matches, sides, people and dismissals each have a table."""
    found = balls()
    people = {name: at for at, name in enumerate((n for s in SIDES.values() for n in s), start=101)}
    sides = {name: at for at, name in enumerate(SIDES, start=1)}
    db = sqlite3.connect(path)
    db.executescript(
        """
        CREATE TABLE players (player_id INTEGER PRIMARY KEY, full_name TEXT, hand TEXT);
        CREATE TABLE clubs (id INTEGER PRIMARY KEY, name TEXT);
        CREATE TABLE games (id INTEGER PRIMARY KEY, played_on TEXT, season INTEGER, ground_id INT);
        CREATE TABLE grounds (id INTEGER PRIMARY KEY, ground TEXT);
        CREATE TABLE deliveries (id INTEGER PRIMARY KEY, game_id INT, innings_no INT, over_no INT,
            batting_club_id INT, bowling_club_id INT, striker_id INT, non_striker_id INT,
            bowler_id INT, bat_runs INT, wide_runs INT, no_ball_runs INT, bye_runs INT,
            leg_bye_runs INT, comment TEXT);
        CREATE TABLE dismissals (id INTEGER PRIMARY KEY, delivery_id INT, how_out TEXT,
            player_id INT);
        """
    )
    db.executemany(
        "INSERT INTO players VALUES (?, ?, 'right')", [(v, k) for k, v in people.items()]
    )
    db.executemany("INSERT INTO clubs VALUES (?, ?)", [(v, k) for k, v in sides.items()])
    db.executemany("INSERT INTO grounds VALUES (?, ?)", [(1, "Field 0"), (2, "Field 1")])
    games = {ball["match_id"]: ball for ball in found}
    db.executemany(
        "INSERT INTO games VALUES (?, ?, ?, ?)",
        [
            (int(match), ball["date"], int(ball["season"]), int(match) % 2 + 1)
            for match, ball in games.items()
        ],
    )
    for at, ball in reversed(list(enumerate(found, start=1))):  # the order of rows says nothing
        db.execute(
            f"INSERT INTO deliveries VALUES ({', '.join('?' * 15)})",
            (
                *(at, int(ball["match_id"]), ball["innings"], ball["over"]),
                *(sides[ball["batting_team"]], sides[ball["bowling_team"]]),
                *(people[ball[role]] for role in ("batter", "non_striker", "bowler")),
                *(ball["runs_batter"], *(ball[name] for name in EXTRAS), "fine, by the book"),
            ),
        )
        for kind, player in (("dismissal", "player_out"), ("other_dismissal", "other_player_out")):
            if ball[kind]:
                row = (at, ball[kind], people[ball[player]])
                db.execute("INSERT INTO dismissals VALUES (NULL, ?, ?, ?)", row)
    db.commit()
    db.close()
    return found


def odd_parquet(path: Path) -> list[Ball]:
    """A Parquet table with run-together names, numbers as doubles, and codes of its own."""
    found = [ball | {"other_dismissal": "", "other_player_out": ""} for ball in balls(11)]
    codes = dict(zip(KINDS, ("C", "B", "LBW", "RO", "ST", "C&B"), strict=True))
    pq.write_table(
        pa.table(
            {
                "rowid": list(range(len(found))),
                "matchkey": [f"pb-{ball['match_id']}" for ball in found],
                "matchdate": pa.array([ball["date"] for ball in found]).cast(pa.date32()),
                "season": [int(ball["season"]) for ball in found],
                "inns": [float(ball["innings"]) for ball in found],
                "overball": [f"{ball['over'] - 1}.{ball['delivery']}" for ball in found],
                "batteam": [ball["batting_team"] for ball in found],
                "bowlteam": [ball["bowling_team"] for ball in found],
                "batsman": [ball["batter"] for ball in found],
                "nonstriker": [ball["non_striker"] for ball in found],
                "bowler": pa.array([ball["bowler"] for ball in found]).dictionary_encode(),
                "batruns": [float(ball["runs_batter"]) for ball in found],
                "wd": [ball["wides"] or None for ball in found],
                "nb": [ball["noballs"] or None for ball in found],
                "b": [ball["byes"] or None for ball in found],
                "lb": [ball["legbyes"] or None for ball in found],
                "wktkind": [codes.get(ball["dismissal"]) for ball in found],
                "playerdismissed": [ball["player_out"] or None for ball in found],
                "sex": ["W"] * len(found),
                "cum_score": list(range(len(found))),
            }
        ),
        path,
    )
    return found

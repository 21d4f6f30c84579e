"""The files of each area: a valid one of the tests' builders, then damaged by chance."""

from __future__ import annotations

import csv
import io
from copy import deepcopy
from pathlib import Path
from random import Random
from typing import Any

from tests.builders import FIXES, GROUNDS, PLAYERS, delivery, match, rows_of
from tests.faults.damage import change_somewhere, damaged, json_text, odd_text

BALLS = [
    delivery(1),
    delivery(4),
    delivery(wides=2),
    delivery(byes=1, noballs=1),
    delivery(wicket={"kind": "caught", "player_out": "A Batt", "fielders": [{"name": "Q Bowl"}]}),
    delivery(6),
]
INFO = "info,gender,female\ninfo,event,Pebble Cup\ninfo,overs,50\ninfo,balls_per_over,6\n"
INFO += "info,winner,Northmoor\ninfo,winner_runs,3\ninfo,registry,people,A Batt,id-a\n"
WHY = "misheard,scorebook p. 3,R Searcher,2026-11-25"
MERGES = "id,same_as,reason,source\nid-b,id-c,one person,scorebook\n"
BALL = "batter_id=id-a; non_striker_id=id-b; bowler_id=id-q"
LINES = (
    *("m1,1,1,1,,,runs_batter,1,2", "m1,1,1,3,,,wides,2,1", "m1,1,,,,,penalty_post,0,5"),
    *(
        "m1,,,,,,season,2020,2020/21",
        "m1,,,,,,overs_limit,50,40",
        "m1,,,,,,date,2020-06-01,2020-06-02",
    ),
    *(",,,,id-q,,bowling_style,Legbreak,Offbreak", ",,,,,Pebble Field,country,,Merrow"),
    *("m1,1,1,5,,,dismissal,caught,run out", "m1,1,1,1,,,delivered,1,0"),
    "m1,,,,,,balls_per_over,6,5",
    f"m1,1,1,2,,,delivery,,{BALL}; wides=1",
    f"m1,1,1,2,,,delivery,{BALL}; runs_batter=4,",
    f"m1,1,2,1,,,delivery,,{BALL}; dismissal=bowled; player_out_id=id-a",
)
OF_AN_OUT = f"m1,1,1,5,,,dismissal,caught,bowled,{WHY},id-a\n"  # with the last column filled
SRT = "1\n00:00:01,000 --> 00:00:04,000\nSpin in the middle overs: {}\nan over\n\n"
SRT += "2\n00:00:05,000 --> 00:00:06,000\n<i>It was</i> {} &amp; more\n"
VTT = "WEBVTT\n\nNOTE x\n\n00:01.000 --> 00:02.000 align:start\nIt was {}<00:01.500><c> or</c> {}\n"
NUMBERS = ("4.5", "four and a half", "17%", "1,204", "1" * 40, "0." + "3" * 60, "1" + ",000" * 30)


def tree(rng: Random) -> dict[str, Any]:
    """A match of two innings, here and there changed."""
    found = deepcopy(match(BALLS))
    reply = deepcopy(found["innings"][0])
    found["innings"].append({**reply, "team": "Southfen", "target": {"runs": 20, "overs": 40.2}})
    found["innings"][0]["miscounted_overs"] = {"0": {"balls": 7}}
    found["innings"][0]["penalty_runs"] = {"pre": 5}
    for _ in range(rng.choice((0, 1, 1, 2, 4))):
        change_somewhere(found, rng)
    return found


def match_json(rng: Random) -> bytes:
    text = json_text(tree(rng), rng)
    return damaged(text, rng) if rng.random() < 0.4 else text


def rows(rng: Random) -> list[dict[str, Any]]:
    """Rows of two matches, cells changed and columns dropped or added by chance."""
    found = [{**row, "revision": 1} for name in ("m1", "m2") for row in rows_of(match(BALLS), name)]
    for _ in range(rng.choice((0, 1, 1, 3))):
        name, value = rng.choice(list(found[0])), odd_text(rng)
        for row in found if rng.random() < 0.3 else [rng.choice(found)]:
            row[name] = value
    if rng.random() < 0.1:
        name = rng.choice(list(found[0]))
        for row in found:
            del row[name]
    return found


def csv_bytes(found: list[dict[str, Any]], rng: Random) -> bytes:
    out = io.StringIO()
    quoting = csv.QUOTE_ALL if rng.random() < 0.1 else csv.QUOTE_MINIMAL
    ending = rng.choice(("\n", "\n", "\r\n", "\r", ",\n", "\n\n"))
    writer = csv.writer(out, quoting=quoting, lineterminator=ending)
    writer.writerow(found[0])
    writer.writerows(row.values() for row in found)
    data = out.getvalue().encode("utf-8", "replace")
    return damaged(data, rng) if rng.random() < 0.4 else data


def delivery_csv(rng: Random, folder: Path) -> Path:
    path = folder / "csv"
    path.mkdir()
    (path / "m1.csv").write_bytes(csv_bytes(rows(rng), rng))
    info = INFO.replace(rng.choice(("6", "50", "3", "female")), odd_text(rng), 1)
    text = info if rng.random() < 0.3 else INFO
    (path / "m1_info.csv").write_bytes(damaged(text.encode("utf-8", "replace"), rng))
    return path


def sheets(rng: Random, folder: Path) -> dict[str, Path]:
    fixes = [f"{line},{WHY}\n" for line in LINES if rng.random() < 0.3]
    texts = {"players": PLAYERS, "grounds": GROUNDS, "people": MERGES}
    fixes += [OF_AN_OUT] if rng.random() < 0.3 else []
    texts["corrections"] = FIXES.replace("date\n", "date,player_out\n") + "".join(fixes)
    paths = {name: folder / f"{name}.csv" for name in texts}
    for name, text in texts.items():
        paths[name].write_bytes(_sheet(text, rng))
    return paths


def _sheet(text: str, rng: Random) -> bytes:
    found = list(csv.reader(io.StringIO(text)))
    for _ in range(rng.choice((0, 0, 1, 1, 3))):
        row = rng.choice(found)
        row[rng.randrange(len(row))] = odd_text(rng)
    out = io.StringIO()
    csv.writer(out, lineterminator=rng.choice(("\n", "\r\n", ",\n"))).writerows(found)
    data = out.getvalue().encode("utf-8", "replace")
    return damaged(data, rng) if rng.random() < 0.4 else data


def captions(rng: Random, folder: Path) -> Path:
    name, layout = rng.choice((("c.srt", SRT), ("c.vtt", VTT), ("c.txt", "It was {} in {}.\n")))
    said = [rng.choice((*NUMBERS, odd_text(rng))) for _ in range(2)]
    text = "".join(layout.format(*said) for _ in range(rng.choice((1, 1, 3))))
    data = text.encode("utf-8", "replace")
    path = folder / name
    path.write_bytes(damaged(data, rng) if rng.random() < 0.5 else data)
    return path

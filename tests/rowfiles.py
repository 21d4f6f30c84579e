"""Many invented matches with a row a delivery, quickly: for the bench.

Innings are drawn once and shared out again over the matches; what is read is the size of the real
thing (about 620 deliveries and 75 kB a match) with its extras and wickets, and an info file each.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import TextIO

HEADER = (
    "match_id,season,start_date,venue,innings,ball,batting_team,bowling_team,striker,non_striker,"
    "bowler,runs_off_bat,extras,wides,noballs,byes,legbyes,penalty,wicket_type,player_dismissed,"
    "other_wicket_type,other_player_dismissed\n"
)
DRAWN = 100  # innings that differ
OVERS = 50
TEAMS = ("Northmoor", "Southfen", "Eastbeck", "Westcarr")
KINDS = ("caught", "bowled", "lbw", "run out", "stumped")
NAMES = ("Able", "Brook", "Carr", "Dale", "Elm", "Fenn", "Garth", "Holm", "Ings", "Jute", "Kelp")
HEAD = "\0"  # stands for what all rows of a match begin with


def write_row_files(folder: Path, matches: int, first: int = 0, seed: int = 20) -> None:
    """Write matches as files of `delivery-csv` into a folder, with their info files."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, rows, info in _matches(matches, first, seed):
        (folder / f"{name}.csv").write_text(HEADER + rows, "utf-8")
        (folder / f"{name}_info.csv").write_text(info, "utf-8")


def write_row_table(file: TextIO, matches: int, late: bool = False, seed: int = 20) -> None:
    """Write the same rows as one table; `late`: half of each third match comes at the end."""
    file.write(HEADER)
    kept = []
    for number, (_, rows, _) in enumerate(_matches(matches, 0, seed)):
        half = rows.index("\n", len(rows) // 2) + 1 if late and number % 3 == 0 else len(rows)
        file.write(rows[:half])
        kept.append(rows[half:])
    file.writelines(kept)


def _matches(count: int, first: int, seed: int) -> Iterator[tuple[str, str, str]]:
    """The name of each match, its rows, and its info file."""
    chance = random.Random(f"{seed} {first}")
    drawn = [_innings(chance, number % 2) for number in range(DRAWN)]
    for number in range(first, first + count):
        teams = chance.sample(TEAMS, 2)
        year = 2005 + number % 20
        place = f'"Field {number % 17}, Pebbleton"' if number % 2 else f"Field {number % 17}"
        head = f"{number:07},{year},{year}-06-{1 + number % 28:02},{place},"
        rows = ""
        for innings, (bat, bowl) in enumerate((teams, teams[::-1]), start=1):
            text = drawn[2 * chance.randrange(DRAWN // 2) + innings - 1]
            rows += text.replace(HEAD, head + f"{innings},").replace("\1", f"{bat},{bowl}")
        yield f"{number:07}", rows, _info(number, teams)


def _info(number: int, teams: list[str]) -> str:
    lines = [f"team,{team}" for team in teams]
    lines += ["balls_per_over,6", "gender,female", "match_type,ODM", f"overs,{OVERS}"]
    lines += [f"event,Pebble Cup {number % 9}", f"toss_winner,{teams[0]}", "toss_decision,bat"]
    for side, team in zip("AB", teams, strict=True):
        lines += [f"player,{team},{side} {name}" for name in NAMES]
    lines += [
        f"registry,people,{side} {name},{number % 50:02}{side}{n:04}"
        for side in "AB"
        for n, name in enumerate(NAMES)
    ]
    return "version,2.1.0\n" + "".join(f"info,{line}\n" for line in lines)


def _innings(chance: random.Random, side: int) -> str:
    """Fifty overs or ten wickets as rows, with stops for what the match adds."""
    batting, bowling = "BA" if side else "AB", "AB" if side else "BA"
    in_wait = [f"{batting[0]} {name}" for name in NAMES]
    ends = [in_wait.pop(0), in_wait.pop(0)]
    rows = []
    for over in range(OVERS):
        bowler = f"{bowling[0]} {NAMES[5 + over % 5]}"
        valid = ball = 0
        while valid < 6:
            ball += 1
            bat, extras, wides, byes, wicket = _ball(chance)
            valid += not wides
            out = ends[0] if wicket and in_wait else ""
            cells = [str(bat), str(extras), *_blank(wides, 0, byes, 0, 0)]
            cells += [wicket if out else "", out, "", ""]
            rows.append(f"{HEAD}{over}.{ball},\1,{ends[0]},{ends[1]},{bowler},{','.join(cells)}\n")
            if out:
                ends[0] = in_wait.pop(0)
            elif (bat + byes) % 2:
                ends.reverse()
        ends.reverse()
    return "".join(rows)


def _ball(chance: random.Random) -> tuple[int, int, int, int, str]:
    draw = chance.random()
    if draw < 0.03:
        return 0, 1, 1, 0, ""
    if draw < 0.05:
        return 0, 1, 0, 1, ""
    if draw < 0.07:
        return 0, 0, 0, 0, chance.choice(KINDS)
    return chance.choice((0, 0, 0, 1, 1, 2, 4, 6)), 0, 0, 0, ""


def _blank(*counts: int) -> list[str]:
    return [str(count or "") for count in counts]

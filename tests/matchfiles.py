"""Many invented match files in the `match-json` layout, quickly: for the bench.

Innings are drawn once and shared out again over the matches; what is read is the size of the real
thing (about 600 deliveries and 75 kB a match) with its extras, wickets, reviews and odd keys.
"""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

DRAWN = 300  # innings that differ
TEAMS = ("Northmoor", "Southfen", "Eastbeck", "Westcarr")
KINDS = ("caught", "bowled", "lbw", "run out", "stumped")


def write_match_files(folder: Path, count: int, seed: int = 20, first: int = 0) -> int:
    """Write matches from number `first` to `count` into a folder, a JSON file each; deliveries."""
    folder.mkdir(parents=True, exist_ok=True)
    chance = random.Random(seed)
    drawn = [_innings(chance, number) for number in range(DRAWN)]
    total = 0
    for number in range(first, count):
        picked = [2 * chance.randrange(DRAWN // 2) + side for side in (1, 0)]
        total += sum(drawn[index][1] for index in picked)
        overs = [drawn[index][0] for index in picked]
        text = _match(number, overs, chance.sample(TEAMS, 2))
        (folder / f"bench-{number:05}.json").write_text(text, "utf-8")
    return total


def _match(number: int, overs: list[str], teams: list[str]) -> str:
    people = {f"{side} {n}": f"{i:02x}{n:06x}" for i, side in enumerate("AB") for n in range(11)}
    info = {
        "balls_per_over": 6,
        "city": "Pebbleton",
        "dates": [f"{2005 + number % 20}-06-{1 + number % 28:02}"],
        "event": {"name": "Pebble Cup", "match_number": number},
        "gender": "female",
        "match_type": "domestic one-day",
        "officials": {"umpires": ["U One", "U Two"]},
        "outcome": {"winner": teams[0], "by": {"runs": 3}},
        "overs": 50,
        "players": {teams[i]: [n for n in people if n[0] == "AB"[i]] for i in range(2)},
        "registry": {"people": people},
        "season": str(2005 + number % 20),
        "team_type": "club",
        "teams": teams,
        "toss": {"winner": teams[0], "decision": "bat"},
        "venue": f"Field {number % 17}",
    }
    meta = {"data_version": "1.1.0", "created": "2025-01-01", "revision": 1}
    powerplays = [{"from": 0.1, "to": 9.6, "type": "mandatory"}]
    innings = ", ".join(
        f'{{"team": "{team}", "overs": {text}, "powerplays": {json.dumps(powerplays)}}}'
        for team, text in zip(teams, overs, strict=True)
    )
    return f'{{"meta": {json.dumps(meta)}, "info": {json.dumps(info)}, "innings": [{innings}]}}'


def _innings(chance: random.Random, number: int) -> tuple[str, int]:
    """Fifty overs as JSON text, and the deliveries in them; sides bat in turn."""
    batting, bowling = "AB" if number % 2 else "BA"
    overs: list[dict[str, Any]] = []
    for over in range(50):
        deliveries = []
        while sum("wides" not in d.get("extras", {}) for d in deliveries) < 6:
            deliveries.append(_delivery(chance, batting, f"{bowling} {over % 2 + 5 + over // 25}"))
        overs.append({"over": over, "deliveries": deliveries})
    return json.dumps(overs), sum(len(over["deliveries"]) for over in overs)


def _delivery(chance: random.Random, batting: str, bowler: str) -> dict[str, Any]:
    striker, other = chance.sample(range(11), 2)
    batter = chance.choice((0, 0, 0, 1, 1, 2, 4, 6))
    made: dict[str, Any] = {
        "batter": f"{batting} {striker}",
        "bowler": bowler,
        "non_striker": f"{batting} {other}",
        "runs": {"batter": batter, "extras": 0, "total": batter},
    }
    if (draw := chance.random()) < 0.05:
        kind = "wides" if draw < 0.03 else chance.choice(("byes", "legbyes"))
        made["extras"] = {kind: 1}
        made["runs"] = {"batter": 0, "extras": 1, "total": 1}
    elif draw < 0.08:
        kind = chance.choice(KINDS)
        wicket = {"kind": kind, "player_out": made["batter"]}
        made["wickets"] = [{**wicket, "fielders": [{"name": f"{bowler[0]} 1"}]}]
    elif draw < 0.09:
        made["review"] = {"by": "Northmoor", "umpire": "U One", "decision": "upheld"}
    return made

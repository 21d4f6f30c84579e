"""A small league with everything untidy: made once, to be asked every question there is.

Seasons of two to nine matches, two of them overlapping; sides that come and go; players of unknown
kind and hand; grounds of unknown region and home; innings cut short, a chase with fewer overs, a
tie, a match without a result; and two other competitions beside it.
"""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import Any

from tests.builders import delivery, match
from tests.league import league

SIDES = {
    "Northmoor": ("Ann Moor", "Bea Moor", "Cat Moor", "Dot Moor"),
    "Southfen": ("Ida Fen", "Joy Fen", "Kim Fen", "Lou Fen"),
    "Eastholm": ("Pia Holm", "Ria Holm", "Sue Holm", "Tia Holm"),
    "Westfold": ("Uma Fold", "Val Fold", "Wyn Fold", "Zoe Fold"),
}
IDS = {name: f"id-{name.split()[0].lower()}" for side in SIDES.values() for name in side}
PLAYERS = """id,name,batting_hand,bowling_style,tags
id-ann,Ann Moor,left,Right arm fast,keeper
id-bea,Bea Moor,right,Legbreak,
id-cat,Cat Moor,,,
id-dot,Dot Moor,right,Slow left-arm orthodox,
id-ida,Ida Fen,left,Left arm fast,
id-joy,Joy Fen,right,Offbreak,
id-kim,Kim Fen,right,Right arm medium,keeper
id-pia,Pia Holm,left,Legbreak,
id-ria,Ria Holm,right,Left arm fast-medium,
id-uma,Uma Fold,right,Right arm fast,
id-val,Val Fold,left,Offbreak,
"""
GROUNDS = """venue,ground,city,country,region,home
Moor Top,Moor Top,Moorton,Lower Merrow,inland,Northmoor
Fen Side,Fen Side,Fenby,Lower Merrow,coast,Southfen
Holm Point,Holm Point,Holmby,Upper Merrow,coast,Eastholm
Nobody's Field,Nobody's Field,,,,
"""
VENUES = ("Moor Top", "Fen Side", "Holm Point", "Nobody's Field", "Far Paddock")
# (season, first day, matches, sides): the season 2019/20 begins before 2019 ends.
SEASONS = (
    *(("2015", "2015-06-01", 6, 2), ("2016", "2016-06-01", 3, 3), ("2017", "2017-06-01", 8, 3)),
    *(("2018", "2018-06-01", 9, 3), ("2019", "2019-06-01", 7, 4), ("2019/20", "2019-06-05", 2, 4)),
    *(("2021", "2021-06-01", 9, 4), ("2022", "2022-06-01", 8, 3), ("2023", "2023-06-01", 5, 4)),
)
OVERS = (0, 4, 15, 33, 44)  # of each innings: two of the powerplay, two of the middle, one at death
HEAD = """title: A question
question: What happened?
data: {competition: [Pebble Cup, Sand Cup], format: one-day}
event: {name: the hail, date: 2020-01-01, before: 3 seasons, after: 3 seasons}
"""


def untidy(folder: Path) -> Path:
    """The folder of its project: the configuration, with fewer shuffles, and the clean tables."""
    made = league(folder, matches(), players=PLAYERS, grounds=GROUNDS)
    settings = made / "config" / "project.yaml"
    text = settings.read_text("utf-8")
    settings.write_text(text.replace("permutations: 999", "permutations: 99"), "utf-8")
    return made


def matches() -> list[dict[str, Any]]:
    """Every match of the three competitions, the same at every call."""
    chance = Random(5)
    made = []
    for cup, share in (("Pebble Cup", 1.0), ("Sand Cup", 0.4), ("Shingle Cup", 0.8)):
        for season, first, count, sides in SEASONS:
            for at in range(round(count * share)):
                day = f"{first[:8]}{int(first[8:]) + at:02}"
                made.append(_match(chance, cup, season, day, sides))
    return [_shortened(made[20]), _tied(made[21]), _undecided(made[22]), *made[:20], *made[23:]]


def _match(chance: Random, cup: str, season: str, day: str, sides: int) -> dict[str, Any]:
    teams = chance.sample(sorted(SIDES)[-sides:], 2)
    found = match(
        [],
        event={"name": cup},
        season=season,
        dates=[day],
        teams=teams,
        players={team: list(SIDES[team]) for team in teams},
        registry={"people": {name: IDS[name] for team in teams for name in SIDES[team]}},
        outcome={"winner": teams[0], "by": {"runs": 3}},
        toss={"winner": teams[1], "decision": "field"},
        venue=chance.choice(VENUES),
    )
    found["innings"] = [
        {"team": batting, "overs": _overs(chance, SIDES[batting], SIDES[bowling], season)}
        for batting, bowling in (teams, teams[::-1])
    ]
    return found


def _overs(chance: Random, bat: tuple[str, ...], bowl: tuple[str, ...], season: str) -> list[Any]:
    """Five overs, fewer where the side is out early; a ball late in time is worth a little more."""
    told = OVERS[: chance.choice((2, 4, 5, 5))]
    return [
        {
            "over": over,
            "deliveries": [_ball(chance, bat, bowler, season) for _ in range(7)],
        }
        for over, bowler in zip(told, chance.choices(bowl, k=5), strict=False)
    ]


def _ball(chance: Random, bat: tuple[str, ...], bowler: str, season: str) -> dict[str, Any]:
    striker, other = chance.sample(bat, 2)
    worth = chance.choice((0, 0, 1, 1, 2, 4 + 2 * (season > "2020")))
    draw = chance.random()
    made = (
        delivery(worth)
        if draw > 0.08
        else delivery(wides=1)
        if draw > 0.04
        else delivery(legbyes=2)
    )
    if draw > 0.93:
        out = chance.choice((striker, other))
        made["wickets"] = [{"kind": "run out" if out == other else "bowled", "player_out": out}]
    return {**made, "batter": striker, "non_striker": other, "bowler": bowler}


def _shortened(found: dict[str, Any]) -> dict[str, Any]:
    found["innings"][1]["target"] = {"runs": 30, "overs": 20}
    return found


def _tied(found: dict[str, Any]) -> dict[str, Any]:
    found["info"]["outcome"] = {"result": "tie"}
    return found


def _undecided(found: dict[str, Any]) -> dict[str, Any]:
    found["info"]["outcome"] = {"result": "no result"}
    found["innings"] = found["innings"][:1]
    return found

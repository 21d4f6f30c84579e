"""The layout of a match file: records built from what was played."""

import random
from collections import Counter
from datetime import timedelta

from demo_data import league
from demo_data.league import GROUNDS, Fixture
from demo_data.play import Innings
from demo_data.sides import Side

# First season of each version of the file layout.
DATA_VERSIONS = {2009: "1.0.0", 2014: "1.1.0", 2019: "1.2.0"}
SEASON_AS_NUMBER_UNTIL = 2013
CITY_MISSING, SECOND_SPELLING, REVISED, HERO_MISSING = 0.08, 0.3, 0.05, 0.02
POWERPLAY = {"from": 0.1, "to": 9.6, "type": "mandatory"}
RUNS_WORTH_A_WICKET = 22
NOT_THE_BOWLERS = ("run out", "retired hurt", "obstructing the field")


def innings_record(innings: Innings) -> dict:
    """Return an innings in the layout of the match files."""
    limits = innings.limits
    record: dict = {"team": innings.batting.club, "overs": innings.overs}
    if not limits.first_over and limits.overs == league.OVERS:
        record["powerplays"] = [dict(POWERPLAY)]
    if limits.target is not None:
        record["target"] = {"runs": limits.target, "overs": limits.overs}
    if innings.miscounted:
        record["miscounted_overs"] = innings.miscounted
    return record


def match_record(
    rng: random.Random,
    fixture: Fixture,
    sides: tuple[Side, Side],
    toss: dict,
    outcome: dict,
    played: list[Innings],
) -> dict:
    """Return meta and info of a match."""
    info = {
        "balls_per_over": 6,
        **_place(rng, fixture),
        "dates": [fixture.day.isoformat()],
        "event": {"name": league.LEAGUE, "match_number": fixture.number},
        "gender": league.GENDER,
        "match_type": league.MATCH_TYPE,
        "outcome": outcome,
        "overs": league.OVERS,
        **_hero(rng, outcome, played),
        "players": {side.club: [p.name for p in side.eleven] for side in sides},
        "registry": {"people": _registry(sides, played)},
        "season": _season(fixture.season),
        "team_type": "club",
        "teams": [side.club for side in sides],
        "toss": toss,
    }
    return {"meta": _meta(rng, fixture), "info": info}


def _meta(rng: random.Random, fixture: Fixture) -> dict:
    version = [v for first, v in DATA_VERSIONS.items() if first <= fixture.season][-1]
    created = fixture.day + timedelta(days=rng.randint(1, 5))
    revision = 2 if rng.random() < REVISED else 1
    return {"data_version": version, "created": created.isoformat(), "revision": revision}


def _season(season: int) -> int | str:
    """Return the label, which older files hold as a number."""
    return season if season <= SEASON_AS_NUMBER_UNTIL else str(season)


def _place(rng: random.Random, fixture: Fixture) -> dict:
    ground = GROUNDS[fixture.home]
    usual, *others = ground.spellings
    venue = others[0] if others and rng.random() < SECOND_SPELLING else usual
    if rng.random() < CITY_MISSING:
        return {"venue": venue}
    return {"city": ground.city, "venue": venue}


def _registry(sides: tuple[Side, Side], played: list[Innings]) -> dict[str, str]:
    people = [p for side in sides for p in side.eleven]
    people += [guest for innings in played for guest in innings.guests]
    return {p.name: p.player_id for p in sorted(people, key=lambda player: player.name)}


def _hero(rng: random.Random, outcome: dict, played: list[Innings]) -> dict:
    """Name the player of the match: runs and wickets for the winners, when there are any."""
    winner = outcome.get("winner") or outcome.get("eliminator")
    if winner is None:
        return {}
    if rng.random() < HERO_MISSING:
        return {"missing": ["player_of_match"]}
    worth: Counter[str] = Counter()
    for innings in played:
        batting = innings.batting.club == winner
        for over in innings.overs:
            for delivery in over["deliveries"]:
                _credit(worth, delivery, batting=batting)
    return {"player_of_match": [worth.most_common(1)[0][0]]}


def _credit(worth: Counter[str], delivery: dict, *, batting: bool) -> None:
    if batting:
        worth[delivery["batter"]] += delivery["runs"]["batter"]
        return
    for wicket in delivery.get("wickets", []):
        if wicket["kind"] not in NOT_THE_BOWLERS:
            worth[delivery["bowler"]] += RUNS_WORTH_A_WICKET

"""The invented league: clubs, grounds and the fixtures of each season."""

import random
from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta

LEAGUE = "Tidewater Shield"
COUNTRY = "Lower Merrow"
GENDER = "female"
MATCH_TYPE = "domestic one-day"
OVERS = 50

# Weeks after the first Saturday from 8 April on which the ten rounds are played.
ROUND_WEEKS = (0, 2, 4, 6, 9, 11, 13, 16, 18, 21)


@dataclass(frozen=True)
class Ground:
    """A home ground; `spellings` are the names found in the tables, the usual one first."""

    name: str
    city: str
    region: str
    spellings: tuple[str, ...]


# Club (named after its town) and home ground.
GROUNDS = {
    "Brackhaven": Ground(
        "Saltstair Ground",
        "Brackhaven",
        "coast",
        ("Saltstair Ground", "Saltstair Ground, Brackhaven"),
    ),
    "Tolmere": Ground("Gullwick Field", "Tolmere", "coast", ("Gullwick Field",)),
    "Quillport": Ground("Lanternquay", "Quillport", "coast", ("Lanternquay",)),
    "Ostrel": Ground("Kelpgate Ground", "Ostrel", "coast", ("Kelpgate Ground",)),
    "Fennmoor": Ground("Reedlatch Park", "Fennmoor", "inland", ("Reedlatch Park", "Reedlatch Pk")),
    "Highcairn": Ground("Stonewether Field", "Highcairn", "inland", ("Stonewether Field",)),
    "Varrowdale": Ground("Orchardrow Ground", "Varrowdale", "inland", ("Orchardrow Ground",)),
    "Ashendyke": Ground("Cinderlane Park", "Ashendyke", "inland", ("Cinderlane Park",)),
}
CLUBS = tuple(GROUNDS)
REGION_OF_CLUB = {club: ground.region for club, ground in GROUNDS.items()}


@dataclass(frozen=True)
class Fixture:
    """One match of the schedule."""

    match_id: str
    season: int
    number: int
    home: str
    away: str
    day: date


def fixtures(rng: random.Random, season: int) -> list[Fixture]:
    """Return the 40 matches of a season: ten rounds, five home matches for every club."""
    rounds = _rounds(rng)
    pairs = _home_and_away(rng, [pair for games in rounds for pair in games])
    days = [_match_day(rng, season, index // (len(CLUBS) // 2)) for index in range(len(pairs))]
    ordered = sorted(zip(days, pairs, strict=True))
    return [
        Fixture(f"ts-{season}-{number:02d}", season, number, home, away, day)
        for number, (day, (home, away)) in enumerate(ordered, start=1)
    ]


def _rounds(rng: random.Random) -> list[list[tuple[str, str]]]:
    """Pair all clubs once by the circle method, then play the first three rounds again."""
    fixed, *others = rng.sample(CLUBS, len(CLUBS))
    rounds = []
    for _ in range(len(CLUBS) - 1):
        circle = [fixed, *others]
        half = len(circle) // 2
        rounds.append(list(zip(circle[:half], reversed(circle[half:]), strict=True)))
        others = others[1:] + others[:1]
    return rounds + rounds[:3]


def _home_and_away(rng: random.Random, pairs: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """Decide who is at home so that every club is at home half the time.

    Every club has an even number of matches, so walking along unused matches always comes back
    to where it began; the club walked from is at home, and no club ends with a surplus.
    """
    at: dict[str, list[int]] = defaultdict(list)
    for index, pair in enumerate(pairs):
        for club in pair:
            at[club].append(index)
    for indices in at.values():
        rng.shuffle(indices)
    decided: dict[int, tuple[str, str]] = {}
    for start in CLUBS:
        _walk(start, at, pairs, decided)
    return [decided[index] for index in range(len(pairs))]


def _walk(
    start: str,
    at: dict[str, list[int]],
    pairs: list[tuple[str, str]],
    decided: dict[int, tuple[str, str]],
) -> None:
    """Follow unused matches from a club until it has none left."""
    home = start
    while at[home]:
        index = at[home].pop()
        if index in decided:
            continue
        away = next(club for club in pairs[index] if club != home)
        decided[index] = (home, away)
        home = away


def _match_day(rng: random.Random, season: int, round_index: int) -> date:
    """Return a Saturday or Sunday of the round."""
    opening = date(season, 4, 8)
    saturday = opening + timedelta(days=(5 - opening.weekday()) % 7)
    return saturday + timedelta(weeks=ROUND_WEEKS[round_index], days=rng.randint(0, 1))

"""Venues that look like spellings of one ground: proposed to the researcher, never applied.

Two names are alike when they have the same words and numbers, whatever their order, accents, common
short forms and town, and no town that they name speaks against it. A number makes another ground.
"""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from functools import cached_property
from typing import Any

import duckdb

from pipeline.clean.gazetteer import folded

SHORT = {
    **{"st": "saint", "ste": "saint", "mt": "mount", "ft": "fort", "pk": "park", "prk": "park"},
    **{"fd": "field", "fld": "field", "flds": "fields", "gd": "ground", "gnd": "ground"},
    **{"grd": "ground", "grnd": "ground", "std": "stadium", "stad": "stadium", "rd": "road"},
    **{"ave": "avenue", "rec": "recreation", "univ": "university", "uni": "university"},
    **{"coll": "college", "sch": "school", "intl": "international", "sq": "square"},
    **{"cg": "ground", "cc": "club", "xi": "11", "grounds": "ground"},
}
NUMBERS = {
    **{"one": "1", "two": "2", "three": "3", "four": "4", "i": "1", "ii": "2", "iii": "3"},
    **{"iv": "4", "first": "1", "second": "2", "third": "3", "main": "main"},
}
DROPPED = {"the", "cricket", "and", "no", "number", "nr", "num"}
# Words that many grounds bear: with no other, they need a town in common.
COMMON = {"ground", "oval", "park", "field", "fields", "stadium", "green", "club", "recreation"}
ALIKE = 0.9  # of the letters in common: a slip of the pen, asked only within one town


@dataclass(frozen=True)
class Venue:
    """A spelling: its own city as files write it, its ground, and the cities that are known of it.

    `settled` where the grounds' sheet says which ground it is.
    """

    venue: str
    venue_city: str
    ground: str
    cities: tuple[str, ...] = ()
    balls: int = 0
    settled: bool = False

    @cached_property
    def words(self) -> tuple[str, ...]:
        """What it is called, in the order of the alphabet."""
        main, *rest = _parts(self.venue)
        own = [main, *(part for part in rest if _numbered(part))]
        return tuple(sorted(word for part in own for word in part if word not in DROPPED))

    @cached_property
    def towns(self) -> frozenset[str]:
        """The towns that its name and the data name."""
        parts = [part for part in _parts(self.venue)[1:] if not _numbered(part)]
        told = [*parts, *(_spelled(city) for city in (*self.cities, self.venue_city))]
        return frozenset(" ".join(words) for words in told if words)

    @property
    def numbers(self) -> list[str]:
        return [word for word in self.words if _is_number(word)]


@dataclass
class Proposal:
    """The ground that a spelling may be one of, and the spellings that speak for it, with why."""

    ground: str
    same_as: list[str] = field(default_factory=list)


# Spellings of the matches, with what the sheet says of them; and those of the sheet alone.
VENUES = """
WITH met AS (
    SELECT m.venue, coalesce(m.venue_city, '') AS venue_city, m.ground, m.city,
        coalesce(sum(b.balls), 0)::BIGINT AS balls
    FROM matches m
    LEFT JOIN innings b USING (match_id)
    WHERE m.venue IS NOT NULL GROUP BY ALL
)
SELECT venue, venue_city, ground, city, balls, EXISTS (
        SELECT 1 FROM grounds g WHERE g.venue = trim(met.venue) AND g.ground <> 'unknown'
            AND g.venue_city IN ('', trim(met.venue_city))
    ) AS settled
FROM met
UNION ALL
SELECT venue, venue_city, ground, city, 0, true FROM grounds
WHERE ground <> 'unknown' AND venue NOT IN (SELECT trim(venue) FROM met)
ORDER BY venue, venue_city
"""


def venues_met(db: duckdb.DuckDBPyConnection) -> list[Venue]:
    """Every spelling of the data and of the sheet. Reads `matches`, `innings` and `grounds`."""
    rows: list[dict[str, Any]] = db.sql(VENUES).to_arrow_table().to_pylist()
    cities = [row.pop("city") for row in rows]
    return [
        Venue(**row, cities=() if city == "unknown" else (city,))
        for row, city in zip(rows, cities, strict=True)
    ]


def proposals(venues: list[Venue]) -> dict[tuple[str, str], Proposal]:
    """For each spelling that is not settled, by venue and its city: what it may be the same as."""
    found: dict[tuple[str, str], Proposal] = {}
    for venue, others in _alike(venues).items():
        best = max([venue, *(other for other, _ in others)], key=_weight)
        told = [f"{other.venue} ({why})" for other, why in others]
        found[venue.venue, venue.venue_city] = Proposal(best.ground, list(dict.fromkeys(told)))
    return found


def _weight(venue: Venue) -> tuple[bool, int, str]:
    """A ground of the sheet before any other; then the spelling of the most balls."""
    return venue.settled, venue.balls, venue.ground


def _alike(venues: list[Venue]) -> dict[Venue, list[tuple[Venue, str]]]:
    by_words: dict[tuple[str, ...], list[Venue]] = defaultdict(list)
    by_town: dict[str, list[Venue]] = defaultdict(list)
    for venue in venues:
        by_words[venue.words].append(venue)
        for town in venue.towns:
            by_town[town].append(venue)
    made = {}
    for venue in venues:
        near = [*by_words[venue.words], *(o for town in sorted(venue.towns) for o in by_town[town])]
        others = [
            (other, why)
            for other in dict.fromkeys(near)
            if other.ground != venue.ground and (why := _why(venue, other))
        ]
        if others and not venue.settled:
            made[venue] = others
    return made


def _why(one: Venue, other: Venue) -> str:
    """Why two spellings may be one ground; nothing where they may not."""
    shared = sorted(one.towns & other.towns)
    if not one.words or not other.words:  # in letters that folding does not know
        return ""
    if one.words == other.words:
        if shared:
            return f"the same name, in {shared[0].title()}"
        apart = (one.towns and other.towns) or COMMON.issuperset(one.words)
        return "" if apart else "the same name; a town is not known"
    if not shared or one.numbers != other.numbers:
        return ""
    texts = " ".join(one.words), " ".join(other.words)
    alike = SequenceMatcher(None, *texts).ratio() >= ALIKE
    return f"spelled alike, in {shared[0].title()}" if alike else ""


def _parts(name: str) -> list[list[str]]:
    """The words of each part between commas or brackets; the first is never left out."""
    first, *rest = re.split(r"[,()]", name)
    return [_spelled(first), *(words for part in rest if (words := _spelled(part)))]


def _spelled(text: str) -> list[str]:
    """Folded words with common short forms written out; 'St' is a street at a name's end."""
    words = folded(re.sub("['\u2019]", "", text)).split()
    made = []
    for at, word in enumerate(words):
        if word == "st" and at and at == len(words) - 1:
            made.append("street")
        elif at and word in NUMBERS:
            made.append(NUMBERS[word])
        else:
            made.append(SHORT.get(word, word))
    return made


def _numbered(words: list[str]) -> bool:
    """A part such as 'No. 2' or 'Ground B' belongs to the name; any other is a town."""
    return any(map(_is_number, words))


def _is_number(word: str) -> bool:
    return word.isdecimal() or len(word) == 1 or word == "main"

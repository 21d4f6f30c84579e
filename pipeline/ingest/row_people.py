"""Who is on each row: ids from a column, from the file beside the rows, or name, gender, side."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable
from typing import NamedTuple

import numpy as np
import pyarrow as pa

from pipeline.ingest.columns import Codes, Person, without_id
from pipeline.ingest.limits import MOST_PEOPLE
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.row_order import Played
from pipeline.ingest.text_blocks import constant

# Who is on which side.
ROLES = {
    **dict.fromkeys(("batter", "non_striker", "player_out", "other_player_out"), "batting_team"),
    "bowler": "bowling_team",
}
LARGEST = 2**62  # of a number in a column
ENDS = ("batter", "non_striker")


class Beside(NamedTuple):
    """What is known of a match's people apart from its rows: their gender, and ids by name."""

    gender: str
    ids: dict[str, str]


class Somebody(NamedTuple):
    """A distinct person of a role, as the rows write them."""

    match: int
    name: str
    known: str
    team: str


class Roles:
    """The people of a block: for each role a place in `somebody` for every row."""

    def __init__(self, played: Played):
        self.rows: dict[str, np.ndarray] = {}
        self.somebody: dict[str, list[Somebody]] = {}
        for role, side in ROLES.items():
            if role in played.block.columns:
                self._add(played, role, side)

    def _add(self, played: Played, role: str, side: str) -> None:
        """Match, name, id and side together, of which the distinct ones are looked at."""
        columns = played.block.columns
        given = columns.get(f"{role}_id") or constant("", len(played))
        parts = (columns[role], given, columns[side])
        coded = [(part.codes, len(part.values)) for part in parts]
        rows, distinct = together([(played.match, len(played.matches)), *coded])
        self.rows[role] = rows
        self.somebody[role] = [
            Somebody(match, *(part.values[code] for part, code in zip(parts, codes, strict=True)))
            for match, *codes in distinct
        ]

    def crowded(self) -> np.ndarray:
        """Matches (their places) with more people at the two ends than there may be."""
        places = [each.match for role in ENDS for each in self.somebody[role]]
        return np.flatnonzero(np.bincount(np.array(places, np.int64)) > MOST_PEOPLE)


def together(columns: list[tuple[np.ndarray, int]]) -> tuple[np.ndarray, list[tuple[int, ...]]]:
    """Columns of codes (each with how many there are) as one; and the codes of its distinct rows.

    By one number a row; by halves where that would have no room.
    """
    if math.prod(size for _, size in columns) >= LARGEST:
        half = len(columns) // 2
        (left, of_left), (right, of_right) = together(columns[:half]), together(columns[half:])
        rows, pairs = together([(left, len(of_left)), (right, len(of_right))])
        return rows, [of_left[one] + of_right[other] for one, other in pairs]
    key = np.zeros(len(columns[0][0]), np.int64)
    for codes, size in columns:
        key = key * size + codes
    coded = pa.array(key).dictionary_encode()
    numbers = coded.dictionary.to_numpy()
    apart = []
    for _, size in reversed(columns):
        numbers, codes = np.divmod(numbers, max(size, 1))
        apart.append(codes.tolist())
    return coded.indices.to_numpy(), list(zip(*reversed(apart), strict=True))


def check_crowds(played: Played, roles: Roles, mistakes: Mistakes) -> None:
    wrong = np.isin(played.match, roles.crowded())
    message = f"more than {MOST_PEOPLE} people at the two ends in one match"
    mistakes.add(played.block, wrong, message)


class People(NamedTuple):
    """Everybody of a block, a column of ids for each role, and shared names by match."""

    found: set[Person]
    columns: dict[str, pa.DictionaryArray]
    shared: dict[int, str]


def identified(roles: Roles, beside: Callable[[int], Beside]) -> People:
    """The people by their ids; `beside` says what is known of a match, by its place."""
    found: set[Person] = set()
    sides: defaultdict[tuple[int, str], dict[str, str]] = defaultdict(dict)
    columns = {}
    for role, everybody in roles.somebody.items():
        ids, codes = Codes(), []
        for each in everybody:
            gender, known = beside(each.match)
            identity = each.known or known.get(each.name)
            made = identity or without_id(each.name, gender, each.team)
            codes.append(ids[made])
            if each.name:
                found.add(Person(made, each.name, gender, each.team, bool(identity)))
                sides[each.match, made].setdefault(each.team, each.name)
        columns[role] = ids.column(np.array(codes, np.int32)[roles.rows[role]])
    return People(found, columns, _shared(sides))


def _shared(sides: dict[tuple[int, str], dict[str, str]]) -> dict[int, str]:
    """Names that one id bears on both sides of a match, as 'a; b'."""
    names: defaultdict[int, set[str]] = defaultdict(set)
    for (match, _), teams in sides.items():
        if len(teams) > 1:
            names[match] |= set(teams.values())
    return {match: "; ".join(sorted(found)) for match, found in names.items()}

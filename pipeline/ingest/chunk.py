"""Gathering many matches into columns: what every layout's reader writes into."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from pipeline.ingest.columns import EXTRAS, Codes, Person, Tables, finish

CELLS = 4  # of a ball: batter, non-striker, bowler, runs off the bat


class BadMatch(Exception):
    """A match that cannot be used: the place in it, and why."""


@dataclass
class Played:
    """The balls of one innings; extras and wickets are sparse, by row within it.

    `cells` are batter, non-striker, bowler (places in the list of the match's people) and runs off
    the bat of each ball, a byte each; `extras` a row and its five kinds, after each other too.
    """

    number: int
    batting: str
    bowling: str
    overs: list[int]
    over_lengths: list[int]
    cells: bytes
    extras: list[int] = field(default_factory=list)
    wickets: list[tuple[int, str, str]] = field(default_factory=list)
    non_boundary: list[int] = field(default_factory=list)


@dataclass
class Chunk:
    """Columns under construction; `known` are the identities of each match's people."""

    ids: Codes = field(default_factory=Codes)
    identities: Codes = field(default_factory=Codes)
    teams: Codes = field(default_factory=Codes)
    people: set[Person] = field(default_factory=set)
    known: list[int] = field(default_factory=list)
    lengths: list[tuple[int, int, int, int, int, int]] = field(default_factory=list)
    overs: list[int] = field(default_factory=list)
    over_lengths: list[int] = field(default_factory=list)
    cells: list[bytes] = field(default_factory=list)
    extras: list[np.ndarray] = field(default_factory=list)
    non_boundary: list[int] = field(default_factory=list)
    wickets: list[tuple[int, str, str]] = field(default_factory=list)
    matches: list[dict[str, Any]] = field(default_factory=list)
    innings: list[dict[str, Any]] = field(default_factory=list)
    rows: int = 0

    def add_innings(self, match_id: str, people: list[str], innings: list[Played]) -> None:
        """Append the balls of a match, whose people have these ids."""
        begin = len(self.known)
        self.known += [self.identities[identity] for identity in people]
        for played in innings:
            self._add(self.ids[match_id], begin, played)

    def _add(self, match: int, begin: int, played: Played) -> None:
        first, count = self.rows, len(played.cells) // CELLS
        sides = (self.teams[played.batting], self.teams[played.bowling])
        self.lengths.append((match, played.number, *sides, begin, count))
        self.overs += played.overs
        self.over_lengths += played.over_lengths
        self.cells.append(played.cells)
        extras = np.array(played.extras, np.int64).reshape(-1, len(EXTRAS) + 1)
        extras[:, 0] += first
        self.extras.append(extras)
        self.wickets += [(first + row, kind, player) for row, kind, player in played.wickets]
        self.non_boundary += [first + row for row in played.non_boundary]
        self.rows += count

    def tables(self) -> Tables:
        """Everything gathered so far, with the columns that the Laws add."""
        return finish(self._raw(), self.wickets, self.matches, self.innings, self.people)

    def _raw(self) -> dict[str, Any]:
        lengths = np.array(self.lengths, np.int32).reshape(-1, 6)
        match, innings, batting, bowling, begin, count = lengths.T
        over_length = np.array(self.over_lengths, np.int64)
        starts = np.cumsum(over_length) - over_length
        cells = np.frombuffer(b"".join(self.cells), np.uint8).reshape(-1, CELLS).T
        known = np.array(self.known or [0], np.int32)
        begins = np.repeat(begin, count)
        batter, non_striker, bowler = (known[codes + begins] for codes in cells[:3])
        raw: dict[str, Any] = {
            "match_id": self.ids.column(np.repeat(match, count)),
            "innings": np.repeat(innings.astype(np.int8), count),
            "over": np.repeat(np.array(self.overs, np.int16), over_length),
            "delivery": (np.arange(self.rows) - np.repeat(starts, over_length) + 1).astype("i2"),
            "batter_id": self.identities.column(batter),
            "non_striker_id": self.identities.column(non_striker),
            "bowler_id": self.identities.column(bowler),
            "batting_team": self.teams.column(np.repeat(batting, count)),
            "bowling_team": self.teams.column(np.repeat(bowling, count)),
            "runs_batter": cells[3].astype(np.int16),
        }
        extras = np.concatenate(self.extras).T if self.extras else np.zeros((6, 0), np.int64)
        for name, part in zip(EXTRAS, extras[1:], strict=True):
            raw[name] = _scatter(extras[0], part, self.rows)
        raw["non_boundary"] = _flags(self.non_boundary, self.rows)
        raw["delivered"] = np.ones(self.rows, bool)
        return raw


def _scatter(rows: np.ndarray, values: np.ndarray, length: int) -> np.ndarray:
    column = np.zeros(length, np.int16)
    column[rows] = values
    return column


def _flags(rows: list[int], length: int) -> np.ndarray:
    column = np.zeros(length, bool)
    column[rows] = True
    return column

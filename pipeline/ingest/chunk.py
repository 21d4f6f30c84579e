"""Gathering many matches into columns: what every layout's reader writes into."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from pipeline.ingest.columns import EXTRAS, Codes, Person, Tables, finish


class BadMatch(Exception):
    """A match that cannot be used: the place in it, and why."""


@dataclass
class Played:
    """The balls of one innings as arrays; extras and wickets are sparse, by row within it."""

    number: int
    batting: str
    bowling: str
    overs: list[int]
    over_lengths: list[int]
    batter: np.ndarray
    non_striker: np.ndarray
    bowler: np.ndarray
    runs_batter: np.ndarray
    extras: list[tuple[int, int, int, int, int, int]]
    wickets: list[tuple[int, str, str]]
    non_boundary: list[int]


@dataclass
class Chunk:
    """Columns under construction."""

    ids: Codes = field(default_factory=Codes)
    identities: Codes = field(default_factory=Codes)
    teams: Codes = field(default_factory=Codes)
    people: set[Person] = field(default_factory=set)
    lengths: list[tuple[int, int, int, int, int]] = field(default_factory=list)
    overs: list[int] = field(default_factory=list)
    over_lengths: list[int] = field(default_factory=list)
    batter: list[np.ndarray] = field(default_factory=list)
    non_striker: list[np.ndarray] = field(default_factory=list)
    bowler: list[np.ndarray] = field(default_factory=list)
    runs_batter: list[np.ndarray] = field(default_factory=list)
    extras: list[tuple[int, int, int, int, int, int]] = field(default_factory=list)
    non_boundary: list[int] = field(default_factory=list)
    wickets: list[tuple[int, str, str]] = field(default_factory=list)
    matches: list[dict[str, Any]] = field(default_factory=list)
    innings: list[dict[str, Any]] = field(default_factory=list)
    rows: int = 0

    def add_innings(self, match_id: str, played: Played) -> None:
        """Append one innings' balls."""
        first, count = self.rows, len(played.runs_batter)
        sides = (self.teams[played.batting], self.teams[played.bowling])
        self.lengths.append((self.ids[match_id], played.number, *sides, count))
        self.overs += played.overs
        self.over_lengths += played.over_lengths
        self.batter.append(played.batter)
        self.non_striker.append(played.non_striker)
        self.bowler.append(played.bowler)
        self.runs_batter.append(played.runs_batter)
        self.extras += [
            (first + row, wides, noballs, byes, legbyes, penalty)
            for row, wides, noballs, byes, legbyes, penalty in played.extras
        ]
        self.wickets += [(first + row, kind, player) for row, kind, player in played.wickets]
        self.non_boundary += [first + row for row in played.non_boundary]
        self.rows += count

    def tables(self) -> Tables:
        """Everything gathered so far, with the columns that the Laws add."""
        return finish(self._raw(), self.wickets, self.matches, self.innings, self.people)

    def _raw(self) -> dict[str, Any]:
        lengths = np.array(self.lengths, np.int32).reshape(-1, 5)
        match, innings, batting, bowling, count = lengths.T
        over_length = np.array(self.over_lengths, np.int64)
        starts = np.cumsum(over_length) - over_length
        raw: dict[str, Any] = {
            "match_id": self.ids.column(np.repeat(match, count)),
            "innings": np.repeat(innings.astype(np.int8), count),
            "over": np.repeat(np.array(self.overs, np.int16), over_length),
            "delivery": (np.arange(self.rows) - np.repeat(starts, over_length) + 1).astype("i2"),
            "batter_id": self.identities.column(_joined(self.batter, np.int32)),
            "non_striker_id": self.identities.column(_joined(self.non_striker, np.int32)),
            "bowler_id": self.identities.column(_joined(self.bowler, np.int32)),
            "batting_team": self.teams.column(np.repeat(batting, count)),
            "bowling_team": self.teams.column(np.repeat(bowling, count)),
            "runs_batter": _joined(self.runs_batter, np.int16),
        }
        extras = np.array(self.extras, np.int64).reshape(-1, 6).T
        for name, part in zip(EXTRAS, extras[1:], strict=True):
            raw[name] = _scatter(extras[0], part, self.rows)
        raw["non_boundary"] = _flags(self.non_boundary, self.rows)
        raw["delivered"] = np.ones(self.rows, bool)
        return raw


def _joined(parts: list[np.ndarray], kind: Any) -> np.ndarray:
    return np.concatenate(parts, dtype=kind) if parts else np.zeros(0, kind)


def _scatter(rows: np.ndarray, values: np.ndarray, length: int) -> np.ndarray:
    column = np.zeros(length, np.int16)
    column[rows] = values
    return column


def _flags(rows: list[int], length: int) -> np.ndarray:
    column = np.zeros(length, bool)
    column[rows] = True
    return column

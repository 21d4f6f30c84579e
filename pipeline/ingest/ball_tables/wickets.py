"""Which delivery each dismissal is on."""

from __future__ import annotations

from functools import partial
from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc

from pipeline.ingest.ball_tables.checked_rows import Reading, like
from pipeline.ingest.ball_tables.contract import PLACE
from pipeline.ingest.laws import KINDS
from pipeline.ingest.limits import MOST_WICKETS

# Keys of rows whose numbers are no place: none of the one is any of the other.
NO_WICKETS, NO_BALLS = -(2**61), -(2**62)


class Wickets:
    """The dismissals of a source, found by match; which of them belong to a delivery is kept."""

    def __init__(self, dismissals: Reading, matches: dict[str, int]):
        self._reading = dismissals
        self.rows = dismissals.whole()
        at = _matches_of(self.rows, matches)
        order = np.argsort(at, kind="stable")
        self._sorted, self._match = order, at[order]
        self._key = _keys(self.rows, at, NO_WICKETS)[order]
        self._kind, self._player = (self.rows[n].to_pylist() for n in ("kind", "player_out_id"))
        self._seen = np.zeros(len(at), bool)
        self._check(at)

    def _check(self, at: np.ndarray) -> None:
        kinds = self.rows["kind"].cast(pa.string())
        unknown = ~pc.is_in(kinds, value_set=pa.array(["", *KINDS])).to_numpy()
        told = f"'{{kind}}' is no kind of dismissal; expected {', '.join(sorted(KINDS))}"
        tell = self._reading.tell
        tell(self.rows, unknown, "kind", told, partial(like, "kind", sorted(KINDS)))
        tell(self.rows, at < 0, "match", "no match '{match_id}' in matches")

    def of(self, match: np.ndarray, rows: pa.Table) -> list[tuple[int, str, str]]:
        """(row, kind, player out) of a block's dismissals, in the order of its rows.

        `match` are the places in `matches` of the rows' match, which stand together.
        """
        present = np.unique(match[match >= 0])
        first, last = (np.searchsorted(self._match, present, side) for side in ("left", "right"))
        mine = _ranges(first, last)
        key = _keys(rows, match, NO_BALLS)
        order = np.argsort(key, kind="stable")
        place = np.searchsorted(key[order], self._key[mine])
        there = place < len(key)
        there[there] = key[order][place[there]] == self._key[mine][there]
        which = self._sorted[mine][there]
        self._seen[self._sorted[mine]] = True
        self._tell_lost(self._sorted[mine][~there])
        row = order[place[there]]
        self._check_twice(row, which)
        return [
            (int(r), self._kind[w], self._player[w])
            for r, w in sorted(zip(row.tolist(), which.tolist(), strict=True))
        ]

    def _check_twice(self, row: np.ndarray, which: np.ndarray) -> None:
        """Nobody is out twice on one delivery, and no more are than a row has room for."""
        seen: dict[Any, int] = {}
        again = np.zeros(len(self._seen), bool)
        for r, w in zip(row.tolist(), which.tolist(), strict=True):
            key = (r, self._player[w])
            again[w] = key in seen
            seen[key] = w
        message = "a second dismissal of '{player_out_id}' on this delivery; keep one"
        self._reading.tell(self.rows, again, "twice", message)
        rows, counts = np.unique(row, return_counts=True)
        if len(counts) and counts.max() > MOST_WICKETS:
            crowded = np.zeros(len(self._seen), bool)
            crowded[which[np.isin(row, rows[counts > MOST_WICKETS])]] = True
            message = f"more than {MOST_WICKETS} dismissals on one delivery"
            self._reading.tell(self.rows, crowded, "crowded", message)

    def check_all_seen(self) -> None:
        """Name those of matches without deliveries, when all deliveries have been seen."""
        of_no_match = self._sorted[self._match < 0]  # named already
        self._tell_lost(np.setdiff1d(np.flatnonzero(~self._seen), of_no_match))

    def _tell_lost(self, which: np.ndarray) -> None:
        lost = np.zeros(len(self._seen), bool)
        lost[which] = True
        place = "innings {innings}, over {over}, delivery {delivery} of match '{match_id}'"
        message = f"{place} is not in deliveries, and a dismissal needs its delivery"
        self._reading.tell(self.rows, lost, "lost", message)


def _matches_of(rows: pa.Table, matches: dict[str, int]) -> np.ndarray:
    """The place of each row's match in `matches`; -1 for one that is not there."""
    coded = rows["match_id"].combine_chunks()
    values = coded.dictionary.to_pylist()
    known = np.array([matches.get(name, -1) for name in values], np.int64)
    return known[coded.indices.to_numpy()] if len(values) else np.full(len(coded), -1, np.int64)


def _keys(rows: pa.Table, match: np.ndarray, none: int) -> np.ndarray:
    """One number for a delivery of a match; overs and deliveries have three digits, innings two.

    It is `none` where a number has more digits, which would be the delivery of another match.
    """
    key: np.ndarray = match.astype(np.int64)
    beyond = np.zeros(len(key), bool)
    for column in PLACE[1:]:
        number = rows[column.name].to_numpy().astype(np.int64)
        beyond |= (number < column.least) | (number > column.most)
        key = key * (column.most + 1) + number
    return np.where(beyond, none, key)


def _ranges(first: np.ndarray, last: np.ndarray) -> np.ndarray:
    """All whole numbers of some ranges, one after the other."""
    length = last - first
    starts = np.repeat(first - np.concatenate([[0], np.cumsum(length)[:-1]]), length)
    return starts + np.arange(length.sum()) if length.sum() else np.zeros(0, np.int64)

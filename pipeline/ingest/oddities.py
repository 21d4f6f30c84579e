"""Play that is odd, and counted as it was read: it may be true, or a slip of who recorded it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from typing import Any

import numpy as np

from pipeline.contracts.quality import OddPlay

PLAY = (
    *("dismissed_at_neither_end", "batters_in_for_nobody", "batters_at_both_ends"),
    *("bowlers_who_bat_in_the_innings", "overs_past_the_limit"),
    *("winners_of_neither_side", "tosses_won_by_neither_side", "forfeited_with_deliveries"),
)
EMPTY = ("told_of_without_deliveries", "files_without_deliveries")  # of a source's files
KINDS = (*PLAY, *EMPTY)
EXAMPLES = 5  # the most that are named of a kind and source; the count is whole
AT_ONCE = 4_000_000  # innings times people that are looked at together
NEVER_IN = "timed out"  # at neither end by the Laws (40.1)
Wickets = list[tuple[int, str, str]]  # row, kind, player out
Records = list[dict[str, Any]]


def oddities(
    columns: dict[str, Any], wickets: Wickets, matches: Records, innings: Records
) -> dict[str, OddPlay]:
    """How often each kind was found in some whole matches (their balls in order), and the first.

    `columns` are those of the deliveries.
    """
    play = _Play(columns)
    found = (
        *(_dismissed(play, wickets), _in_for_nobody(play, wickets), _both_ends(play)),
        *(_bowlers_who_bat(play), _past_the_limit(play, matches)),
        *(_of_neither(matches, "winner"), _of_neither(matches, "toss_winner")),
        _never_begun(play, innings),
    )
    return {name: _told(*each) for name, each in zip(PLAY, found, strict=True)}


def named(examples: Iterable[str]) -> OddPlay:
    """All of them counted, in order, the first with their names."""
    names = sorted(examples)
    return OddPlay(count=len(names), examples=names[:EXAMPLES], who=[[] for _ in names[:EXAMPLES]])


def merged(parts: Iterable[dict[str, OddPlay]]) -> dict[str, OddPlay]:
    """The counts of several parts added up, with the first examples; every kind is among them."""
    whole = {name: OddPlay(count=0, examples=[]) for name in KINDS}
    for part in parts:
        for name, odd in part.items():
            kept = whole[name]
            whole[name] = OddPlay(
                count=kept.count + odd.count,
                examples=[*kept.examples, *odd.examples][:EXAMPLES],
                who=[*kept.who, *odd.who][:EXAMPLES],
            )
    return whole


Example = tuple[str, list[str]]  # what is said, and the ids of whom
Found = tuple[np.ndarray, Iterator[Example]]  # rows, and what is said of each


def _told(rows: np.ndarray, examples: Iterator[Example]) -> OddPlay:
    first = list(islice(examples, EXAMPLES))
    told, who = [said for said, _ in first], [ids for _, ids in first]
    return OddPlay(count=len(rows), examples=told, who=who)


def _of_people(where: str, ids: list[str]) -> Example:
    return f"{where}: {' and '.join(ids)}", ids


@dataclass
class _Play:
    """The columns as numbers: people as codes of one dictionary."""

    columns: dict[str, Any]

    @cached_property
    def people(self) -> dict[str, int]:
        ids = self.columns["batter_id"].dictionary.to_pylist()
        for role in ("non_striker", "bowler"):
            ids += self.columns[f"{role}_id"].dictionary.to_pylist()
        codes: dict[str, int] = {}
        for each in ids:
            codes.setdefault(each, len(codes))
        return codes

    def role(self, role: str) -> np.ndarray:
        column = self.columns[f"{role}_id"]
        of_code = [self.people[each] for each in column.dictionary.to_pylist()]
        codes: np.ndarray = np.array(of_code, np.int32)[column.indices.to_numpy()]
        return codes

    @cached_property
    def batter(self) -> np.ndarray:
        return self.role("batter")

    @cached_property
    def other(self) -> np.ndarray:
        return self.role("non_striker")

    @cached_property
    def match(self) -> np.ndarray:
        codes: np.ndarray = self.columns["match_id"].indices.to_numpy()
        return codes

    @cached_property
    def begins(self) -> np.ndarray:
        """Flags of the first ball of each innings."""
        innings = np.asarray(self.columns["innings"])
        found = np.ones(len(innings), bool)
        found[1:] = (innings[1:] != innings[:-1]) | (self.match[1:] != self.match[:-1])
        return found

    @cached_property
    def innings(self) -> np.ndarray:
        """The innings of each ball, counted through all matches."""
        return np.cumsum(self.begins) - 1

    def name(self, code: int) -> str:
        return list(self.people)[code]

    def of(self, row: int) -> str:
        return f"{self.columns['match_id'][row].as_py()}, innings {self.columns['innings'][row]}"

    def at(self, row: int) -> str:
        over, ball = (self.columns[name][row] for name in ("over", "delivery"))
        return f"{self.of(row)}, over {over}, delivery {ball}"


def _dismissed(play: _Play, wickets: Wickets) -> Found:
    outs = [(row, kind, player) for row, kind, player in wickets if kind != NEVER_IN]
    rows = np.array([row for row, _, _ in outs], np.int64)
    gone = np.array([play.people.get(player, -1) for _, _, player in outs], np.int64)
    odd = np.flatnonzero((gone != play.batter[rows]) & (gone != play.other[rows]))
    told = (
        (f"{play.at(row)}: {player}, {kind}", [player])
        for row, kind, player in (outs[n] for n in odd)
    )
    return rows[odd], told


def _in_for_nobody(play: _Play, wickets: Wickets) -> Found:
    """More new batters than wickets and retirements that were recorded on the ball before."""
    batter, other = play.batter, play.other
    gone = np.bincount([row for row, _, _ in wickets], minlength=len(batter))[:-1]
    new = (batter[1:], other[1:])
    fresh = [(each != batter[:-1]) & (each != other[:-1]) for each in new]
    count = fresh[0].astype(np.int8) + (fresh[1] & (new[0] != new[1]))
    rows = 1 + np.flatnonzero((count > gone) & ~play.begins[1:])

    def told(row: int) -> Example:
        ends = [batter[row]] if fresh[0][row - 1] else []
        ends += [other[row]] if fresh[1][row - 1] else []
        return _of_people(play.at(row), [play.name(end) for end in ends])

    return rows, map(told, rows[:EXAMPLES].tolist())


def _both_ends(play: _Play) -> Found:
    rows = np.flatnonzero(play.batter == play.other)
    return rows, (
        _of_people(play.at(row), [play.name(play.batter[row])]) for row in rows[:EXAMPLES].tolist()
    )


def _bowlers_who_bat(play: _Play) -> Found:
    """Each bowler once an innings."""
    bowler, rows = play.role("bowler"), np.zeros(0, np.int64)
    starts = np.append(np.flatnonzero(play.begins), len(bowler))
    innings = 1 + AT_ONCE // max(len(play.people), 1)
    for first in range(0, len(starts) - 1, innings):
        part = slice(starts[first], starts[min(first + innings, len(starts) - 1)])
        base = (play.innings[part] - first) * len(play.people)
        bats = np.zeros(innings * len(play.people), bool)
        bats[base + play.batter[part]] = bats[base + play.other[part]] = True
        both = np.flatnonzero(bats[base + bowler[part]])
        _, once = np.unique((base + bowler[part])[both], return_index=True)
        rows = np.append(rows, part.start + np.sort(both[once]))
    first = rows[:EXAMPLES].tolist()
    return rows, (_of_people(play.of(row), [play.name(bowler[row])]) for row in first)


def _past_the_limit(play: _Play, matches: Records) -> Found:
    """Each innings once, with its first over past the limit."""
    given = {match["match_id"]: match.get("overs_limit") or 0 for match in matches}
    names = play.columns["match_id"].dictionary.to_pylist()
    limit = np.array([given.get(name, 0) for name in names], np.int64)[play.match]
    past = (np.asarray(play.columns["over"]) > limit) & (limit > 0)
    _, first = np.unique(play.innings[past], return_index=True)
    rows = np.flatnonzero(past)[first]
    over = play.columns["over"]
    told = ((f"{play.of(row)}: over {over[row]} of {limit[row]}", list[str]()) for row in rows)
    return rows, told


def _of_neither(matches: Records, role: str) -> Found:
    """Matches, or tosses, that somebody else won: they would count as won by nobody."""
    odd = [m for m in matches if m.get(role) not in (None, m["team_1"], m["team_2"])]
    told = (f"{m['match_id']}: {m[role]}, of {m['team_1']} and {m['team_2']}" for m in odd)
    return np.zeros(len(odd), np.int64), ((said, list[str]()) for said in told)


def _never_begun(play: _Play, innings: Records) -> Found:
    """Innings that are marked as forfeited, which is not begun, and were bowled in."""
    marked = {(each["match_id"], each["innings"]) for each in innings if each.get("forfeited")}
    starts = np.flatnonzero(play.begins) if marked else np.zeros(0, np.int64)
    numbers, names = play.columns["innings"], play.columns["match_id"]
    rows = [row for row in starts.tolist() if (names[row].as_py(), int(numbers[row])) in marked]
    return np.array(rows, np.int64), ((play.of(row), list[str]()) for row in rows)

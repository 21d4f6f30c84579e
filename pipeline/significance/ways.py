"""The other reasonable ways to ask a headline, fixed in advance: which matches each of them has.

None hangs on a number that was found, but for the match that moves the headline most. A way that is
no other question, since it leaves the matches as they are, or leaves none because all of them are
of that ground or side, is not among them; one that leaves too few is, and is refused like any.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

import numpy as np
import pandas as pd

from pipeline.contracts.codes import Stretch, Way
from pipeline.contracts.selection import Season
from pipeline.contracts.timing import OUTSIDE, Timing, Windows
from pipeline.periods import Grid
from pipeline.significance.arrays import WINDOWS
from pipeline.significance.methods.ratio import Bools
from pipeline.significance.moved_windows import moved_windows

LEAST = 3  # matches of a ground or a side that is left out
UNKNOWN = "unknown"
BOTH = "both"  # windows at once


class Asked(NamedTuple):
    """One way: its kind, what it is of, and its matches of each window."""

    kind: Way
    what: str
    before: Bools
    after: Bools

    @property
    def matches(self) -> int:
        return int(self.before.sum() + self.after.sum())

    def only(self, kept: Bools) -> Asked:
        """The same of some matches alone."""
        return self._replace(before=self.before & kept, after=self.after & kept)

    def without(self, kind: Way, what: str, gone: Bools) -> Asked:
        """The same without some matches."""
        return Asked(kind, what, self.before & ~gone, self.after & ~gone)


class Played(NamedTuple):
    """Every match of a question: its season, first day, ground, two sides, if it was shortened."""

    season: list[str]
    day: list[date]
    ground: list[str | None]
    sides: list[tuple[str | None, str | None]]
    reduced: Bools

    def called(self, at: int) -> str:
        """A match as it is named: 'Quillport v Foxley, 2018-05-12'."""
        names = [name for name in self.sides[at] if name]
        return ", ".join([*([" v ".join(names)] if names else []), self.day[at].isoformat()])


def played_of(matches: pd.DataFrame) -> Played:
    """Of a table with a row a match."""
    days = [date.fromisoformat(day) if isinstance(day, str) else day for day in matches["date"]]
    grounds = [_known(name) for name in matches["ground"]]
    pairs = zip(matches["team_1"], matches["team_2"], strict=True)
    sides = [(_known(one), _known(other)) for one, other in pairs]
    return Played(
        list(matches["season"]), days, grounds, sides, matches["reduced"].eq(True).to_numpy(bool)
    )


def stretch_of(timing: Timing, windows: Windows) -> Stretch:
    """What is left out, or added, at a time: anything shorter than a year is too little to."""
    return "season" if windows.of_seasons or timing.unit == "season" else "year"


def own_way(played: Played, windows: Windows) -> Asked:
    """The headline itself, as it is asked: the matches of its two windows."""
    sides = [windows.side(*match) for match in zip(played.season, played.day, strict=True)]
    before, after = (np.array([side == name for side in sides], bool) for name in WINDOWS)
    return Asked("match", "", before, after)


def ways(
    played: Played, own: Asked, timing: Timing, seasons: list[Season], grid: Grid
) -> list[Asked]:
    """All ways but those that take a number to find them; `grid` is that of the stretches."""
    periods = list(_left_out(own, "period", _periods(played, grid)))
    found = [
        *_other_windows(played, own, timing, seasons, periods),
        *periods,
        *_left_out(own, "ground", _grounds(played)),
        *_left_out(own, "side", _sides(played)),
        own.without("reduced", "", played.reduced),
    ]
    return [one for one in found if not _alike(one, own)]


def of_matches(own: Asked, asked: list[Asked], of_cell: Bools) -> tuple[Asked, list[Asked]]:
    """The same where only some matches (matches,) have anything of what is asked.

    Ways that are no other question of these are left out, as `ways` does.
    """
    mine, others = own.only(of_cell), [one.only(of_cell) for one in asked]
    return mine, [one for one in others if not _alike(one, mine) and not _few(one, mine)]


def _few(one: Asked, own: Asked) -> bool:
    """Whether what it leaves out, or what is left, is too little to be another question."""
    left = bool(one.before.any()), bool(one.after.any())
    if one.kind == "period":
        return not all(left)
    if one.kind in ("ground", "side"):
        return own.matches - one.matches < LEAST or not any(left)
    return False


def _alike(one: Asked, other: Asked) -> bool:
    """Whether both have the same matches."""
    return bool((one.before == other.before).all() and (one.after == other.after).all())


def _left_out(own: Asked, kind: Way, named: list[tuple[str, Bools]]) -> Iterator[Asked]:
    """Each in turn, in the order they come in; of a stretch, only where both windows have more."""
    for name, gone in named:
        one = own.without(kind, name, gone)
        if not _few(one, own):
            yield one


def _periods(played: Played, grid: Grid) -> list[tuple[str, Bools]]:
    labels = np.array(grid.labels(played.season, played.day), object)
    order = sorted(set(labels), key=lambda label: (_first(played, labels == label), label))
    return [(label, labels == label) for label in order]


def _first(played: Played, of_it: Bools) -> date:
    return min(played.day[at] for at in np.flatnonzero(of_it))


def _grounds(played: Played) -> list[tuple[str, Bools]]:
    names = np.array(played.ground, object)
    return [(name, names == name) for name in sorted({name for name in names if name})]


def _sides(played: Played) -> list[tuple[str, Bools]]:
    names = sorted({name for pair in played.sides for name in pair if name})
    return [(name, np.array([name in pair for pair in played.sides], bool)) for name in names]


def _known(name: object) -> str | None:
    return name if isinstance(name, str) and name != UNKNOWN else None


def _other_windows(
    played: Played, own: Asked, timing: Timing, seasons: list[Season], periods: list[Asked]
) -> Iterator[Asked]:
    """Each window a stretch shorter or longer, at the end that is far from the event; then both.

    One that is what is left without a period is among these.
    """
    moved: dict[Way, dict[str, Bools]] = {"shorter": {}, "longer": {}}
    for name in WINDOWS:
        for kind, other in moved_windows(name, timing, seasons):
            matches = zip(played.season, played.day, strict=True)
            moved[kind][name] = np.array([other.holds(*match) for match in matches], bool)
    for kind, masks in moved.items():
        masks = {name: mask for name, mask in masks.items() if mask.any()}
        names = [*masks, *([BOTH] if len(masks) == len(WINDOWS) else [])]
        for name in names:
            before, after = (
                masks[side] if name in (side, BOTH) else mask
                for side, mask in zip(WINDOWS, (own.before, own.after), strict=True)
            )
            one = Asked(kind, name, before & ~own.after, after & ~own.before)
            if not any(_alike(one, without) for without in periods):
                yield one


def widest(found: list[Asked]) -> list[str]:
    """The window of each match in any of the ways; 'outside' of one that is in none."""
    before = np.logical_or.reduce([one.before for one in found])
    after = np.logical_or.reduce([one.after for one in found])
    return [str(side) for side in np.select([before, after], WINDOWS, OUTSIDE)]

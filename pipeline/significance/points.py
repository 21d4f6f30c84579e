"""A series in order of time: what each season or year counts, and what it is counted against."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

import numpy as np
import pandas as pd

from pipeline.calendar import as_day
from pipeline.contracts.timing import Period
from pipeline.periods import Grid
from pipeline.significance.methods.ratio import Bools, Floats
from pipeline.significance.methods.structural_break import Series

NEVER = (date.max, date.max)  # of a stretch that no match fell in
Times = tuple[float, ...]
Counts = tuple[tuple[str, float, float], ...]  # of each point: its label, its count, against what


class Points(NamedTuple):
    """Labels, counts, what they are counted against, each point's first day and its last.

    `time` are their places: 0, 1, 2 and so on of seasons; of others the middle of their matches, a
    stretch of the calendar being one.
    """

    labels: list[str]
    y: Floats
    x: Floats
    first: list[date]
    last: list[date]
    time: Floats

    @property
    def used(self) -> Bools:
        """Points that there is something of: only where nothing was bowled is nothing known."""
        return self.x > 0

    @property
    def undefined(self) -> bool:
        """Whether something was counted at a point that has nothing to divide it by."""
        return bool(np.any(~self.used & (self.y > 0)))

    def series(self, known: tuple[int, ...] = ()) -> Series:
        """The points that are used; each keeps its place in time."""
        used, order = self.used, np.flatnonzero(self.used)
        return Series(self.y[used], self.x[used], self.time[used], known=known, order=order)

    def kept(self) -> Points:
        """The points that are used alone."""
        places = np.flatnonzero(self.used)
        return Points(
            [self.labels[at] for at in places],
            self.y[places],
            self.x[places],
            [self.first[at] for at in places],
            [self.last[at] for at in places],
            self.time[places],
        )


def points_of(rows: pd.DataFrame, periods: Sequence[Period], grid: Grid) -> Points:
    """Every point that a match fell in, those without a count among them, but for short ends.

    `rows` have their period in a column of that name. A stretch of the calendar without a match
    keeps its place.
    """
    parts = {one.label for one in periods if one.part}
    grouped = rows[~rows["period"].isin(parts)].groupby("period")
    first, last = grouped["date"].min(), grouped["date"].max()
    labels = [str(label) for label in first.sort_values(kind="stable").index]
    ends = {label: (as_day(first[label]), as_day(last[label])) for label in labels}
    if labels and grid.unit != "season":
        labels = grid.between(ends[labels[0]][0], ends[labels[-1]][0])
    totals = grouped[["y", "x"]].sum().reindex(labels, fill_value=0)
    y, x = (totals[name].to_numpy(float) for name in ("y", "x"))
    begun, over = ([ends.get(label, NEVER)[at] for label in labels] for at in (0, 1))
    return Points(labels, y, x, begun, over, _places(grid, begun, over))


def _places(grid: Grid, first: list[date], last: list[date]) -> Floats:
    """Where points stand in time: seasons in their order, others in the middle of their matches."""
    if grid.unit == "season":
        return np.arange(len(first), dtype=float)
    places = np.array([grid.place(*days) for days in zip(first, last, strict=True)])
    return places - places[0] if len(places) else places


def series_of(counts: Counts, times: Times) -> Series:
    """The series that a date was found in, from what its finding keeps of it.

    An edition of before the places were kept had them in order alone.
    """
    y, x = (np.array([each[at] for each in counts], float) for at in (1, 2))
    time = np.array(times or range(len(counts)), float)
    return Points([label for label, _, _ in counts], y, x, [], [], time).series()

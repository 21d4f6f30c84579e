"""A series in order of time: what each season or quarter counts, and what it is counted against."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

import numpy as np
import pandas as pd

from pipeline.significance.methods.ratio import Bools, Floats
from pipeline.significance.methods.structural_break import Series

Counts = tuple[tuple[str, float, float], ...]  # of each point: its label, its count, against what


class Points(NamedTuple):
    """Labels, counts, what they are counted against, each point's first day and its last."""

    labels: list[str]
    y: Floats
    x: Floats
    first: list[date]
    last: list[date]

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
        used = self.used
        return Series(self.y[used], self.x[used], np.flatnonzero(used).astype(float), known=known)

    def kept(self) -> Points:
        """The points that are used alone."""
        places = np.flatnonzero(self.used)
        return Points(
            [self.labels[at] for at in places],
            self.y[places],
            self.x[places],
            [self.first[at] for at in places],
            [self.last[at] for at in places],
        )


def period(rows: pd.DataFrame, every: str) -> pd.Series[str]:
    """The point of the series that each row belongs to."""
    if every == "season":
        return rows["season"]
    days = pd.to_datetime(rows["date"])
    return days.dt.year.astype(str) + " Q" + days.dt.quarter.astype(str)


def points_of(rows: pd.DataFrame, every: str) -> Points:
    """Every point that a match fell in, those without a count among them."""
    grouped = rows.groupby(period(rows, every))
    totals = grouped[["y", "x"]].sum()
    first, last = grouped["date"].min(), grouped["date"].max()
    order = first.sort_values(kind="stable").index
    y, x = (totals.loc[order, name].to_numpy(float) for name in ("y", "x"))
    days = [[_day(day) for day in ends.loc[order]] for ends in (first, last)]
    return Points([str(label) for label in order], y, x, *days)


def series_of(counts: Counts) -> Series:
    """The series that a date was found in, from what its finding keeps of it."""
    y, x = (np.array([each[at] for each in counts], float) for at in (1, 2))
    return Points([label for label, _, _ in counts], y, x, [], []).series()


def _day(value: date | str) -> date:
    """Dates of the tallies, whether they are kept as dates or as text."""
    return date.fromisoformat(value) if isinstance(value, str) else value

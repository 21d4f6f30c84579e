"""Rows of innings as totals of matches by whatever the innings are of."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pandas as pd

from pipeline.significance.arrays import WINDOWS
from pipeline.significance.methods.permutation import Labels
from pipeline.significance.methods.ratio import Floats, Sums
from pipeline.significance.methods.split import Weighed


class Divided(NamedTuple):
    """Both windows' match totals by the sorted `names`, and their balls, (matches, names) each."""

    names: list[str]
    a: Sums
    b: Sums
    ball_a: Floats
    ball_b: Floats

    def weighed(self, by_balls: bool) -> tuple[Weighed, Weighed]:
        """With what is shared out among the names: the balls, or the denominator."""
        weights = (self.ball_a, self.ball_b) if by_balls else (self.a.x, self.b.x)
        return Weighed(self.a, weights[0]), Weighed(self.b, weights[1])

    @property
    def shares(self) -> tuple[Floats, Floats]:
        """Each name's share of the balls in each window."""
        before, after = (balls.sum(0) for balls in (self.ball_a, self.ball_b))
        return before / before.sum(), after / after.sum()


def divided(rows: pd.DataFrame, labels: Labels) -> Divided:
    """`labels` (rows,) say what each row is of; rows are of the two windows."""
    names, column = np.unique(np.asarray(labels, str), return_inverse=True)
    sides = [_totals(rows, rows["window"] == window, column, len(names)) for window in WINDOWS]
    (a, ball_a), (b, ball_b) = sides
    return Divided(names.tolist(), a, b, ball_a, ball_b)


def _totals(
    rows: pd.DataFrame, window: pd.Series, column: Labels, names: int
) -> tuple[Sums, Floats]:
    own, place = rows[window], column[window.to_numpy()]
    matches, row = np.unique(own["match_id"].to_numpy(str), return_inverse=True)
    shape = (len(matches), names)
    totals = []
    for name in ("y", "x", "balls"):
        summed = np.zeros(shape)
        np.add.at(summed, (row, place), own[name].to_numpy(float))
        totals.append(summed)
    here = np.zeros(shape, bool)
    here[row, place] = True
    return Sums(totals[0], totals[1], here), totals[2]

"""From the tallies table to arrays of matches by cells."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd

from pipeline.contracts.timing import SIDES
from pipeline.significance.methods.permutation import Labels
from pipeline.significance.methods.ratio import Floats, Sums

WINDOWS = SIDES


@dataclass(frozen=True)
class Pair:
    """Two sides of a comparison over the same cells; `shared` if they have matches in common.

    `ball_a` and `ball_b` are the valid balls of each match and cell; `blocks` the label of each row
    of a, then of b, within which matches may be shuffled; `periods` those of the rows of a, and of
    b, where the tallies have them.
    """

    a: Sums
    b: Sums
    ball_a: Floats
    ball_b: Floats
    blocks: Labels
    shared: bool
    periods: tuple[Labels, Labels] | None = None


def pair(rows: pd.DataFrame, cells: list[str], windows: tuple[str, str]) -> Pair:
    """The two windows' match totals. Rows of both sides are aligned where they share matches."""
    sides = [rows[rows["window"] == window] for window in windows]
    matches = [sorted(side["match_id"].unique()) for side in sides]
    shared = bool(set(matches[0]) & set(matches[1]))
    if shared:
        matches = [sorted({*matches[0], *matches[1]})] * 2
    of_matches = rows.drop_duplicates("match_id").set_index("match_id")
    grounds = _labels(of_matches["ground"], matches)
    period = next((name for name in ("in_time", "period") if name in rows), None)
    periods = _labels(of_matches[period], matches) if period else None
    (a, ball_a), (b, ball_b) = (
        _sums(side, names, cells) for side, names in zip(sides, matches, strict=True)
    )
    return Pair(a, b, ball_a, ball_b, _blocks(*grounds), shared, periods)


def _labels(of_matches: pd.Series, matches: list[list[str]]) -> tuple[Labels, Labels]:
    """What is said of the matches of each side."""
    a, b = (of_matches.loc[names].to_numpy(str) for names in matches)
    return a, b


def _blocks(a: Labels, b: Labels) -> Labels:
    """Grounds as blocks, unless the grounds themselves divide the two sides: then one block."""
    labels = np.concatenate([a, b])
    return labels if set(a) & set(b) else np.zeros(len(labels), int)


def cluster_sums(rows: pd.DataFrame, cells: list[str], sides: tuple[str, str]) -> tuple[Sums, Sums]:
    """Totals of the clusters of both sides, rows the same: those in column `cluster`, A to Z."""
    names = sorted(rows["cluster"].unique())
    added = rows.groupby(["window", "cluster", "cell"], as_index=False)[["y", "x"]].sum()
    named = added.rename(columns={"cluster": "match_id"}).assign(balls=0)
    a, b = (_sums(named[named["window"] == side], names, cells)[0] for side in sides)
    return a, b


def by_period(rows: pd.DataFrame, periods: list[str]) -> tuple[Sums, Floats]:
    """Periods as cells: each match counts in its own only."""
    named = rows.assign(cell=rows["period"])
    return _sums(named, sorted(rows["match_id"].unique()), periods)


def _sums(rows: pd.DataFrame, matches: list[str], cells: list[str]) -> tuple[Sums, Floats]:
    """Match totals of the cells; a cell may be asked for more than once, as a control's is."""
    named = list(dict.fromkeys(cells))
    row = pd.Index(matches).get_indexer(pd.Index(rows["match_id"]))
    column = pd.Index(named).get_indexer(pd.Index(rows["cell"]))
    kept = column >= 0
    shape = (len(matches), len(named))
    y, x, balls = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    here = np.zeros(shape, bool)
    place = (row[kept], column[kept])
    y[place] = rows["y"].to_numpy()[kept]
    x[place] = rows["x"].to_numpy()[kept]
    balls[place] = rows["balls"].to_numpy()[kept]
    here[place] = True
    order = [named.index(cell) for cell in cells]
    return Sums(y[:, order], x[:, order], here[:, order]), balls[:, order]

"""The match whose absence moves a change, or a gap of two changes, the most."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pipeline.contracts.codes import MeasureKind
from pipeline.significance.arrays import Pair
from pipeline.significance.methods.ratio import Bools, Floats, Sums, delete_one, ratio

BEYOND = np.finfo(float).max / 8  # of a match without which there is no number


def most_moving(pairs: Sequence[Pair], places: Sequence[Bools], kind: MeasureKind) -> int:
    """Its place among all matches, the first of several that move it alike.

    `pairs` have one cell each: the change's own, or both groups of a gap; `places` (matches,) are
    those that the rows of their two windows are of. A share moves in points, all else in per cent.
    """
    moved = np.zeros(len(places[0]))
    for sign, one in zip((-1, 1)[-len(pairs) :], pairs, strict=True):
        moved[places[0]] -= sign * _shifts(one.a, kind)
        moved[places[1]] += sign * _shifts(one.b, kind)
    return int(np.argmax(np.abs(moved)))


def _shifts(sums: Sums, kind: MeasureKind) -> Floats:
    """How far one side's number moves without each match; not at all without one it has not."""
    scale = np.asarray if kind == "share" else np.log
    with np.errstate(all="ignore"):
        shift = (scale(delete_one(sums)) - scale(ratio(sums)))[:, 0]
    here = sums.here[:, 0]
    moved: Floats = np.where(here, np.where(np.isfinite(shift), shift, BEYOND), 0.0)
    return moved

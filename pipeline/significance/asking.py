"""What all findings of a question have in common when they are asked again."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from pipeline.contracts.codes import Stretch
from pipeline.contracts.finding import Change, Gap
from pipeline.contracts.timing import OUTSIDE
from pipeline.significance.arrays import WINDOWS, Pair, pair
from pipeline.significance.kinds.gap import cells_of_gap
from pipeline.significance.methods.ratio import Bools, Sums
from pipeline.significance.ways import Asked, Played, own_way, played_of, stretch_of, ways, widest

if TYPE_CHECKING:
    from pipeline.significance.question import Question


class Asking(NamedTuple):
    """All that the findings of a question have in common when they are asked again.

    `whole` are the sums of all their `cells` in the widest windows of any way; `places` are the
    matches of each window among all `played`; `alike` is how alike neighbouring periods are.
    """

    question: Question
    stretch: Stretch
    played: Played
    own: Asked
    ways: list[Asked]
    cells: list[str]
    whole: Pair
    places: list[Bools]
    alike: dict[str, float]

    def of(self, cell: str) -> Pair:
        """The sums of one cell."""
        at = [self.cells.index(cell)]
        whole = self.whole
        a, b = (Sums(each.y[:, at], each.x[:, at], each.here[:, at]) for each in (whole.a, whole.b))
        return replace(whole, a=a, b=b, ball_a=whole.ball_a[:, at], ball_b=whole.ball_b[:, at])


def asking_of(question: Question, findings: Sequence[Change | Gap]) -> Asking:
    """Every way to ask these but the one that takes a number to find it."""
    timing, windows = question.timing, question.windows
    if windows is None:
        raise ValueError(f"beat '{question.beat.id}' has no windows to be asked again in others")
    stretch, every = stretch_of(timing, windows), question.by_period(timing.unit)
    matches = every.drop_duplicates("match_id").sort_values("match_id")
    played = played_of(matches)
    own = own_way(played, windows)
    asked = ways(played, own, timing, question.selection.seasons, question.grid(stretch))
    sides = np.array(widest([own, *asked]))
    of_match = dict(zip(matches["match_id"], sides, strict=True))
    rows = every.assign(window=every["match_id"].map(of_match))
    cells = sorted({cell for finding in findings for cell in cells_of(finding)})
    whole = pair(rows[rows["window"] != OUTSIDE], cells, WINDOWS)
    places = [sides == name for name in WINDOWS]
    alike = _alike(question, findings)
    return Asking(question, stretch, played, own, asked, cells, whole, places, alike)


def cells_of(finding: Change | Gap) -> list[str]:
    """The cell that it is of; of a gap those of both groups."""
    return cells_of_gap(finding) if isinstance(finding, Gap) else [finding.cell]


def apart(names: list[str]) -> str:
    """What the gap of two cells is called."""
    return " against ".join(reversed(names))


def _alike(question: Question, findings: Sequence[Change | Gap]) -> dict[str, float]:
    """How alike neighbouring periods are, of each cell and of each gap; undefined if untold."""
    cells = sorted({cell for finding in findings for cell in cells_of(finding)})
    gaps = [cells_of(finding) for finding in findings if isinstance(finding, Gap)]
    names = [*cells, *map(apart, gaps)]
    own = question.alike(cells)
    if own is None:
        return dict.fromkeys(names, math.nan)
    gapped = question.alike([b for _, b in gaps], [a for a, _ in gaps]) if gaps else None
    return dict(zip(names, [*own, *([] if gapped is None else gapped)], strict=True))

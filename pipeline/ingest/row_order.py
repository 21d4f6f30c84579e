"""Rows in the order of play, whatever order they stood in; and what must hold between them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pipeline.errors import Problem
from pipeline.ingest.limits import MOST_DELIVERIES
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.row_checks import Numbers
from pipeline.ingest.text_blocks import Block

FEW_LABELS = 6  # with fewer, a short innings may have them all again after wides


@dataclass
class Played:
    """Rows in the order of play: those of a match together, then by innings, over and ball."""

    block: Block
    numbers: Numbers

    def __post_init__(self) -> None:
        match, innings = self.block.columns["match_id"].codes, self.numbers.innings
        self.match_begins = _changed(match)
        self.innings_begins = self.match_begins | _changed(innings)
        self.over_begins = self.innings_begins | _changed(self.numbers.over)
        self.matches = np.flatnonzero(self.match_begins)  # the first row of each
        self.innings = np.flatnonzero(self.innings_begins)
        self.match = np.cumsum(self.match_begins) - 1  # a place in `matches` a row

    def __len__(self) -> int:
        return len(self.block)

    def take(self, rows: np.ndarray) -> Played:
        return Played(self.block.take(rows), self.numbers.take(rows))

    def first_of(self, begins: np.ndarray) -> np.ndarray:
        """For each row the row at which its match, innings or over begins."""
        rows = np.arange(len(self))
        first: np.ndarray = np.maximum.accumulate(np.where(begins, rows, 0))
        return first

    def telling(self, starts: np.ndarray, name: str) -> np.ndarray:
        """For each match or innings that begins there the first row in which a column is filled.

        Where none is, that with which it begins.
        """
        filled = np.flatnonzero(self.block.columns[name].having(lambda text: bool(text.strip())))
        filled = np.append(filled, len(self))
        found = filled[np.searchsorted(filled, starts)]
        told: np.ndarray = np.where(found < np.append(starts[1:], len(self)), found, starts)
        return told

    def deliveries(self) -> np.ndarray:
        """The place of each in its over, from 1."""
        place: np.ndarray = np.arange(len(self)) - self.first_of(self.over_begins) + 1
        return place

    def without(self, matches: set[str]) -> Played:
        """Without the rows of some matches."""
        if not matches:
            return self
        bad = self.block.columns["match_id"].having(matches.__contains__)
        return self.take(~bad) if bad.any() else self


def _changed(values: np.ndarray) -> np.ndarray:
    found = np.ones(len(values), bool)
    found[1:] = values[1:] != values[:-1]
    return found


def in_order(block: Block, numbers: Numbers) -> Played:
    """Rows in the order of play.

    Where a row is out of order by innings, over and the label of its ball, all are sorted; the
    balls of an over in which a label stands twice stay as they stood.
    """
    over = block.columns["match_id"].codes.astype(np.int64) * 1_000 + numbers.innings
    over = over * 1_001 + numbers.over
    ball = over * 1_000 + numbers.ball
    if (ball[1:] >= ball[:-1]).all():
        return Played(block, numbers)
    order = np.argsort(ball, kind="stable")
    ordered = ball[order]
    twice = np.unique(ordered[1:][ordered[1:] == ordered[:-1]] // 1_000)
    key = np.where(np.isin(over, twice), over * 1_000, ball)
    if (key[1:] >= key[:-1]).all():
        return Played(block, numbers)
    rows = np.argsort(key, kind="stable")
    return Played(block.take(rows), numbers.take(rows))


def check_sides(played: Played, mistakes: Mistakes) -> None:
    """Two sides a match, one of them batting through an innings."""
    block = played.block
    bat, bowl = (block.columns[f"{does}_team"] for does in ("batting", "bowling"))
    known = {text: code for code, text in enumerate(bat.values)}
    same = np.array([known.get(text, -1 - code) for code, text in enumerate(bowl.values)])
    bowling = same[bowl.codes]  # as a code of the batting sides', negative where it never bats
    mistakes.add(block, bat.codes == bowling, "{batting_team} both bats and bowls")
    first = played.first_of(played.innings_begins)
    other = bat.codes != bat.codes[first]
    mistakes.add(block, other, "innings {innings}: {batting_team} bats, after another side did")
    first = played.first_of(played.match_begins)
    one, two = bat.codes[first], bowling[first]
    third = np.zeros(len(block), bool)
    for side in (bat.codes, bowling):
        third |= (side != one) & (side != two)
    message = "{batting_team} against {bowling_team}: more than two sides in match {match_id}"
    mistakes.add(block, third & (bat.codes != bowling), message)


def check_lengths(played: Played, mistakes: Mistakes) -> None:
    """No over is longer than our columns have room for."""
    first = played.first_of(played.over_begins)
    long = np.flatnonzero(played.deliveries() == MOST_DELIVERIES + 1)
    wrong = np.isin(first, first[long])
    over = played.numbers.over[first[long[:1]]].tolist()
    message = f"more than {MOST_DELIVERIES} deliveries in over {over[0] if over else 0}"
    mistakes.add(played.block, wrong, message)


def check_super_overs(played: Played, mistakes: Mistakes) -> None:
    """An innings is a super over with all of its rows, or with none: else a part would be lost."""
    marked = played.numbers.flags["super_over"]
    other = marked != marked[played.first_of(played.innings_begins)]
    message = "innings {innings}: super_over is marked on some of its rows only"
    mistakes.add(played.block, other, message)


def check_beside(played: Played, known: list[dict[int, dict[str, str]]], m: Mistakes) -> None:
    """Who bats is who is said to beside the rows; `known`: the innings of each match."""
    wrong = np.zeros(len(played), bool)
    for row in played.innings.tolist():
        said = known[played.match[row]].get(int(played.numbers.innings[row]), {})
        bats = played.block.columns["batting_team"].text(row)
        wrong[row] = said.get("batting_team") not in (None, bats)
    message = "innings {innings}: {batting_team} bats, and another side beside the rows"
    m.add(played.block, wrong, message)


def check_counted(played: Played, aside: np.ndarray, mistakes: Mistakes) -> None:
    """No match is of innings alone that are set aside."""
    left = np.bincount(played.match[~aside], minlength=len(played.matches))
    message = "match {match_id} has super overs only"
    mistakes.add(played.block, (left == 0)[played.match], message)


def check_twice(played: Played, mistakes: Mistakes) -> None:
    """No innings was put in twice: of its labels of balls, if it has some, any stands alone."""
    place = np.cumsum(played.innings_begins) - 1
    ball = played.numbers.ball.astype(np.int64)
    key = (place * 1_001 + played.numbers.over) * 1_000 + ball
    _, first, at, counts = np.unique(
        key, return_index=True, return_inverse=True, return_counts=True
    )
    length = len(played.innings)
    labels = np.bincount(place[first], minlength=length)
    alone = np.bincount(place[(counts[at] == 1) | (ball == 0)], minlength=length)
    twice = ((alone == 0) & (labels >= FEW_LABELS))[place]
    message = "innings {innings}: every ball stands more than once; keep each of them once"
    mistakes.add(played.block, twice, message)


def in_two_files(played: Played, mistakes: Mistakes) -> list[Problem]:
    """An innings told by two files would be counted twice; neither is taken."""
    block = played.block
    first = played.first_of(played.innings_begins)
    rows = np.flatnonzero(block.file != block.file[first])
    found: dict[tuple[str, int, int], Problem] = {}
    for row in rows.tolist():
        match, innings = block.columns["match_id"].text(row), int(played.numbers.innings[row])
        file, other = (block.files[block.file[at]].label for at in (row, first[row]))
        message = f"match {match}, innings {innings} is in {other} too; keep one"
        found.setdefault((match, innings, int(block.file[row])), Problem(file, message))
    mistakes.matches |= {match for match, _, _ in found}
    return list(found.values())

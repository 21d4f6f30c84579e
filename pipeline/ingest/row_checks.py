"""Rows of text into counts, flags and days; each kind of mistake is named with its first line."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import partial

import numpy as np

from pipeline.date_forms import ISO
from pipeline.errors import near_miss
from pipeline.ingest.laws import KINDS
from pipeline.ingest.limits import MOST_INNINGS
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.number_cells import is_ball, number_of
from pipeline.ingest.row_names import (
    INNINGS_FLAGS,
    INNINGS_NUMBERS,
    MATCH_NUMBERS,
    NEEDED,
    OUTS,
    RUNS,
)
from pipeline.ingest.text_blocks import Block, constant
from pipeline.ingest.text_checks import check_known, check_numbers, check_present, flag, whole
from pipeline.ingest.text_dates import Days

FROM_0 = "a table whose first over is 0 says so in sources.yaml (written: overs_from)"
_COUNT = re.compile(r"\s*[0-9]+\s*")
DEFAULTS = {"non_boundary": False, "delivered": True, **dict.fromkeys(INNINGS_FLAGS, False)}


@dataclass
class Checks:
    """What is wrong in the rows of a source, and in its dates; `form` is how they are written.

    `table`: it is of the layout in whose map words can be translated.
    """

    form: str = ISO
    table: bool = False
    mistakes: Mistakes = field(default_factory=Mistakes)

    def __post_init__(self) -> None:
        self.days = Days("date", self.form)

    @property
    def left_out(self) -> set[str]:
        """Matches with a mistake."""
        return self.mistakes.matches | self.days.matches


@dataclass
class Numbers:
    """What the text of a block's rows says, a value a row."""

    innings: np.ndarray
    over: np.ndarray
    ball: np.ndarray  # in its over, as it is labelled; 0 where it is not
    day: np.ndarray
    runs: dict[str, np.ndarray]
    flags: dict[str, np.ndarray]

    def take(self, rows: np.ndarray) -> Numbers:
        return Numbers(
            self.innings[rows],
            self.over[rows],
            self.ball[rows],
            self.day[rows],
            {name: column[rows] for name, column in self.runs.items()},
            {name: column[rows] for name, column in self.flags.items()},
        )


def numbered(block: Block, checks: Checks) -> Numbers:
    """Whole numbers, flags and days of a block.

    Blank extras are none. A blank in a column that no delivery can do without is a mistake.
    """
    mistakes = checks.mistakes
    check_present(block, (*NEEDED, "over", "ball"), mistakes)
    _check_dismissals(block, mistakes, checks.table)
    none = np.zeros(len(block), np.int16)
    runs = {name: whole(block, name, mistakes) if name in block.columns else none for name in RUNS}
    if "extras" in block.columns:
        recorded = whole(block, "extras", mistakes)
        parts = np.sum([runs[name] for name in RUNS[1:]], axis=0)
        mistakes.add(block, parts != recorded, "the kinds of extras don't add up to extras")
    check_numbers(block, {**MATCH_NUMBERS, **INNINGS_NUMBERS}, mistakes)
    innings = whole(block, "innings", mistakes)
    beyond = block.columns["innings"].having(_nought) | (innings > MOST_INNINGS)
    mistakes.add(block, beyond, f"innings {{innings}}: expected 1 to {MOST_INNINGS}")
    flags = {name: flag(block, name, usual, mistakes) for name, usual in DEFAULTS.items()}
    day = checks.days.read(block)
    over, ball = _overs(block, mistakes), _balls(block, mistakes)
    return Numbers(innings, over, ball, day, runs, flags)


def _check_dismissals(block: Block, mistakes: Mistakes, table: bool) -> None:
    for kind, player in OUTS.items():
        if kind in block.columns:
            more = partial(_say_which, kind, table)
            check_known(block, kind, KINDS, "kind of dismissal", mistakes, more)
        kinds, players = (
            block.columns.get(name) or constant("", len(block)) for name in (kind, player)
        )
        nobody = players.having(lambda text: not text.strip())
        out = kinds.having(bool)
        mistakes.add(block, out & nobody, f"a {kind}, but {player} is blank")
        mistakes.add(block, ~out & ~nobody, f"{player} is '{{{player}}}', but {kind} is blank")


def _say_which(kind: str, table: bool, cells: dict[str, str]) -> str:
    """Which kind may be meant, or where that of a foreign table is said."""
    near = near_miss(cells[kind].strip().lower(), sorted(KINDS))
    if not table:
        return near or f"; expected {', '.join(sorted(KINDS))}"
    word = cells[kind].replace("'", "''")
    entry = f"{{{kind}: {{'{word}': caught}}}}"
    return f"{near}; say which it is in sources.yaml, such as written: {{values: {entry}}}"


def _overs(block: Block, mistakes: Mistakes) -> np.ndarray:
    """Overs from 1: a column of them, or what stands before the point of a ball."""
    if "over" not in block.columns:
        whole_balls = block.columns["ball"].having(lambda text: bool(_COUNT.fullmatch(text)))
        message = "'{ball}' tells no over: expected such as 0.1 for ball, or a column for over"
        mistakes.add(block, whole_balls, message)
        return whole(block, "ball", mistakes, first_part=True) + np.int16(1)
    over = whole(block, "over", mistakes)
    message = f"over 0: the first over is 1; {FROM_0}"
    mistakes.add(block, block.columns["over"].having(_nought), message)
    return over


def _nought(text: str) -> bool:
    return number_of(text) == 0


def _balls(block: Block, mistakes: Mistakes) -> np.ndarray:
    """What stands after the point of a ball; the tenth is not the first.

    Beside a column of overs 3.0 is the third ball, as some programs write a whole number.
    """
    if "ball" not in block.columns:
        return np.zeros(len(block), np.int16)
    odd = block.columns["ball"].having(lambda text: bool(text.strip()) and not is_ball(text))
    mistakes.add(block, odd, "'{ball}' is no ball: expected such as 0.1, or a whole number")

    alone = "over" in block.columns

    def read(text: str) -> int:
        if alone and (number := number_of(text)) is not None:
            return number if 0 <= number < 1_000 else 0
        label = text.strip().rpartition(".")[2]
        return int(label) if is_ball(label) and len(label) < 4 else 0

    return block.columns["ball"].mapped(read, np.int16)

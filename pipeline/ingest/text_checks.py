"""Columns of text into counts, flags and days; whatever is none is a mistake of its row."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from pipeline.ingest.mistakes import Mistakes, More
from pipeline.ingest.number_cells import count_of, flag_of
from pipeline.ingest.text_blocks import Block

MOST = 999  # of a count on a row


def check_present(block: Block, names: Iterable[str], mistakes: Mistakes) -> None:
    """No cell of these columns is blank."""
    for name in names:
        if name in block.columns:
            blank = block.columns[name].having(lambda text: not text.strip())
            mistakes.add(block, blank, f"{name} is blank")


def check_known(
    block: Block, name: str, known: Iterable[str], what: str, m: Mistakes, more: More | None = None
) -> None:
    """Each cell is blank or one of those that are known; `more` says what to do of the first."""
    valid = {*known, ""}
    unknown = block.columns[name].having(lambda text: text not in valid)
    m.add(block, unknown, f"unknown {what} '{{{name}}}'", more)


def whole(block: Block, name: str, mistakes: Mistakes, first_part: bool = False) -> np.ndarray:
    """Whole numbers of up to three digits (int16); a blank is 0, and so is what is none.

    `first_part`: what stands before a point, of '12.3' the 12.
    """
    made = block.columns[name].mapped(lambda text: _whole(text, first_part), np.int16)
    mistakes.add(block, made < 0, f"'{{{name}}}' is no count for {name}")
    counts: np.ndarray = np.maximum(made, 0)
    return counts


def _whole(text: str, first_part: bool) -> int:
    text = text.strip() or "0"
    found = count_of(text.split(".")[0] if first_part else text, MOST)
    return -1 if found is None else found


def number(block: Block, name: str, most: int, mistakes: Mistakes) -> np.ndarray:
    """Whole numbers of up to `most` (int32); a blank is -1, and so is what is none."""
    made = block.columns[name].mapped(lambda text: _number(text.strip(), most), np.int32)
    message = f"'{{{name}}}' is no count for {name}; the most is {most:,}"
    mistakes.add(block, made < -1, message)
    counts: np.ndarray = np.maximum(made, -1)
    return counts


def _number(text: str, most: int) -> int:
    """The number, -1 of a blank, -2 of what is none."""
    if not text:
        return -1
    found = count_of(text, most)
    return -2 if found is None else found


def check_numbers(block: Block, most: Mapping[str, int], mistakes: Mistakes) -> None:
    """Columns by their names, each of numbers up to its most; no over has 0 balls."""
    for name, largest in most.items():
        if name in block.columns:
            found = number(block, name, largest, mistakes)
            if name == "balls_per_over":
                mistakes.add(block, found == 0, "no over has 0 balls: balls_per_over")


def flag(block: Block, name: str, default: bool, mistakes: Mistakes) -> np.ndarray:
    """Flags; a blank is the default, and so is a column that is not there."""
    if name not in block.columns:
        return np.full(len(block), default)

    def read(text: str) -> int:
        found = flag_of(text) if text.strip() else default
        return -1 if found is None else int(found)

    made = block.columns[name].mapped(read, np.int8)
    mistakes.add(block, made < 0, f"'{{{name}}}' is neither 0 nor 1: {name}")
    return np.where(made < 0, default, made).astype(bool)

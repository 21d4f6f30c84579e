"""Deliveries by their number: in order, and each once, though a table tells it for each dismissal.

A join of deliveries with their dismissals repeats the ball on which two were out: counted as it
stands it would be two balls. Where the table numbers its deliveries (`delivery`) that is known.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.text_blocks import Block, Text, constant, from_list

FIRST = ("dismissal", "player_out", "player_out_id")
OTHER = tuple(f"other_{name}" for name in FIRST)
NO_NUMBER = "'{delivery}' is no number of a delivery"
TWICE = (
    "delivery {delivery} stands twice, and not for two dismissals; keep one (where it counts valid "
    "balls only, leave it out of columns)"
)
MANY = "more than two dismissals on delivery {delivery}"


def told_once(block: Block, mistakes: Mistakes) -> Block:
    """The rows of whole matches by over and number of delivery, a row a delivery.

    As they are where no column is mapped to `delivery`.
    """
    if "delivery" not in block.columns or not len(block):
        return block
    mistakes.add(block, ~block.columns["delivery"].having(_is_number), NO_NUMBER)
    keys = [_coded(block, "match_id"), _coded(block, "innings"), _over(block)]
    number = block.columns["delivery"].mapped(_number, float)
    order = np.lexsort((number, *reversed(keys)))
    block, number = block.take(order), number[order]
    same = np.ones(len(block), bool)
    same[0] = False
    for key in (*(key[order] for key in keys), number):
        same[1:] &= key[1:] == key[:-1]
    return _joined(block, same, mistakes) if same.any() else block


def _coded(block: Block, name: str, part: Callable[[str], str] = str.strip) -> np.ndarray:
    """A number for each text, or for a part of it, in the order in which they are met."""
    places: dict[str, int] = {}
    return block.columns[name].mapped(
        lambda text: places.setdefault(part(text), len(places)), np.int64
    )


def _over(block: Block) -> np.ndarray:
    if "over" in block.columns:
        return _coded(block, "over")
    return _coded(block, "ball", lambda text: text.strip().partition(".")[0])


def _is_number(text: str) -> bool:
    return bool(text.strip().isascii() and text.strip().removesuffix(".0").isdecimal())


def _number(text: str) -> float:
    return float(text) if _is_number(text) else -1.0


def _joined(block: Block, repeats: np.ndarray, mistakes: Mistakes) -> Block:
    """First rows, each with the dismissal of its one repeat; other repeats are wrong."""
    kept = ~repeats
    first = np.maximum.accumulate(np.where(kept, np.arange(len(block)), 0))
    rest = [name for name in block.columns if name not in (*FIRST, *OTHER)]
    alike = np.ones(len(block), bool)
    for name in rest:
        codes = _coded(block, name)
        alike &= codes == codes[first]
    told = {name: _texts(block, name) for name in (*FIRST, *OTHER)}
    differ, many = np.zeros(len(block), bool), np.zeros(len(block), bool)
    for row in np.flatnonzero(repeats).tolist():
        at = int(first[row])
        if not (alike[row] and told["dismissal"][at] and told["dismissal"][row]):
            differ[row] = True
        elif told["other_dismissal"][at]:
            many[row] = True
        else:
            for name, into in zip(FIRST, OTHER, strict=True):
                told[into][at] = told[name][row]
    mistakes.add(block, differ, TWICE)
    mistakes.add(block, many, MANY)
    named = [n for n in told if n in block.columns or n.removeprefix("other_") in block.columns]
    columns = {**block.columns, **{name: from_list(told[name]) for name in named}}
    return replace(block, columns=columns).take(kept)


def _texts(block: Block, name: str) -> list[str]:
    column: Text = block.columns.get(name) or constant("", len(block))
    return [column.values[code] for code in column.codes.tolist()]

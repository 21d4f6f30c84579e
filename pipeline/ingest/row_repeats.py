"""A delivery that a table tells once for each dismissal on it, as one row with all of them.

A join of deliveries with their dismissals repeats the ball on which two were out: counted as it
stands it would be two balls. Where the table numbers its deliveries (`delivery`) that is known.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pipeline.ingest.row_forms import Columns, Text, Wrong

OVER = ("match_id", "innings")  # and the over: of these a delivery's number is one's own
FIRST = ("dismissal", "player_out", "player_out_id")
OTHER = tuple(f"other_{name}" for name in FIRST)
BACK = (
    "delivery {delivery} stands after a later one of its over; put the rows in order (a query ends "
    "with ORDER BY match, innings, over, delivery)"
)
TWICE = (
    "delivery {delivery} stands twice, and not for two dismissals; keep one (where it counts valid "
    "balls only, leave it out of columns)"
)
MANY = "more than two dismissals on delivery {delivery}"


class Told(NamedTuple):
    """Columns of the rows that are kept, which those are (flags), and what is wrong with some."""

    columns: Columns
    kept: np.ndarray
    wrong: list[Wrong]


def told_once(columns: Columns, length: int) -> Told:
    """The rows without repeats; `wrong` are of the rows that are kept.

    Rows of a delivery stand together, and deliveries in their order, or they are named.
    """
    every = np.ones(length, bool)
    if "delivery" not in columns or not length:
        return Told(columns, every, [])
    over = [*OVER, "over" if "over" in columns else "ball"]
    same_over = _as_before(columns, over, length)
    repeats = same_over & _as_before(columns, ["delivery"], length)
    number = _numbers(columns["delivery"])
    back = np.zeros(length, bool)
    back[1:] = same_over[1:] & (number[1:] < number[:-1])
    found = Told(columns, every, []) if not repeats.any() else _joined(columns, repeats)
    return found._replace(wrong=[Wrong(back[found.kept], BACK), *found.wrong])


def _as_before(columns: Columns, names: list[str], length: int) -> np.ndarray:
    """Whether a row has the same cells as the row before."""
    same = np.ones(length, bool)
    same[0] = False
    for name in names:
        codes = columns[name].codes
        same[1:] &= codes[1:] == codes[:-1]
    return same


def _numbers(column: Text) -> np.ndarray:
    """Numbers to order by; what is none is in order with anything."""
    plain = [text.strip() for text in column.values]
    numbers = [float(t) if t.isascii() and t.isdecimal() else np.nan for t in plain]
    found: np.ndarray = np.array(numbers, float)[column.codes]
    return found


def _joined(columns: Columns, repeats: np.ndarray) -> Told:
    """First rows, each with the dismissal of its one repeat; other repeats are wrong."""
    kept = ~repeats
    place = np.cumsum(kept) - 1  # of each row, that of its first row among those kept
    length = int(kept.sum())
    rest = [name for name in columns if name not in (*FIRST, *OTHER)]
    alike = _as_before(columns, rest, len(repeats))
    cells = {name: _texts(columns, name, len(repeats)) for name in (*FIRST, *OTHER)}
    told = {name: [texts[row] for row in np.flatnonzero(kept)] for name, texts in cells.items()}
    differ, many = np.zeros(length, bool), np.zeros(length, bool)
    for row in np.flatnonzero(repeats):
        at = place[row]
        if not (alike[row] and told[FIRST[0]][at] and cells[FIRST[0]][row]):
            differ[at] = True
        elif told[OTHER[0]][at]:
            many[at] = True
        else:
            for name, into in zip(FIRST, OTHER, strict=True):
                told[into][at] = cells[name][row]
    found = {name: column.take(kept) for name, column in columns.items()}
    found |= {name: _column(texts) for name, texts in told.items()}
    return Told(found, kept, [Wrong(differ, TWICE), Wrong(many, MANY)])


def _texts(columns: Columns, name: str, length: int) -> list[str]:
    if name not in columns:
        return [""] * length
    column = columns[name]
    return [column.values[code] for code in column.codes]


def _column(texts: list[str]) -> Text:
    places: dict[str, int] = {}
    codes = [places.setdefault(text, len(places)) for text in texts]
    return Text(np.array(codes, np.int32), list(places))

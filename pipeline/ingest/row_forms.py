"""A foreign table's cells as ours are written: codes, numbers of overs, kinds of extras.

Each distinct text of a column is turned once. A cell that is not as `written` says is left as it
is, or named: nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from pipeline.date_forms import ISO, day_of
from pipeline.ingest.row_names import RUNS

if TYPE_CHECKING:
    from pipeline.config.written import Written

Turn = Callable[[str], str]
EXTRAS = RUNS[1:]


class Text(NamedTuple):
    """A column of text: a code a row, and the distinct texts that codes stand for."""

    codes: np.ndarray
    values: list[str]

    def having(self, test: Callable[[str], bool]) -> np.ndarray:
        """Flags of the rows whose text passes."""
        flags: np.ndarray = np.array([test(value) for value in self.values], bool)[self.codes]
        return flags

    def take(self, rows: np.ndarray) -> Text:
        return Text(self.codes[rows], self.values)


Columns = dict[str, Text]


class Wrong(NamedTuple):
    """Rows (a flag each) that can't be used, and why; braces stand for their cells."""

    rows: np.ndarray
    message: str


def in_our_forms(
    columns: Columns, written: Written, date_format: str = ISO
) -> tuple[Columns, list[Wrong]]:
    """Columns under our names, as `written` says they are to be read, and rows that can't be.

    `extra_kind` and `extras` become a column for each kind of extras.
    """
    found = {name: _turned(column, turns_of(name, written)) for name, column in columns.items()}
    if written.season == "year" and "date" in found:
        found["season"] = _turned(found["date"], [lambda text: _year(text, date_format)])
    return _by_kind(found)


def turns_of(name: str, written: Written) -> list[Turn]:
    """What is done to each text of a column, in order."""
    turns: list[Turn] = []
    if written.blank:
        blank = frozenset(written.blank)
        turns.append(lambda text: "" if text.strip() in blank else text)
    if words := written.values.get(name):
        turns.append(lambda text: words.get(text.strip(), text))
    if name == "ball":
        turns.append(lambda text: text.strip().replace(",", ".", 1))
    first = {"over": 1, "ball": 0}.get(name)
    if first is not None and written.overs_from not in (None, first):
        moved = first - (written.overs_from or 0)
        turns.append(lambda text: _over(text, moved))
    return turns


def _turned(column: Text, turns: list[Turn]) -> Text:
    """Every text turned, each distinct one once; no text stands twice among the distinct ones."""
    if not turns:
        return column
    texts = column.values
    for turn in turns:
        texts = [turn(text) for text in texts]
    places: dict[str, int] = {}
    codes = [places.setdefault(text, len(places)) for text in texts]
    return Text(np.array(codes, np.int32)[column.codes], list(places))


def _year(date: str, form: str) -> str:
    """The year of a date; one that is none is named as a date."""
    day = day_of(date, form)
    return f"{day.year:04}" if day else date


def _over(text: str, moved: int) -> str:
    """An over's number with the first one as ours is; 'over.ball' too."""
    over, point, ball = text.strip().partition(".")
    if not (over.isascii() and over.isdecimal()):
        return text
    return f"{int(over) + moved}{point}{ball}"


def _by_kind(columns: Columns) -> tuple[Columns, list[Wrong]]:
    """Runs of one kind a row as a column for each kind."""
    if "extra_kind" not in columns:
        return columns, []
    kind, runs = columns["extra_kind"], columns["extras"]
    values = [*runs.values, ""]
    split = {name: Text(_where(kind, name, runs), values) for name in EXTRAS}
    none, unkinded = runs.having(_nought), kind.having(_blank)
    known = kind.having(lambda text: text in EXTRAS) | unkinded
    unknown = (
        f"'{{extra_kind}}' is no kind of extras; expected {', '.join(EXTRAS)}: say which it is in "
        "sources.yaml, written: values: extra_kind"
    )
    return {**columns, **split}, [
        Wrong(~known, unknown),
        Wrong(known & ~unkinded & none, "{extra_kind}, but extras is blank or 0"),
        Wrong(unkinded & ~none, "extras {extras}, but extra_kind is blank"),
    ]


def _where(kind: Text, name: str, runs: Text) -> np.ndarray:
    """Codes of the runs where they are of a kind, of the blank behind them elsewhere."""
    codes: np.ndarray = np.where(kind.having(name.__eq__), runs.codes, len(runs.values))
    return codes


def _blank(text: str) -> bool:
    return not text.strip()


def _nought(text: str) -> bool:
    return text.strip() in ("", "0", "0.0")

"""A foreign table's cells as ours are written: codes, numbers of overs, kinds of extras.

Each distinct text of a column is turned once. A cell that is not as `written` says is left as it
is, or named: nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from pipeline.date_forms import day_of
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.row_names import RUNS
from pipeline.ingest.text_blocks import Block, Text

if TYPE_CHECKING:
    from pipeline.config.written import Written

Turn = Callable[[str], str]
EXTRAS = RUNS[1:]


def in_our_forms(block: Block, written: Written, date_format: str, mistakes: Mistakes) -> Block:
    """The block as `written` says that it is to be read; `extra_kind` and `extras` become a column
    for each kind of extras.
    """
    turns = {name: turns_of(name, written) for name in block.columns}
    if "over" in block.columns:  # the over before the point of a ball is not asked then
        turns["ball"] = turns_of("ball", written.model_copy(update={"overs_from": None}))
    columns = {name: _turned(column, turns[name]) for name, column in block.columns.items()}
    if written.season == "year" and "date" in columns:
        columns["season"] = _turned(columns["date"], [lambda text: _year(text, date_format)])
    found = replace(block, columns=columns)
    return _by_kind(found, mistakes) if "extra_kind" in columns else found


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
    for turn in turns:
        column = column.turned(turn)
    return column


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


def _by_kind(block: Block, mistakes: Mistakes) -> Block:
    """Runs of one kind a row as a column for each kind."""
    kind, runs = block.columns["extra_kind"], block.columns["extras"]
    none, unkinded = runs.having(_nought), kind.having(_blank)
    known = kind.having(EXTRAS.__contains__) | unkinded
    unknown = (
        f"'{{extra_kind}}' is no kind of extras; expected {', '.join(EXTRAS)}: say which it is in "
        "sources.yaml, written: values: extra_kind"
    )
    mistakes.add(block, ~known, unknown)
    mistakes.add(block, known & ~unkinded & none, "{extra_kind}, but extras is blank or 0")
    mistakes.add(block, unkinded & ~none, "extras {extras}, but extra_kind is blank")
    split = {name: _where(kind, name, runs) for name in EXTRAS}
    return replace(block, columns={**block.columns, **split})


def _where(kind: Text, name: str, runs: Text) -> Text:
    """The runs where they are of a kind, a blank elsewhere."""
    codes = np.where(kind.having(name.__eq__), runs.codes, len(runs.values)).astype(np.int32)
    return Text(codes, [*runs.values, ""])


def _blank(text: str) -> bool:
    return not text.strip()


def _nought(text: str) -> bool:
    return text.strip() in ("", "0", "0.0")

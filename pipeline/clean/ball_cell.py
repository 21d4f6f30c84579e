"""A whole delivery in one cell of the corrections: 'batter_id=A1; bowler_id=B7; runs_batter=4'.

What is left out is nought or no. So is written a delivery that is put in, or one that is taken out.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from pipeline.errors import did_you_mean
from pipeline.ingest.laws import KINDS

IDS = ("batter_id", "non_striker_id", "bowler_id")
COUNTS = ("runs_batter", "wides", "noballs", "byes", "legbyes", "penalty")
FLAGS = {"non_boundary": False, "delivered": True}  # and what each is where it is left out
FELL = ("dismissal", "player_out_id")
NAMES = (*IDS, *COUNTS, *FLAGS, *FELL)
MOST = 99  # of a count
_BETWEEN = re.compile(r"\s*;\s*(?=[a-z_]{4,}\s*=)")  # an id may hold a ';' of its own


class Ball(NamedTuple):
    """A delivery's own columns, and (kind, player) of each dismissal on it."""

    values: dict[str, Any]
    fell: list[tuple[str, str]]


def read_ball(text: str) -> tuple[Ball | None, list[str]]:
    """The delivery of a cell, or everything that is wrong with it."""
    values: dict[str, Any] = {**dict.fromkeys(COUNTS, 0), **FLAGS}
    told: list[tuple[str, str]] = []
    wrong = []
    for part in _BETWEEN.split(text.strip().rstrip(";")):
        name, _, value = (each.strip() for each in part.partition("="))
        if name not in NAMES:
            wrong.append(f"no '{name}' of a delivery{did_you_mean(name, NAMES)}")
        elif name in FELL:
            told.append((name, value))
        elif name in IDS:
            values[name] = value
        elif not _is_count(value, _most(name)):
            wrong.append(f"'{value[:20]}' is no count for {name}; expected 0 to {_most(name)}")
        else:
            values[name] = int(value) if name in COUNTS else value == "1"
    lacking = [name for name in IDS if not values.get(name)]
    if lacking:
        wrong.append(f"a delivery needs its {', '.join(lacking)} (batter_id=...; bowler_id=...)")
    fell, odd = _fell(told)
    return (None if wrong or odd else Ball(values, fell)), wrong + odd


def _is_count(text: str, most: int) -> bool:
    return text.isascii() and text.isdecimal() and len(text) <= len(str(most)) and int(text) <= most


def _most(name: str) -> int:
    return MOST if name in COUNTS else 1


def _fell(told: list[tuple[str, str]]) -> tuple[list[tuple[str, str]], list[str]]:
    """Each kind with the player that follows it."""
    names = [name for name, _ in told]
    if names != list(FELL) * (len(told) // 2):
        return [], ["write each dismissal with its player: dismissal=caught; player_out_id=..."]
    kinds, players = [v for _, v in told[::2]], [v for _, v in told[1::2]]
    wrong = [not_a_kind(kind) for kind in kinds if kind not in KINDS]
    return sorted(zip(kinds, players, strict=True)), wrong


def not_a_kind(kind: str) -> str:
    return f"'{kind}' is no kind of dismissal (valid: {', '.join(sorted(KINDS))})"


def written(ball: Ball) -> str:
    """The cell of a delivery, as `read_ball` reads it."""
    values = ball.values
    pairs = [(name, values[name]) for name in IDS]
    pairs += [(name, values[name]) for name in COUNTS if values[name]]
    pairs += [(name, int(values[name])) for name, usual in FLAGS.items() if values[name] != usual]
    pairs += [pair for fell in ball.fell for pair in zip(FELL, fell, strict=True)]
    return "; ".join(f"{name}={value}" for name, value in pairs)

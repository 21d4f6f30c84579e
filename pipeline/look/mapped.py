"""Which column of a table is which of ours: by its name, held against its cells."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from pipeline.ingest.row_names import NEEDED
from pipeline.look.folded_names import said_by_name
from pipeline.look.sampled import MAY, NO, YES, Column, said_by_cells
from pipeline.look.trade_words import NAMES

LEAST = 0.45  # of name and cells together: under this nothing is proposed
SURE, LIKELY = 1.15, 0.8
BY_CELLS = 0.5  # what cells that speak for it add, the name apart
# Cells that speak for one of ours whatever the column is called.
SPEAKING = ("date", "dismissal", "extra_kind", "gender")
KINDS = ("wides", "noballs", "byes", "legbyes", "penalty")
ROLES = ("batter", "non_striker", "bowler", "player_out")

# What only a table of deliveries has, and how many of these make one.
OF_BALLS = ("over", "ball", "runs_batter", "batter", "batter_id", "bowler", "bowler_id", "innings")
LEAST_OF_A_BALL = 3


class Guess(NamedTuple):
    """A column that is likely one of ours; `score` is of name and cells together."""

    ours: str
    column: Column
    score: float

    @property
    def sure(self) -> str:
        """'sure', 'likely' or 'guess'."""
        return "sure" if self.score >= SURE else "likely" if self.score >= LIKELY else "guess"


def mapped(columns: Sequence[Column]) -> dict[str, Guess]:
    """Ours -> the column that is likeliest, each of theirs once; the surest are chosen first."""
    found = [
        Guess(ours, column, score)
        for ours in NAMES
        for column in columns
        if (score := _score(ours, column)) >= LEAST
    ]
    found.sort(key=lambda guess: -guess.score)
    chosen: dict[str, Guess] = {}
    taken: set[str] = set()
    for guess in found:
        if guess.ours not in chosen and guess.column.name not in taken:
            chosen[guess.ours] = guess
            taken.add(guess.column.name)
    return _settled(chosen)


def _score(ours: str, column: Column) -> float:
    cells = said_by_cells(ours, column)
    name = said_by_name(ours, column.name)
    if cells == NO or (not name and not (cells == YES and ours in SPEAKING)):
        return 0.0
    return name + (BY_CELLS if cells == YES else MAY * BY_CELLS)


def _settled(chosen: dict[str, Guess]) -> dict[str, Guess]:
    """What goes with each other: an over or a ball, kinds or a column a kind, ids beside names."""
    if "over" in chosen:
        chosen.pop("ball", None)
    if "extras" not in chosen or any(kind in chosen for kind in KINDS):
        chosen.pop("extra_kind", None)
    if "extra_kind" not in chosen and not all(kind in chosen for kind in KINDS[:4]):
        chosen.pop("extras", None)  # it could not be held against its parts
    for role in ROLES:  # better an id for a name than nobody
        other = chosen.pop(f"{role}_id", None) if role not in chosen else None
        if other:
            chosen[role] = Guess(role, other.column, min(other.score, LIKELY - 0.01))
    for kind, player in (("dismissal", "player_out"), ("other_dismissal", "other_player_out")):
        if kind not in chosen or player not in chosen:
            chosen.pop(kind if kind.startswith("other") else "", None)
            chosen.pop(player if kind.startswith("other") else "", None)
    if "delivery" in chosen and not _once_an_over(chosen):
        del chosen["delivery"]
    return {ours: chosen[ours] for ours in NAMES if ours in chosen}


def _once_an_over(chosen: dict[str, Guess]) -> bool:
    """Whether a number of deliveries tells them apart: that of valid balls does not.

    Rows that follow each other with one number are of one delivery if both have a dismissal.
    """
    keys = ("match_id", "innings", "over", "ball", "delivery")
    cells = [chosen[name].column.cells for name in keys if name in chosen]
    outs = chosen["dismissal"].column.cells if "dismissal" in chosen else [""] * len(cells[0])
    rows = list(zip(*cells, strict=True))
    return all(
        this != before or (out and before_out)
        for this, before, out, before_out in zip(rows[1:], rows, outs[1:], outs, strict=False)
    )


def of_a_ball(chosen: dict[str, Guess]) -> list[str]:
    """Which of them only a table of deliveries has."""
    return [ours for ours in OF_BALLS if ours in chosen]


def missing(chosen: dict[str, Guess]) -> list[str]:
    """What is needed and has no column."""
    found = [name for name in NEEDED if name not in chosen]
    if "dismissal" in chosen and "player_out" not in chosen:
        found.append("player_out")
    return found if {"over", "ball"} & set(chosen) else [*found, "over"]

"""A comparison: the question that one finding answers, whichever beat shows it."""

from __future__ import annotations

import hashlib
from typing import Literal

import msgspec

# What is asked: a change between windows, a difference of groups, a gap of two changes, what the
# mix or the rates alone did, when it turned, one player's change.
Asks = Literal["change", "groups", "gap", "mix", "rates", "turn", "player"]
Values = tuple[str, ...]
Balls = tuple[tuple[str, Values], ...]  # (cut, its values), by name of the cut


class Against(msgspec.Struct, frozen=True, kw_only=True):
    """The balls that the event did not touch: another competition's, or a filter."""

    competition: Values = ()
    balls: Balls = ()


class Comparison(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Measure, balls, sides, control: two beats that ask this ask one thing.

    `balls` are filter and cell together, since spin in the middle overs is the same balls whichever
    of the two was the cut; `known` the cuts whose unknown balls are left out; `divided` what a mix
    or a gap divides by; `sides` the seasons of each window, or the two groups; `every` the points
    of a series; `at_least` the threshold that made a list of players, whose others they are held
    against.
    """

    measure: str
    asks: Asks
    balls: Balls
    sides: tuple[Values, Values] | None
    known: Values = ()
    divided: Values = ()
    control: Against | None = None
    every: str | None = None
    at_least: str | None = None

    @property
    def identity(self) -> str:
        """Twelve hex digits that are the same for the same question, on every machine."""
        return hashlib.sha256(msgspec.json.encode(self)).hexdigest()[:12]

    @property
    def look(self) -> str:
        """The identity of its number, whatever that is held against: one look, one verdict."""
        return msgspec.structs.replace(self, control=None).identity

    @property
    def question(self) -> str:
        """The identity of measure, balls and what is asked: other windows are a version of it.

        So are another control, other unknown balls left out, other points or another threshold. Two
        groups are no windows: other groups are another question.
        """
        sides = self.sides if self.asks == "groups" else None
        return msgspec.structs.replace(
            self, sides=sides, known=(), control=None, every=None, at_least=None
        ).identity


def balls_of(*filters: dict[str, list[str]]) -> Balls:
    """Filters laid over each other as one; a later one narrows an earlier one of the same cut.

    A cell's value is among those of its filter, but its overs may reach beyond the filter's.
    """
    laid: dict[str, Values] = {}
    for given in filters:
        for cut, values in given.items():
            if values and cut == "overs" and cut in laid:
                laid[cut] = (_in_both(*laid[cut], *values),)
            elif values:
                laid[cut] = tuple(sorted(values))
    return tuple(sorted(laid.items()))


def _in_both(one: str, other: str) -> str:
    """The overs of both ranges: 7-10 of 7-15 and 6-10; of ranges apart one that runs backwards."""
    firsts, lasts = zip(*(map(int, overs.split("-")) for overs in (one, other)), strict=True)
    return f"{max(firsts)}-{min(lasts)}"

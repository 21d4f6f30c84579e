"""What can be told, and what a form of it needs: its slots, and how strong its words may be."""

from __future__ import annotations

from typing import Literal, NamedTuple

Says = Literal["changed", "held", "open", "plain"]
FREQUENT = 8  # forms at least of what is told on most pages


class Outcome(NamedTuple):
    """`slots` are the ones that each form has once; `says` is the verdict that it may tell."""

    slots: tuple[str, ...]
    says: Says
    forms: int = FREQUENT  # at least


OUTCOMES: dict[str, Outcome] = {
    "number.changed": Outcome(("what", "rose", "first", "second"), "changed", 1),
    "number.open": Outcome(("what", "first", "second"), "open", 1),
    "number.open.same": Outcome(("what", "first"), "open", 1),
    "number.held": Outcome(("what", "first", "second"), "held", 1),
    "number.held.same": Outcome(("what", "first"), "held", 1),
    "together": Outcome(("names",), "open"),
}

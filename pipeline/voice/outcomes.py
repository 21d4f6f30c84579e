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
    "join.first": Outcome(("what",), "plain", 4),
    "join.narrower": Outcome(("before", "now"), "plain"),
    "join.wider": Outcome(("before", "now"), "plain"),
    "join.elsewhere": Outcome(("before", "now"), "plain"),
    "join.split": Outcome(("each",), "plain"),
    "join.measure": Outcome(("what",), "plain"),
    "join.next": Outcome(("what",), "plain"),
    "join.turning_point": Outcome((), "plain", 4),
    "join.mix": Outcome(("did",), "plain", 4),
    "join.share": Outcome(("did",), "plain", 4),
    "join.players": Outcome(("each",), "plain", 4),
    "join.gap": Outcome(("first", "second"), "plain", 4),
    "join.groups": Outcome(("first", "second"), "plain", 4),
    "join.phases": Outcome((), "plain", 4),
    "join.trend": Outcome((), "plain", 4),
    "join.streaks": Outcome((), "plain", 3),
    "turn": Outcome((), "plain"),
    "answer.beyond.one": Outcome((), "changed", 4),
    "answer.beyond.two": Outcome((), "changed", 4),
    "answer.beyond.many": Outcome((), "changed", 4),
    "cold.held": Outcome(("what", "margin"), "held", 4),
    "cold.open": Outcome(("balls",), "open", 4),
    "close.matches": Outcome(("count", "size"), "open", 4),
    "close.matches.one": Outcome(("count", "size"), "open", 4),
    "close.periods": Outcome(("periods",), "open", 4),
    "close.before": Outcome(("wanted", "there"), "open", 4),
    "close.cause": Outcome((), "plain", 4),
}

"""What a number can be held against: a fact with its subject, its part and its value as told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding
from pipeline.said.units import unit_of

Role = Literal[
    "level", "move", "felt", "drift", "step", "control", "like", "held", "luck", "yardstick",
    "count", "ways", "part", "share", "margin",
]  # fmt: skip
MOVES = {"move", "felt", "drift", "step", "control", "like", "held", "luck"}
SHARE, EVENT = "~share", "~event"
WHOLE = "~whole"  # of the overs: the innings from its first to its last
WINDOW, OVERS, CONTROL = "window", "overs", "~control"
# Cuts that say when something was; with those that say what of it is told: not whose it is.
WHEN = frozenset({WINDOW, EVENT, "season"})
NO_GROUPS = WHEN | {CONTROL, "measure", "part"}
ONLY_NAMED = {"season", "bowler", "batter"}  # no fact of one is meant where it is not named
# Cuts whose values are the same people or places, by what is asked of them.
FAMILIES = (
    {"batting_team", "bowling_team", "team"},
    {"bowler", "batter", "bowler_tag", "batter_tag"},
    {"bowler_kind", "bowler_style"},
    {"batting_position", "batting_order"},
    {"ground", "region", "country"},
)


@dataclass(frozen=True)
class Target:
    """`value` and ends are as a line says them, times their scale; `names` by cut.

    `side` is 0 or 1 of a level, `moved` the sign of its finding's difference; `between` is the cut
    whose values a comparison is of, which no number of the whole has as its name.
    """

    role: Role
    unit: str
    value: float
    names: Mapping[str, str]
    fact: Fact | None = None
    finding: Finding | None = None
    low: float | None = None
    high: float | None = None
    side: int | None = None
    moved: int = 0
    between: str = ""
    filters: Mapping[str, frozenset[str]] = field(default_factory=dict)
    edition: str | None = None
    what: str = ""

    @property
    def sign(self) -> int:
        return (self.value > 0) - (self.value < 0) if self.role in MOVES else 0

    @cached_property
    def allowed(self) -> Mapping[str, frozenset[str]]:
        """By cut what a sentence may name, of the same people by another cut too."""
        found = {cut: frozenset({value}) for cut, value in self.names.items()}
        for cut, values in self.filters.items():
            found[cut] = found.get(cut, frozenset()) | values
        for family in FAMILIES:
            kept = frozenset().union(*(found[cut] for cut in family if cut in found))
            found |= dict.fromkeys(family, kept) if kept else {}
        return found

    @property
    def is_only_named(self) -> bool:
        """Whether it is one of many that nobody means who does not name it."""
        return not ONLY_NAMED.isdisjoint(self.names)


def units_of(target: Target) -> set[str]:
    """The names of its unit as the fact has it, and as a line says it."""
    return {target.unit} | (units_of_fact(target.fact) if target.fact else set())


def units_of_fact(fact: Fact) -> set[str]:
    return {unit_of(each) for each in (fact.unit, fact.unit_said) if each}

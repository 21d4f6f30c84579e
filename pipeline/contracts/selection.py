"""What `metrics` hands to `significance` beside the tallies: windows, cells, queries, holdings."""

from __future__ import annotations

from datetime import date

from pipeline.contracts.base import Contract
from pipeline.contracts.timing import Timed


class Amount(Contract, kw_only=True):
    """Matches and valid balls, from the first match to the last; each counted once."""

    matches: int
    balls: int
    first: date
    last: date


class Holdings(Contract, kw_only=True):
    """What the topic's data hold; `unknown_balls` of the things that its beats lean on.

    `compared` is what stands in the windows or the groups of any beat, `counted` that and what is
    behind the drift and the series; `sources` are the ids of those whose balls are counted, in a
    control too. None where there are no such balls, or in editions of before they were kept.
    """

    matches: int
    balls: int
    first: date
    last: date
    targets_reduced: int
    unknown_balls: dict[str, int]
    compared: Amount | None = None
    counted: Amount | None = None
    sources: list[str] | None = None


class Fix(Contract, kw_only=True):
    """A correction that was applied: where (the places filled), what, from what to what, why."""

    level: str
    place: dict[str, str]
    field: str
    old: str
    new: str
    reason: str
    source: str
    by: str
    date: date


class Fixes(Contract, kw_only=True):
    """corrections.json: every correction that the clean tables were made with."""

    corrections: list[Fix]


class Season(Contract, kw_only=True):
    """A season of the topic's data, from its first match to its last."""

    label: str
    first: date
    last: date
    matches: int


class Newcomers(Contract, kw_only=True):
    """Matches of the window after, and how many are of a side not met before."""

    matches: int
    of_new_sides: int


class Cell(Contract, kw_only=True):
    """One row of a beat: its id, its value of each cut, whether all are known, the player's id."""

    id: str
    values: dict[str, str]
    known: bool
    person: str | None = None


class Person(Contract, kw_only=True):
    """A player of the clean tables; `label` is a name that nobody else bears."""

    id: str
    name: str
    label: str
    sides: str
    hand: str
    arm: str
    kind: str
    style: str
    tags: list[str]


class ControlSelection(Contract, kw_only=True):
    """A control's query, and the control's cell that answers to each cell of the beat."""

    name: str
    query: str
    pairs: dict[str, str]


class BeatSelection(Contract, kw_only=True):
    """A beat's query, its cells in the order they are told, and the people among them."""

    query: str
    cells: list[Cell]
    people: dict[str, Person] = {}
    control: ControlSelection | None = None


class Selection(Timed, kw_only=True):
    """Everything that was selected for a topic; the tallies are its numbers.

    `newcomers` are those of each event by its id, the topic's own under ''.
    """

    data: Holdings
    corrections: list[Fix]
    seasons: list[Season]
    newcomers: dict[str, Newcomers]
    beats: dict[str, BeatSelection]

"""A number of a record: its fact with all that it is of."""

from __future__ import annotations

from pipeline.errata.records import Record
from pipeline.said.numbers_of import Number, OfBeat, OfFinding, OfTopic, of_fact

__all__ = ["Number", "OfBeat", "OfFinding", "OfTopic", "number_of"]


def number_of(record: Record, name: str) -> Number | None:
    """The fact of that id with all that it is of; none when the brief has no such fact."""
    fact = record.fact(name)
    if fact is None:
        return None
    return of_fact(fact, record.finding(fact.finding), record.view)

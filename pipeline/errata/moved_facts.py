"""Which numbers of an edition are shown or judged otherwise now, or are gone."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from pipeline.errata import conclusion
from pipeline.errata.number import Number, number_of
from pipeline.errata.records import Record


class Moved(NamedTuple):
    """A number that an edition has, and as it is now, where it still is."""

    old: Number
    new: Number | None


def moved_in(record: Record, names: Iterable[str], now: Record) -> list[Moved]:
    """The facts that the edition has, and that are shown or judged otherwise now, or are gone."""
    pairs = ((number_of(record, name), number_of(now, name)) for name in names)
    return [Moved(old, new) for old, new in pairs if old and _differs(old, new)]


def _differs(old: Number, new: Number | None) -> bool:
    """Shown otherwise, or of a finding whose conclusion is another; an interval alone is not."""
    if new is None:
        return True
    return old.fact.display != new.fact.display or conclusion.moved(old, new)


def moved_since(record: Record, now: Record) -> dict[str, list[str]]:
    """All of them: by what they are asked about by (a finding, or a number of none), their ids."""
    found: dict[str, list[str]] = {}
    for old, _ in moved_in(record, [fact.id for fact in record.side.facts], now):
        found.setdefault(old.fact.finding or old.fact.id, []).append(old.fact.id)
    return found

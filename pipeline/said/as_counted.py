"""A number as it is counted, overs as balls and parts as per cent, with what it may be of."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import replace

from pipeline.said.number_heard import Heard
from pipeline.said.subjects import EARLIER, LATER
from pipeline.said.targets import OVERS, WHEN
from pipeline.said.units import A_BOUNDARY, PER_CENT


def as_said(heard: Heard) -> Heard:
    """A part of the whole as per cent; overs as balls."""
    said = heard.said
    if said.form == "odds" or (said.form == "share" and not heard.own_unit):
        told = replace(said, value=said.value * 100, step=said.step * 100)
        return replace(heard, said=told, unit=PER_CENT)
    if heard.unit == A_BOUNDARY:
        step = 50 / said.value - 50 / (said.value + 1)
        told = replace(said, value=100 / said.value, step=2 * step, whole=False)
        return replace(heard, said=told, unit=PER_CENT)
    if said.form == "overs" or (heard.unit == "overs" and said.form in ("number", "share")):
        told = replace(said, value=said.value * 6, step=min(said.step * 6, 6))
        return replace(heard, said=told, unit="balls")
    return heard


def without_later(heard: Heard, carried: Mapping[str, Set[str]]) -> Heard:
    """Names that follow in another clause give way to those of the sentences before."""
    names = {
        cut: told for cut, told in heard.names.items() if told.level < LATER or cut not in carried
    }
    return replace(heard, names=names) if len(names) < len(heard.names) else heard


def of_its_clause(heard: Heard) -> Heard | None:
    """Without names of an earlier clause, where the number's own names another measure or group."""
    own = {cut: told for cut, told in heard.names.items() if told.level != EARLIER}
    speaks = set(own) - WHEN - {OVERS}
    return replace(heard, names=own) if speaks and len(own) < len(heard.names) else None

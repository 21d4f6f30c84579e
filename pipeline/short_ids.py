"""Ids as they may be written for short: a beat's only measure can be left out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

Measures = Mapping[str, Sequence[str]]  # the names of the measures of each beat


def full(name: str, measures: Measures) -> str:
    """The id in full, of a finding or of a fact.

    Of a beat with one measure 'wickets' is 'wickets.bowling_strike_rate', 'kinds.spin' is
    'kinds.economy.spin', 'kinds.spin.change' is 'kinds.economy.spin.change'. Anything else stays
    as it is.
    """
    beat, *rest = name.split(".")
    own = list(measures.get(beat, ()))
    if len(own) == 1 and rest[:1] != own:
        return ".".join([beat, *own, *rest])
    return name

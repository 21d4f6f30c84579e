"""The rows that a beat's findings are of, as far as they are known before any data are read."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import TYPE_CHECKING

from pipeline.config.cuts import CUTS
from pipeline.text import slug

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.project import Format

UNKNOWN = "unknown"


def values_in_order(cut: str, beat: AnyKind, form: Format) -> list[str]:
    """The values of a cut that are told in an order of their own; none of an open one."""
    if cut == "phase":
        return list(form.phases)
    if cut == "band":
        return [f"{first}-{last}" for first, last in beat.ranges(form.overs)]
    if beat.groups and cut == beat.groups[0]:
        return list(beat.groups[1:])
    return list(CUTS[cut].values)


def rows_known(beat: AnyKind, form: Format) -> list[str] | None:
    """The id of every row that can have a finding; none where only the data know.

    'all' is the row of all balls.
    """
    sets = [*beat.groupings, *beat.marginals, *beat.made_groupings]
    found: list[str] = []
    for cuts in sets:
        values = [_known(cut, beat, form) for cut in cuts]
        if not all(values):
            return None
        found += ["-".join(map(slug, row)) or "all" for row in product(*values)]
    return list(dict.fromkeys([*found, *beat.made_rows]))


def marginals_named(beat: AnyKind, form: Format, rows: list[str]) -> list[list[str]]:
    """The sets of cuts, told only where they are asked for, that some of these rows may be of."""
    return [cuts for cuts in beat.marginals if any(_may_be(row, cuts, beat, form) for row in rows)]


def may_be_of(row: str, beat: AnyKind, form: Format) -> Iterator[str]:
    """The cuts that a row of one cut alone may be of."""
    for cuts in beat.marginals:
        if _may_be(row, cuts, beat, form):
            yield from cuts


def _may_be(row: str, cuts: list[str], beat: AnyKind, form: Format) -> bool:
    """Whether a row is a value of the one cut, or may be one that only the data know."""
    (cut,) = cuts
    known = _known(cut, beat, form)
    return row in map(slug, known) if known else row != "all"


def _known(cut: str, beat: AnyKind, form: Format) -> list[str]:
    """The values that a cut can have in the beat's rows; none where only the data know."""
    listed = [value for value in values_in_order(cut, beat, form) if value != UNKNOWN]
    kept = beat.where.chosen().get(cut)
    return [value for value in listed if value in kept] if kept else listed

"""The cells of a beat: what each row of its query is of, named, in the order they are told."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pyarrow as pa

from pipeline.config.cuts import CUTS
from pipeline.config.row_ids import values_in_order
from pipeline.contracts.selection import Cell, Person
from pipeline.errors import Problem, UserError
from pipeline.metrics.clauses import UNKNOWN, column_of
from pipeline.metrics.query import BeatQuery
from pipeline.text import slug
from pipeline.topic_places import in_beat

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.project import Format
    from pipeline.config.views import MetricsView

Parts = tuple[tuple[str, str], ...]  # (cut, value) of one cell


def with_cells(
    wide: pa.Table,
    query: BeatQuery,
    beat: AnyKind,
    view: MetricsView,
    people: list[Person],
) -> tuple[pa.Table, list[Cell]]:
    """Name each row's cell; list the cells: coarse before fine, closed cuts in order, then A-Z.

    Of the rows of one of several cuts alone only those are kept that the topic asks for. Two
    values that make one id would be added together unseen; that raises UserError.
    """
    labels = {person.id: person.label for person in people}
    wide, combined, seen = _told(wide, *_combined(wide, query.cuts), beat, view)
    named = [_named(parts, labels) for parts in seen]
    order = {parts: _order(parts, beat, view.format) for parts in named}
    cells = [
        Cell(
            id=cell_id(parts),
            values=dict(parts),
            known=UNKNOWN not in dict(parts).values(),
            person=dict(original)[beat.person] if beat.person and original else None,
        )
        for parts, original in sorted(
            zip(named, seen, strict=True), key=lambda pair: order[pair[0]]
        )
    ]
    _check(cells, beat.id, view.file, in_beat(view.beats, beat, _divides(beat)))
    names = pa.array([cell_id(parts) for parts in named], pa.string())
    return wide.append_column("cell", names.take(pa.array(combined))), cells


def _told(
    wide: pa.Table, combined: np.ndarray, seen: list[Parts], beat: AnyKind, view: MetricsView
) -> tuple[pa.Table, np.ndarray, list[Parts]]:
    """The same without the rows of a cut alone that nobody asks for."""
    asked = view.asked.get(beat.id, [])
    told = [
        [cut for cut, _ in parts] in beat.groupings
        or (cell_id(parts) in asked and UNKNOWN not in dict(parts).values())
        for parts in seen
    ]
    if all(told):
        return wide, combined, seen
    kept, places = np.array(told)[combined], np.cumsum(told) - 1
    left = [parts for parts, keep in zip(seen, told, strict=True) if keep]
    return wide.filter(pa.array(kept)), places[combined[kept]], left


def cell_id(parts: Parts) -> str:
    """'spin-middle'; the cell of all balls is 'all'."""
    return "-".join(slug(value) for _, value in parts) or "all"


def _named(parts: Parts, labels: dict[str, str]) -> Parts:
    """Players by their names; everything else as it is."""
    return tuple(
        (cut, labels.get(value, value) if cut in ("bowler", "batter") else value)
        for cut, value in parts
    )


def _combined(wide: pa.Table, cuts: list[str]) -> tuple[np.ndarray, list[Parts]]:
    """Each row's combination of values as a number, and what the numbers stand for.

    Only the few combinations are ever handled one by one.
    """
    masked = wide["masked"].to_numpy().astype(np.int64)
    codes = masked.copy()
    for place, cut in enumerate(cuts):
        column = wide[column_of(cut)].combine_chunks().dictionary_encode(null_encoding="encode")
        count = len(column.dictionary)
        grouped = masked >> (len(cuts) - 1 - place) & 1 == 0
        codes = codes * (count + 1) + np.where(grouped, column.indices.to_numpy(), count)
    _, first, combined = np.unique(codes, return_index=True, return_inverse=True)
    found = []
    for row in first:
        bits = int(masked[row])
        found.append(
            tuple(
                (cut, str(wide[column_of(cut)][int(row)].as_py()))
                for place, cut in enumerate(cuts)
                if not bits >> (len(cuts) - 1 - place) & 1
            )
        )
    return combined, found


def _divides(beat: AnyKind) -> str:
    """The key of the beat that says what its rows are divided by."""
    return next((key for key in ("by", "between", "role") if key in type(beat).model_fields), "id")


def _check(cells: list[Cell], beat: str, file: str, where: str = "") -> None:
    seen: dict[str, Cell] = {}
    for cell in cells:
        other = seen.setdefault(cell.id, cell)
        if other is cell:
            continue
        name, known = (", ".join(each.values.values()) for each in (cell, other))
        message = f"beat '{beat}': '{name}' and '{known}' make one id, '{cell.id}'"
        if list(cell.values) == list(other.values):
            message = f"{message}; give one of them another name in the data"
        else:
            of = " or ".join(CUTS[next(iter(each.values))].name for each in (other, cell))
            message = f"{message} ({of}); ask for it in a beat divided by that one alone"
        raise UserError(Problem(file, message, where=where))


def _order(parts: Parts, beat: AnyKind, form: Format) -> tuple[int, list[tuple[int, str]]]:
    keys = []
    for cut, part in parts:
        listed = values_in_order(cut, beat, form)
        keys.append((listed.index(part) if part in listed else len(listed), part))
    return len(parts), keys

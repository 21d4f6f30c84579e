"""A change between the two windows for each cell, with its drift and its control."""

from __future__ import annotations

import pandas as pd

from pipeline.contracts.finding import Change, Finding
from pipeline.contracts.over_time import ControlCheck
from pipeline.contracts.selection import Cell
from pipeline.significance.arrays import WINDOWS, pair
from pipeline.significance.control import control_checks
from pipeline.significance.kinds.mix import mix_moved
from pipeline.significance.parallel import alike_beside, followed
from pipeline.significance.question import Question
from pipeline.significance.second_verdict import too_few


def changes(question: Question, cells: list[Cell], per: float | None = None) -> list[Finding]:
    """A finding a cell; with `per`, the measure's scale, the drift's line is given to be drawn."""
    names = [cell.id for cell in cells]
    results, drifts = question.compare(cells), question.drifts(names, per=per)
    controls = _controls(question, names)
    found: list[Finding] = [
        Change(
            **question.answer("change", cell.id, cell.values, WINDOWS),
            **question.numbers(result),
            felt=question.felt(cell.values, result),
            drift=drift,
            control=controls.get(cell.id),
            yardstick=yardstick,
        )
        for cell, result, drift, yardstick in zip(
            cells, results, drifts, question.yardsticks(names), strict=True
        )
    ]
    return found


def divided_changes(question: Question) -> list[Finding]:
    """The change of every cell; the whole's says where the mix of the cells makes much of it."""
    found = changes(question, question.cells)
    if question.finest and not question.scale.by_match:
        finest = pair(question.compared, [cell.id for cell in question.finest], WINDOWS)
        found[0].notes += mix_moved(finest, found[0], question.scale)
    return found


def _controls(question: Question, cells: list[str]) -> dict[str, ControlCheck]:
    about = question.about.control
    if about is None or question.control.empty:
        return {}
    unit = question.timing.unit
    other = question.by_period(unit, of_control=True)
    rows = pd.concat([question.compared, other])
    own, asked = question.by_period(unit), question.asked_periods
    told = [cell for cell in cells if cell in about.pairs]
    alike = None
    if told and not question.scale.by_match and not too_few(asked):
        alike = alike_beside(own, other, {cell: about.pairs[cell] for cell in told}, asked)
    found = control_checks(
        rows, about.name, cells, about.pairs, question.scale, question.statistics, unit, alike
    )
    pairs = {cell: about.pairs[cell] for cell in found}
    beside = followed(own, other, pairs, asked, question.scale) if pairs else {}
    for cell, (parallel, step) in beside.items():
        found[cell].parallel, found[cell].step = parallel, step
    return found

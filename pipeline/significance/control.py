"""A change held against that of its control: what the event did not touch."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from pipeline.contracts.over_time import ControlCheck
from pipeline.significance.arrays import WINDOWS, Pair, pair
from pipeline.significance.change import compare, group_change
from pipeline.significance.effects import compared, numbers_of
from pipeline.significance.level import Errors, by_period, gap_by_period, leveled
from pipeline.significance.methods.ratio import Estimate, Floats, change, gap, welch

if TYPE_CHECKING:
    from pipeline.config.project import Statistics
    from pipeline.config.views import Scale
    from pipeline.contracts.codes import Unit


def control_checks(
    rows: pd.DataFrame,
    name: str,
    cells: list[str],
    pairs: dict[str, str],
    scale: Scale,
    statistics: Statistics,
    unit: Unit | None = None,
    alike: Floats | None = None,
) -> dict[str, ControlCheck]:
    """Each cell's change beyond its control's, by cell id; none where either can't be told.

    Groups of the same matches are left out together; another competition's are independent. Rows
    have their period of that `unit`: what one does to both cancels, whosever matches they are.
    Without one all errors are of matches. `alike` (cells that have a pair,) is how alike
    neighbouring periods are in the whole series of the gaps, where that is known.
    """
    told = [cell for cell in cells if cell in pairs]
    own = rows[rows["window"].isin(WINDOWS)]
    other = rows[rows["window"].isin([f"control {window}" for window in WINDOWS])]
    if not told or own.empty or other.empty:
        return {}
    other = other.assign(window=other["window"].str.removeprefix("control "))
    mine, theirs, together = _aligned(own, other, told, [pairs[cell] for cell in told])
    with np.errstate(all="ignore"):
        match = Errors(*(_beyond(mine, theirs, together, log) for log in (True, False)))
        timed = None if scale.by_match else unit
        level = leveled(match, gap_by_period(theirs, mine, timed, alike) if timed else None, scale)
        numbers = numbers_of(*level.errors, scale, None)
    by = partial(by_period, unit=unit) if unit else None
    changes = [
        [group_change(one) for one in compare(each, scale, statistics, by)]
        for each in (theirs, mine)
    ]
    found = {}
    for at, (cell, one, two) in enumerate(zip(told, *changes, strict=True)):
        effect = compared(at, one, two, numbers, scale, level=level).effect
        if effect:
            found[cell] = ControlCheck(name=name, effect=effect)
    return found


def _beyond(mine: Pair, theirs: Pair, together: bool, log: bool) -> Estimate:
    """The change of mine less that of theirs."""
    if together:
        return gap(theirs.a, theirs.b, mine.a, mine.b, log)
    return welch(change(theirs.a, theirs.b, log), change(mine.a, mine.b, log))


def _aligned(
    own: pd.DataFrame, other: pd.DataFrame, told: list[str], twins: list[str]
) -> tuple[Pair, Pair, bool]:
    """Both as pairs, over the same rows of matches where they share any; whether they do."""
    if not set(own["match_id"]) & set(other["match_id"]):
        return pair(own, told, WINDOWS), pair(other, twins, WINDOWS), False
    named = pd.concat(
        [own.assign(cell="own " + own["cell"]), other.assign(cell="twin " + other["cell"])]
    )
    mine = pair(named, [f"own {cell}" for cell in told], WINDOWS)
    theirs = pair(named, [f"twin {cell}" for cell in twins], WINDOWS)
    return mine, theirs, True

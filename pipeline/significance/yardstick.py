"""The yardstick of a change: how far the number moves between periods with no event at all."""

from __future__ import annotations

import math

import numpy as np
import pandas as pd

from pipeline.contracts.over_time import Yardstick
from pipeline.significance.methods.ratio import Floats
from pipeline.significance.methods.yardstick import OfPeriods, scatter
from pipeline.significance.second_verdict import Asked, too_few


def yardsticks(rows: pd.DataFrame, cells: list[str], asked: Asked) -> list[Yardstick | None]:
    """That of each cell; `rows` hold all periods, in column `period`.

    None where its drift can't be tested, since it is what is left beside that, or where one period
    has too little of it.
    """
    if too_few(asked):
        return [None] * len(cells)
    periods = of_periods(rows, asked.labels, cells)
    found = scatter(periods, asked.middle - asked.middle[0], asked.after)
    return [
        Yardstick(
            sd=math.expm1(sd),
            low=math.expm1(low),
            high=math.expm1(high),
            periods=len(asked.labels),
            unit=asked.unit,
        )
        if math.isfinite(sd)
        else None
        for sd, low, high in zip(*found, strict=True)
    ]


def of_periods(rows: pd.DataFrame, labels: list[str], cells: list[str]) -> OfPeriods:
    """Totals of every period and cell; a match is one row of a cell."""
    place = (
        pd.Index(labels).get_indexer(pd.Index(rows["period"])),
        pd.Index(cells).get_indexer(pd.Index(rows["cell"])),
    )
    kept = (place[0] >= 0) & (place[1] >= 0)
    at = place[0][kept], place[1][kept]
    y, x = (rows[name].to_numpy(float)[kept] for name in ("y", "x"))

    def added(values: Floats) -> Floats:
        total = np.zeros((len(labels), len(cells)))
        np.add.at(total, at, values)
        return total

    totals = added(y), added(x)
    with np.errstate(divide="ignore", invalid="ignore"):
        rates = totals[0] / totals[1]
        squares = added((y - rates[at] * x) ** 2)
    return OfPeriods(*totals, squares, added(np.ones_like(y)))

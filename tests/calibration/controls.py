"""A number and its control: do they run side by side before the event, and is there a step?"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pandas as pd

from pipeline.significance.parallel import Followed, followed
from tests.calibration import worlds
from tests.calibration.base import Row, measure, row
from tests.calibration.levels import AT_THE_MARGIN
from tests.calibration.trends import ASKED, COUNT, DRIFT, TIME


def controls(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """No step in the gap of the two, which run alike; and gaps that drift to the margin's edge."""
    sims = min(sims, 4000)
    for rho in (0.0, 0.5):
        scenario = f"a number beside its control, 14 seasons, shocks 2% to each, alike by {rho}"
        told = _followed(rng, rho, 0.0, sims)
        apart = [one.parallel.verdict == "not parallel" for one in told]
        yield row(scenario, "not parallel", "false_alarm", apart)
        steps = [one.step.p < 0.05 for one in told if one.step]
        yield row(scenario, "step beside the control", "false_alarm", steps)
        told = _followed(rng, rho, AT_THE_MARGIN / ASKED.apart, sims)
        alike = [one.parallel.verdict == "parallel" for one in told]
        yield row(f"{scenario}, the gap at the margin", "parallel", "false_alarm", alike)


def _followed(rng: np.random.Generator, rho: float, slope: float, sims: int) -> list[Followed]:
    """One a simulation, its own cell: both share their shocks and have others of their own."""
    common = DRIFT + worlds.shocks(rng, COUNT, sims, 0.03, rho)
    own, other = (common + worlds.shocks(rng, COUNT, sims, 0.02, rho) for _ in "ab")
    cells = [f"{at:05}" for at in range(sims)]
    made = [_rows(rng, logs, cells) for logs in (own + slope * TIME[:, None], other)]
    found = followed(*made, dict(zip(cells, cells, strict=True)), ASKED, measure("rate"))
    return list(found.values())


def _rows(rng: np.random.Generator, logs: np.ndarray, cells: list[str]) -> pd.DataFrame:
    """A row a season and cell, as the tallies have them."""
    x = rng.integers(8_000, 12_000, logs.shape).astype(float)
    return pd.DataFrame(
        {
            "period": np.repeat(ASKED.labels, len(cells)),
            "cell": np.tile(cells, COUNT),
            "y": np.round(worlds.MEAN * x * np.exp(logs)).ravel(),
            "x": x.ravel(),
        }
    )

"""The noise that is no player's: match, season and ground effects.

Only season effects are kept from hiding a truth; the others are drawn as they fall.
"""

import math
import random
from collections.abc import Iterable

from demo_data import planted

WINDOW = 5  # seasons on either side of the event


def match_effect(rng: random.Random) -> float:
    """Draw a lognormal multiplier whose mean is exactly one."""
    sd = planted.MATCH_SD
    return math.exp(rng.gauss(-sd * sd / 2, sd))


def season_effects(rng: random.Random) -> dict[int, float]:
    """Draw season multipliers in which no level, trend or step at the event is hidden.

    They also cancel between the five seasons on either side of the event, the usual windows.
    """
    event = planted.EVENT_SEASON
    columns = [
        [1.0 for _ in planted.SEASONS],
        [float(season - event) for season in planted.SEASONS],
        [float(season >= event) for season in planted.SEASONS],
        [
            float(event <= season < event + WINDOW) - float(event - WINDOW <= season < event)
            for season in planted.SEASONS
        ],
    ]
    raw = [rng.gauss(0, 1) for _ in planted.SEASONS]
    noise = _scaled(_residual(raw, columns), planted.SEASON_SD)
    return {s: math.exp(value) for s, value in zip(planted.SEASONS, noise, strict=True)}


def ground_effects(rng: random.Random, grounds: Iterable[str]) -> dict[str, float]:
    """Draw one lasting multiplier a ground, as it falls: a region may have the slower ones."""
    return {ground: 1 + rng.gauss(0, planted.GROUND_SD) for ground in grounds}


def _residual(values: list[float], columns: list[list[float]]) -> list[float]:
    """Remove from the values all that the columns could explain (Gram-Schmidt)."""
    basis: list[list[float]] = []
    for column in columns:
        rest = _without(column, basis)
        length = math.sqrt(sum(x * x for x in rest))
        basis.append([x / length for x in rest])
    return _without(values, basis)


def _without(values: list[float], basis: list[list[float]]) -> list[float]:
    rest = list(values)
    for unit in basis:
        overlap = sum(a * b for a, b in zip(rest, unit, strict=True))
        rest = [a - overlap * b for a, b in zip(rest, unit, strict=True)]
    return rest


def _scaled(values: list[float], sd: float) -> list[float]:
    spread = math.sqrt(sum(x * x for x in values) / len(values))
    return [x * sd / spread for x in values]

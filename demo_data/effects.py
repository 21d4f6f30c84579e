"""The noise: match, season, ground and skill effects, centred so that they hide no truth."""

import math
import random
from collections import defaultdict
from collections.abc import Hashable, Sequence

from demo_data import planted

SWEEPS = 100
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


def ground_effects(rng: random.Random, region_of: dict[str, str]) -> dict[str, float]:
    """Draw ground multipliers with mean one within each region."""
    raw = {ground: rng.gauss(0, planted.GROUND_SD) for ground in region_of}
    even = dict.fromkeys(raw, 1.0)
    return {ground: 1 + value for ground, value in centred(raw, even, [region_of]).items()}


def centred(
    raw: dict[str, float],
    weight: dict[str, float],
    groupings: Sequence[dict[str, Hashable]],
) -> dict[str, float]:
    """Return the values with a weighted mean of zero in every group of every grouping.

    One grouping is done in one pass; several disturb one another a little less at each sweep.
    """
    values = dict(raw)
    for _ in range(SWEEPS if len(groupings) > 1 else 1):
        for grouping in groupings:
            _subtract_group_means(values, weight, grouping)
    return values


def _subtract_group_means(
    values: dict[str, float], weight: dict[str, float], grouping: dict[str, Hashable]
) -> None:
    total: dict[Hashable, float] = defaultdict(float)
    mass: dict[Hashable, float] = defaultdict(float)
    for key, value in values.items():
        total[grouping[key]] += weight[key] * value
        mass[grouping[key]] += weight[key]
    for key in values:
        values[key] -= total[grouping[key]] / mass[grouping[key]]


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

"""What else changed: a weak side of ten that a strong one replaces, and sides that stay."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import pandas as pd

from pipeline.contracts.composition import Composition
from pipeline.contracts.finding import Change
from pipeline.significance.arrays import WINDOWS, pair
from pipeline.significance.change import compare
from pipeline.significance.composition import composition_of
from pipeline.significance.verdicts import judge
from tests.calibration import worlds
from tests.calibration.base import STATISTICS, Row, holds, measure, row
from tests.calibration.levels import BY_SEASON
from tests.finding_makers import answer
from tests.look_makers import question
from tests.sides import fixtures, rows_of
from tests.word_makers import BEAT

SIDES = [f"Side {letter}" for letter in "ABCDEFGHIJ"]
STAY = {"before": SIDES, "after": SIDES}
REPLACED = {"before": ["Weakford", *SIDES[1:]], "after": ["Strongby", *SIDES[1:]]}
SKILL = {"Weakford": -0.35, "Strongby": 0.35}  # of the log rate that it scores at
SEASONS = 3  # in each window


class League(NamedTuple):
    """The sides of each window, the shocks of its seasons, and the share of fixtures played."""

    sides: dict[str, list[str]]
    shock: float = 0.0
    played: float = 1.0


LEAGUES = {
    "nothing changes": League(STAY),
    "nothing changes, three fixtures of five are played": League(STAY, played=0.6),
    "a weak side is replaced": League(REPLACED),
    "nothing changes, shocks 2%": League(STAY, shock=0.02),
}
A_SEASON = len(fixtures(SIDES, 0))


def compositions(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Nothing but the sides changes, or nothing at all: what is told, and told like for like."""
    for name in LEAGUES:
        yield from of(rng, max(25, sims // 8), name)


def of(rng: np.random.Generator, sims: int, name: str) -> Iterator[Row]:
    """One league, by its name."""
    stay = LEAGUES[name].sides is STAY
    told = _told(rng, LEAGUES[name], sims)
    scenario = f"ten sides, {SEASONS} against {SEASONS} seasons, {name}"
    quantity = "false_alarm" if stay else "power"
    changed = [one.verdict == "changed" for one, _ in told]
    yield row(scenario, "changed", quantity, changed)
    cautioned = [found.differs is not None for _, found in told]
    yield row(scenario, "caution: not like for like", quantity, cautioned)
    if not stay:
        both = zip(changed, cautioned, strict=True)
        alone = [one and not other for one, other in both]
        yield row(scenario, "changed, without the caution", "false_alarm", alone)
    for name in ("like_for_like", "held_still"):
        spans = [getattr(found, name) for _, found in told]
        inside = [span is not None and holds(span) for span in spans]
        yield row(scenario, name.replace("_", " "), "coverage", inside)


def _told(rng: np.random.Generator, league: League, sims: int) -> list[tuple[Change, Composition]]:
    """Of each simulation the plain change, a headline by itself, and what else changed."""
    rows = rows_of(rng, league.sides, lambda *_: 1.0, (SEASONS, SEASONS))
    match = rows["match_id"].factorize()[0]
    rows["period"] = match // A_SEASON
    skill = np.log(0.8) + rows["batting_team"].map(skill_of).to_numpy()
    found = []
    for _ in range(sims):
        of_season = rng.normal(0, league.shock, 2 * SEASONS)
        of_match, kept = rng.normal(0, worlds.MATCH_SD, len(rows)), rng.random(len(rows))
        luck = of_season[rows["period"]] + of_match[match]
        balls = rng.integers(200, 301, len(rows))
        drawn = rows.assign(x=balls, balls=balls, y=rng.poisson(balls * np.exp(skill + luck)))
        found.append(_asked(drawn[kept[match] < league.played]))
    return found


def skill_of(side: str) -> float:
    """What it does to the log rate when it bats; the others differ by a little."""
    return SKILL.get(side, 0.02 * (ord(side[-1]) % 5 - 2))


def _asked(rows: pd.DataFrame) -> tuple[Change, Composition]:
    named = ["window", "match_id", "ground", "period"]
    tallies = rows.groupby(named, as_index=False)[["y", "x", "balls"]].sum().assign(cell="all")
    of = measure("rate")
    (one,) = compare(pair(tallies, ["all"], WINDOWS), of, STATISTICS, BY_SEASON, shuffled=False)
    if one.effect is None:
        raise AssertionError("it was refused")
    finding = answer(Change, "b.m.0", a=one.a, b=one.b, effect=one.effect, asks=question("m", 0))
    judge([finding], [finding.id], STATISTICS, "simulation")
    return finding, composition_of(rows.drop(columns="period"), finding, of, BEAT)

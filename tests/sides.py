"""Matches between named sides, an innings each, and leagues of them over the seasons."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from pipeline.config.project import Statistics
from pipeline.config.views import Scale
from pipeline.contracts.composition import Composition
from pipeline.contracts.finding import Change
from pipeline.significance.arrays import WINDOWS, pair
from pipeline.significance.change import compare
from pipeline.significance.composition import composition_of
from pipeline.tables import MIX
from tests.finding_makers import change
from tests.tallying import played_in
from tests.word_makers import BEAT

Rate = Callable[[str, str, str, str], float]  # of a window, batting side, bowling side and ground
RUNS_AN_OVER: dict[str, Any] = {
    **{"per": 6, "kind": "rate", "margin": {"size": 5, "unit": "percent"}},
    **{"by_match": False, "per_wicket": False, "an_innings": False},
}


def between(
    year: int,
    sides: tuple[str, str],
    runs: tuple[int, int],
    ground: str,
    day: int,
    balls: int = 30,
) -> dict[str, Any]:
    """A match of two innings of so many valid balls, runs spread evenly over them."""
    first, second = sides
    squads = {side: [f"{side} {who}" for who in ("One", "Two", "Bowler")] for side in sides}
    found = played_in(
        year,
        [],
        dates=[f"{year}-{5 + day // 28:02}-{1 + day % 28:02}"],
        teams=[first, second],
        players=squads,
        registry={"people": {name: name for squad in squads.values() for name in squad}},
        outcome={"winner": first, "by": {"runs": 1}},
        toss={"winner": first, "decision": "bat"},
        venue=ground,
    )
    orders = ((first, second), (second, first))
    found["innings"] = [
        _innings(bat, bowl, total, balls) for (bat, bowl), total in zip(orders, runs, strict=True)
    ]
    return found


def _innings(batting: str, bowling: str, runs: int, balls: int) -> dict[str, Any]:
    each, more = divmod(runs, balls)
    who = {"batter": f"{batting} One", "non_striker": f"{batting} Two"}
    who["bowler"] = f"{bowling} Bowler"
    bowled = [each + (at < more) for at in range(balls)]
    overs = [
        [{**who, "runs": {"batter": r, "extras": 0, "total": r}} for r in bowled[at : at + 6]]
        for at in range(0, balls, 6)
    ]
    return {
        "team": batting,
        "overs": [{"over": at, "deliveries": over} for at, over in enumerate(overs)],
    }


def fixtures(sides: list[str], season: int) -> list[tuple[str, str]]:
    """Every side against every other once, at home every other season."""
    met = [(a, b) for at, a in enumerate(sides) for b in sides[at + 1 :]]
    return [
        (a, b) if (len(a) + len(b) + at + season) % 2 else (b, a) for at, (a, b) in enumerate(met)
    ]


def rows_of(
    rng: np.random.Generator,
    sides: dict[str, list[str]],
    rate: Rate,
    seasons: tuple[int, int] = (3, 3),
    spread: float = 0.1,
    balls: tuple[int, int] = (200, 301),
) -> pd.DataFrame:
    """Rows of `tables.MIX`, whole innings only: a league of the sides that each window has."""
    rows, match = [], 0
    for window, count in zip(WINDOWS, seasons, strict=True):
        for season in range(count):
            for home, away in fixtures(sides[window], season):
                match += 1
                luck = rng.normal(0, spread)
                for innings, (bat, bowl) in enumerate(((home, away), (away, home)), start=1):
                    faced = int(rng.integers(*balls))
                    mean = faced * rate(window, bat, bowl, home) * np.exp(luck)
                    of = ("b", "economy", "all", window, f"m{match:04}", innings, bat, bowl)
                    rows.append(
                        (
                            *of,
                            f"{home} Park",
                            "here",
                            "Cup",
                            "decided",
                            None,
                            None,
                            int(rng.poisson(mean)),
                            faced,
                            faced,
                        )
                    )
    return pd.DataFrame(rows, columns=MIX.names)


def asked(
    rows: pd.DataFrame, verdict: str | None = None, **scale: Any
) -> tuple[Change, Composition]:
    """The plain change of these rows, and what else changed."""
    of = Scale.model_validate({**RUNS_AN_OVER, **scale})
    whole = rows[rows["bowler_kind"].isna() & rows["phase"].isna()]
    tallies = whole.groupby(["window", "match_id"], as_index=False)[["y", "x", "balls"]].sum()
    grounds = whole.drop_duplicates("match_id")[["match_id", "ground"]]
    tallies = tallies.merge(grounds).assign(cell="all")
    with np.errstate(all="ignore"):
        (one,) = compare(pair(tallies, ["all"], WINDOWS), of, Statistics(permutations=99))
    assert one.effect is not None
    span = one.effect.difference if of.kind == "share" else one.effect.change
    moved = "can't tell" if span.low <= 0 <= span.high else "changed"
    found = change(a=one.a, b=one.b, effect=one.effect, kind=of.kind, verdict=verdict or moved)
    return found, composition_of(rows, found, of, BEAT)

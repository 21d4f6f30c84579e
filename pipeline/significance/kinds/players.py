"""A players beat: each player's change raw and shrunk, who is told apart, who is missing."""

from __future__ import annotations

from collections import Counter
from typing import Any

import numpy as np
import pandas as pd
from scipy.special import stdtrit

from pipeline.significance.arrays import Pair, pair
from pipeline.significance.change import compare
from pipeline.significance.methods.ratio import Sums, influence, log_ratio, ratio
from pipeline.significance.methods.shrinkage import Shrunk, shrink

View = dict[str, Any]
WINDOWS = ("before", "after")
OWN_SPREAD = 15  # matches in both windows, for a player's own spread to be used
LEAST_GROUP = 5  # players of a kind, for the kind to have its own mean


def enough(rows: pd.DataFrame, cells: list[View], at_least: View) -> tuple[list[View], View]:
    """(the players with enough in both windows, how many the threshold left out)."""
    counted = rows[rows["cell"] != "all"].groupby(["cell", "window"])
    amount = counted["balls"].sum() if at_least["of"] == "balls" else counted["match_id"].nunique()
    table = amount.unstack(fill_value=0).reindex(columns=list(WINDOWS), fill_value=0)
    kept = set(table.index[(table >= at_least["count"]).all(axis=1)])
    there = {
        "in_either": len(table),
        "in_both": int((table > 0).all(axis=1).sum()),
        "kept": len(kept),
        "left_out": int((table > 0).all(axis=1).sum()) - len(kept),
        "at_least": at_least,
    }
    return [cell for cell in cells if cell["id"] in kept], there


def player_findings(
    rows: pd.DataFrame, cells: list[View], kinds: list[str], measure: View, statistics: View
) -> list[View]:
    """A finding a cell, with `shrunk`: the change drawn towards that of players of the same kind.

    `kinds` are of the cells: bowlers are held against bowlers of their kind, batters against all.
    """
    whole = pair(rows, [cell["id"] for cell in cells], WINDOWS)
    found = compare(whole, measure, statistics)
    told = [at for at, finding in enumerate(found) if not finding["refused"]]
    groups = _groups([kinds[at] for at in told])
    errors = _errors(whole, told)
    for name in dict.fromkeys(groups):
        mine = [at for at, group in zip(told, groups, strict=True) if group == name]
        chosen = [place for place, group in enumerate(groups) if group == name]
        estimate = np.array([np.log1p(found[at]["change"]) for at in mine])
        drawn = shrink(estimate, errors[chosen] ** 2)
        for place, at in enumerate(mine):
            found[at]["shrunk"] = _shrunk(drawn, place, name, len(mine))
    for finding in found:
        finding.setdefault("shrunk", None)
    return found


def _groups(kinds: list[str]) -> list[str]:
    """Kinds with enough players stand by themselves; the others are one group together."""
    counts = Counter(kinds)
    large = {kind for kind, count in counts.items() if count >= LEAST_GROUP and kind != "unknown"}
    return [kind if kind in large else "others" for kind in kinds]


def _errors(whole: Pair, told: list[int]) -> np.ndarray:
    """Standard errors of the log changes: a player's own with enough matches, else the pooled."""
    own = [log_ratio(sums).se[told] for sums in (whole.a, whole.b)]
    pooled = [
        _pooled(Sums(*(part[:, told] for part in sums)), balls[:, told])
        for sums, balls in ((whole.a, whole.ball_a), (whole.b, whole.ball_b))
    ]
    many = [sums.here.sum(0)[told] >= OWN_SPREAD for sums in (whole.a, whole.b)]
    chosen = [np.where(m, o, p) for m, o, p in zip(many, own, pooled, strict=True)]
    return np.hypot(*chosen)


def _pooled(sums: Sums, balls: np.ndarray) -> np.ndarray:
    """Errors of log ratios from one spread a ball, common to all the players of a window.

    The squared residuals of every match over every player, by the balls they come from: a player
    of a few matches has too little to tell her own spread by.
    """
    total = sums.y.sum(0)
    relative = influence(sums) * total / ratio(sums)  # residuals in denominators
    weight = balls / np.maximum(balls.sum(0), 1)
    spread = (relative**2).sum() / (balls * (1 - weight)).sum()
    return np.sqrt(spread * balls.sum(0)) / sums.x.sum(0)


def _shrunk(drawn: Shrunk, place: int, group: str, count: int) -> View:
    half = stdtrit(drawn.df, 0.975) * drawn.se[place]
    value = drawn.value[place]
    return {
        "change": float(np.expm1(value)),
        "low": float(np.expm1(value - half)),
        "high": float(np.expm1(value + half)),
        "apart": bool(drawn.apart[place]),
        "mean": float(np.expm1(drawn.mean)),
        "group": group,
        "of": count,
    }


def represented(cells: list[View], people: dict[str, View]) -> View:
    """How many of the list are of each kind, arm with kind, style, hand and tag."""
    listed = [people[cell["person"]] for cell in cells]
    tags = Counter(tag for person in listed for tag in person["tags"])
    return {
        "kinds": dict(Counter(person["kind"] for person in listed)),
        "arms": dict(Counter(f"{person['arm']} {person['kind']}" for person in listed)),
        "styles": dict(Counter(person["style"] for person in listed)),
        "hands": dict(Counter(person["hand"] for person in listed)),
        "tags": dict(sorted(tags.items())),
    }

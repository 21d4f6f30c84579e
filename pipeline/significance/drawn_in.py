"""Players' changes, each as it came out and drawn in towards that of players of the same kind."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pandas as pd
from scipy.special import stdtrit

from pipeline.contracts.parts import Heterogeneity, Shrunk, Side
from pipeline.contracts.selection import Cell
from pipeline.significance.arrays import WINDOWS, Pair, pair
from pipeline.significance.change import compare
from pipeline.significance.effects import Compared
from pipeline.significance.methods.inference import benjamini_hochberg
from pipeline.significance.methods.ratio import (
    Bools,
    Estimate,
    Floats,
    Sums,
    influence,
    log_ratio,
    ratio,
    welch,
)
from pipeline.significance.methods.shrinkage import Shrunk as Drawn
from pipeline.significance.methods.shrinkage import heterogeneity, shrink

if TYPE_CHECKING:
    from pipeline.config.project import Statistics
    from pipeline.config.views import Scale

OWN_SPREAD = 15  # matches in a window, for a player's own spread to be used in it
LEAST_GROUP = 5  # players of a kind, for the kind to have its own mean


class Group(NamedTuple):
    """The players who are held against each other: their places, their changes drawn in."""

    name: str
    places: list[int]
    drawn: Drawn
    among: Heterogeneity | None


def player_changes(
    rows: pd.DataFrame, cells: list[Cell], kinds: list[str], scale: Scale, statistics: Statistics
) -> list[tuple[Compared[Side], Shrunk | None]]:
    """(a player's change, the same drawn towards that of players of the same kind), one a cell.

    `kinds` are of the cells; one that is refused is drawn nowhere. Who is told apart is asked of
    the whole list at once, since a name said is a name picked: Benjamini and Hochberg at `alpha`.
    """
    whole = pair(rows, [cell.id for cell in cells], WINDOWS)
    found = compare(whole, scale, statistics)
    effects = {at: one.effect.change for at, one in enumerate(found) if one.effect}
    told = list(effects)
    if not told:
        return [(one, None) for one in found]
    estimates = np.array([np.log1p(effects[at].value) for at in told])
    groups = grouped(estimates, _errors(whole, told), [kinds[at] for at in told])
    apart = np.ones(len(told))
    for group in groups:
        apart[group.places] = group.drawn.p
    adjusted = benjamini_hochberg(apart)
    shrunk = {
        told[place]: _shrunk(group, at, float(adjusted[place]), statistics.alpha)
        for group in groups
        for at, place in enumerate(group.places)
    }
    return [(one, shrunk.get(at)) for at, one in enumerate(found)]


def grouped(estimates: Floats, errors: Estimate, kinds: list[str]) -> list[Group]:
    """Players by kind, each kind drawn in towards its own mean; the errors are of the estimates."""
    names = _groups(kinds)
    made = []
    for name in dict.fromkeys(names):
        places = [place for place, group in enumerate(names) if group == name]
        mine, variance = estimates[places], errors.se[places] ** 2
        drawn = shrink(mine, variance)
        among = _among(drawn, mine, variance, errors.df[places]) if len(places) > 1 else None
        made.append(Group(name, places, drawn, among))
    return made


def _groups(kinds: list[str]) -> list[str]:
    """Kinds with enough players stand by themselves; the others are one group together."""
    counts = Counter(kinds)
    large = {kind for kind, count in counts.items() if count >= LEAST_GROUP and kind != "unknown"}
    return [kind if kind in large else "others" for kind in kinds]


def _among(drawn: Drawn, estimate: Floats, variance: Floats, known_on: Floats) -> Heterogeneity:
    found = heterogeneity(estimate, variance, known_on)
    return Heterogeneity(
        q=found.q,
        df=found.df,
        p=found.p,
        tau=float(np.sqrt(drawn.between)),
        kept=float(np.median(drawn.kept)),
    )


def _errors(whole: Pair, told: list[int]) -> Estimate:
    """Of the log changes: in each window a player's own error with enough matches, else pooled."""
    sides = [_side_errors(whole.a, whole.ball_a, told), _side_errors(whole.b, whole.ball_b, told)]
    return welch(*sides)


def _side_errors(sums: Sums, balls: Floats, told: list[int]) -> Estimate:
    own = log_ratio(sums)
    kept = Sums(sums.y[:, told], sums.x[:, told], sums.here[:, told])
    many: Bools = kept.here.sum(0) >= OWN_SPREAD
    error = np.where(many, own.se[told], _pooled(kept, balls[:, told]))
    of_all = float((kept.here.sum(0) - 1).sum())
    return Estimate(own.value[told], error, np.where(many, own.df[told], of_all))


def _pooled(sums: Sums, balls: Floats) -> Floats:
    """Errors of log ratios from one spread a ball, common to all the players of a window.

    The squared residuals of every match over every player, by the balls they come from: a player
    of a few matches has too little to tell her own spread by.
    """
    total = sums.y.sum(0)
    relative = influence(sums) * total / ratio(sums)  # residuals in denominators
    weight = balls / np.maximum(balls.sum(0), 1)
    spread = (relative**2).sum() / (balls * (1 - weight)).sum()
    errors: Floats = np.sqrt(spread * balls.sum(0)) / sums.x.sum(0)
    return errors


def _shrunk(group: Group, at: int, p_apart: float, level: float) -> Shrunk:
    drawn = group.drawn
    value, half = drawn.value[at], stdtrit(drawn.df, 0.975) * drawn.se[at]
    return Shrunk(
        change=float(np.expm1(value)),
        low=float(np.expm1(value - half)),
        high=float(np.expm1(value + half)),
        apart=p_apart < level,
        mean=float(np.expm1(drawn.mean)),
        group=group.name,
        of=len(group.places),
        p_apart=p_apart,
        among=group.among,
    )

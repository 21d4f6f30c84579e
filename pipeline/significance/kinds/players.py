"""players: each player's change raw and drawn in, who is told apart, who is missing."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd
from scipy.special import stdtrit

from pipeline.contracts.finding import Change, Finding, Player
from pipeline.contracts.findings import PlayersList
from pipeline.contracts.notes import AtLeast, SurvivorsOnly
from pipeline.contracts.parts import Shrunk, Side
from pipeline.contracts.selection import Cell, Person
from pipeline.significance.arrays import WINDOWS, Pair, pair
from pipeline.significance.change import compare
from pipeline.significance.effects import Compared
from pipeline.significance.methods.ratio import Floats, Sums, influence, log_ratio, ratio
from pipeline.significance.methods.shrinkage import Shrunk as Drawn
from pipeline.significance.methods.shrinkage import shrink
from pipeline.significance.question import WHOLE, Question

if TYPE_CHECKING:
    from pipeline.config.project import Statistics
    from pipeline.config.views import Scale

OWN_SPREAD = 15  # matches in both windows, for a player's own spread to be used
LEAST_GROUP = 5  # players of a kind, for the kind to have its own mean


def findings(question: Question) -> list[Finding]:
    """Everyone's change, then each player's with enough in both windows."""
    (everyone,) = question.compare([WHOLE])
    found: list[Finding] = [
        Change(
            **question.answer("change", "all", {}, WINDOWS),
            **question.numbers(everyone),
            felt=question.felt({}, everyone),
        )
    ]
    cells, short = enough(question.compared, question.about.cells, _at_least(question))
    if not cells:
        return found
    kinds = [_held_among(question, cell) for cell in cells]
    told = player_changes(question.compared, cells, kinds, question.scale, question.statistics)
    for cell, (result, shrunk) in zip(cells, told, strict=True):
        made = Player(
            **question.answer("player", cell.id, cell.values, WINDOWS),
            **question.numbers(result),
            shrunk=shrunk,
        )
        made.notes.append(short)
        found.append(made)
    return found


def listed(question: Question) -> PlayersList:
    """How many players there were, how many the threshold left, and what they are."""
    cells, short = enough(question.compared, question.about.cells, _at_least(question))
    people = [_person(question, cell) for cell in cells]
    return PlayersList(
        in_either=short.in_either,
        in_both=short.in_both,
        kept=short.kept,
        left_out=short.left_out,
        at_least=short.at_least,
        kinds=dict(Counter(person.kind for person in people)),
        arms=dict(Counter(f"{person.arm} {person.kind}" for person in people)),
        styles=dict(Counter(person.style for person in people)),
        hands=dict(Counter(person.hand for person in people)),
        tags=dict(sorted(Counter(tag for person in people for tag in person.tags).items())),
    )


def _at_least(question: Question) -> AtLeast:
    count, of = (question.beat.threshold or "").split()
    return AtLeast(count=int(count), of=of)


def _person(question: Question, cell: Cell) -> Person:
    return question.about.people[cell.person or ""]


def _held_among(question: Question, cell: Cell) -> str:
    """Bowlers are held against bowlers of their kind, batters against all."""
    return "batters" if question.beat.person == "batter" else _person(question, cell).kind


def enough(
    rows: pd.DataFrame, cells: list[Cell], at_least: AtLeast
) -> tuple[list[Cell], SurvivorsOnly]:
    """(the players with enough in both windows, how many the threshold left out)."""
    counted = rows[rows["cell"] != "all"].groupby(["cell", "window"])
    amount = counted["balls"].sum() if at_least.of == "balls" else counted["match_id"].nunique()
    table = amount.unstack(fill_value=0).reindex(columns=list(WINDOWS), fill_value=0)
    kept = set(table.index[(table >= at_least.count).all(axis=1)])
    in_both = int((table > 0).all(axis=1).sum())
    short = SurvivorsOnly(
        in_either=len(table),
        in_both=in_both,
        kept=len(kept),
        left_out=in_both - len(kept),
        at_least=at_least,
    )
    return [cell for cell in cells if cell.id in kept], short


def player_changes(
    rows: pd.DataFrame, cells: list[Cell], kinds: list[str], scale: Scale, statistics: Statistics
) -> list[tuple[Compared[Side], Shrunk | None]]:
    """(a player's change, the same drawn towards that of players of the same kind), one a cell.

    `kinds` are of the cells; one that is refused is drawn nowhere.
    """
    whole = pair(rows, [cell.id for cell in cells], WINDOWS)
    found = compare(whole, scale, statistics)
    effects = {at: one.effect.change for at, one in enumerate(found) if one.effect}
    told = list(effects)
    groups = _groups([kinds[at] for at in told])
    errors = _errors(whole, told) if told else np.zeros(0)
    shrunk: dict[int, Shrunk] = {}
    for name in dict.fromkeys(groups):
        places = [place for place, group in enumerate(groups) if group == name]
        mine = [told[place] for place in places]
        estimate = np.array([np.log1p(effects[at].value) for at in mine])
        drawn = shrink(estimate, errors[places] ** 2)
        for place, at in enumerate(mine):
            shrunk[at] = _shrunk(drawn, place, name, len(mine))
    return [(one, shrunk.get(at)) for at, one in enumerate(found)]


def _groups(kinds: list[str]) -> list[str]:
    """Kinds with enough players stand by themselves; the others are one group together."""
    counts = Counter(kinds)
    large = {kind for kind, count in counts.items() if count >= LEAST_GROUP and kind != "unknown"}
    return [kind if kind in large else "others" for kind in kinds]


def _errors(whole: Pair, told: list[int]) -> Floats:
    """Standard errors of the log changes: a player's own with enough matches, else the pooled."""
    own = [log_ratio(sums).se[told] for sums in (whole.a, whole.b)]
    pooled = [
        _pooled(Sums(sums.y[:, told], sums.x[:, told], sums.here[:, told]), balls[:, told])
        for sums, balls in ((whole.a, whole.ball_a), (whole.b, whole.ball_b))
    ]
    many = [sums.here.sum(0)[told] >= OWN_SPREAD for sums in (whole.a, whole.b)]
    chosen = [np.where(m, o, p) for m, o, p in zip(many, own, pooled, strict=True)]
    return np.hypot(*chosen)


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


def _shrunk(drawn: Drawn, place: int, group: str, count: int) -> Shrunk:
    half = stdtrit(drawn.df, 0.975) * drawn.se[place]
    value = drawn.value[place]
    return Shrunk(
        change=float(np.expm1(value)),
        low=float(np.expm1(value - half)),
        high=float(np.expm1(value + half)),
        apart=bool(drawn.apart[place]),
        mean=float(np.expm1(drawn.mean)),
        group=group,
        of=count,
    )

"""players: each player's change raw and drawn in, who moved, who is told apart, who is missing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import pandas as pd

from pipeline.contracts.finding import Change, Finding, Player
from pipeline.contracts.findings import PlayersList
from pipeline.contracts.notes import AtLeast, SurvivorsOnly
from pipeline.contracts.parts import Effect, Shrunk
from pipeline.contracts.selection import Cell, Person
from pipeline.significance.arrays import WINDOWS
from pipeline.significance.drawn_in import player_changes
from pipeline.significance.question import WHOLE, Question


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


def judged(found: Sequence[Finding]) -> None:
    """Who is said to have moved, once the verdicts are set: see `Shrunk`."""
    for finding in found:
        if isinstance(finding, Player) and finding.effect and finding.shrunk:
            finding.shrunk.moved = _moved(finding, finding.effect, finding.shrunk)


def _moved(player: Player, effect: Effect, drawn: Shrunk) -> bool:
    """Changed as it came out, and still so, the same way, with luck allowed for."""
    rose = effect.difference.value > 0
    return player.verdict == "changed" and (drawn.low > 0 if rose else drawn.high < 0)

"""How fragile a headline is: the same estimate and verdict in every other reasonable way to ask it.

Ways are cells: each is a mask over the matches, so that all are compared at once by the very code
that compares a beat's rows, errors and refusals included. Nothing is tallied again.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any

import numpy as np

from pipeline.contracts.finding import Change, Finding, Gap
from pipeline.contracts.panel import Choice, Panel
from pipeline.contracts.parts import Clusters
from pipeline.significance.arrays import Pair
from pipeline.significance.asking import Asking, apart, asking_of, cells_of
from pipeline.significance.carried import carrier
from pipeline.significance.change import compare
from pipeline.significance.effects import Compared
from pipeline.significance.influence import most_moving
from pipeline.significance.kinds.gap import gap_changes
from pipeline.significance.level import Alike, by_period
from pipeline.significance.methods.ratio import Bools, Sums
from pipeline.significance.own_matches import like_for_like, made, other_scale
from pipeline.significance.printed import widen
from pipeline.significance.told_scale import told_of
from pipeline.significance.verdicts import at_rate
from pipeline.significance.ways import (
    Asked,
    of_matches,
)

if TYPE_CHECKING:
    from pipeline.significance.question import Question


def ask_again(
    findings: Sequence[Finding], headlines: Collection[str], questions: Mapping[str, Question]
) -> None:
    """Give every headline that is a change between windows its panel, and its note if one carries.

    Of what changed and is no headline only that note is kept. `questions` are by 'beat.measure';
    findings are as judged and printed. What was refused, and has no number, is not asked again.
    """
    by_question: dict[str, list[Change | Gap]] = {}
    for finding in findings:
        wanted = finding.id in headlines or finding.verdict == "changed"
        if wanted and finding.effect and isinstance(finding, Change | Gap):
            by_question.setdefault(f"{finding.beat}.{finding.measure}", []).append(finding)
    for key, chosen in by_question.items():
        if not questions[key].beat.traits.panel:
            continue
        asking = asking_of(questions[key], chosen)
        for finding in chosen:
            panel = panel_of(finding, asking)
            finding.notes += carrier(finding, panel)
            finding.panel = panel if finding.id in headlines else None


def panel_of(finding: Change | Gap, asking: Asking) -> Panel:
    """All ways to ask it again, each with its number; a way that can't carry one is refused."""
    question, places = asking.question, asking.places
    pairs = [asking.of(cell) for cell in cells_of(finding)]
    of_cell = np.zeros(len(places[0]), bool)  # the matches that have something of it
    for one in pairs:
        of_cell[places[0]] |= one.a.here[:, 0]
        of_cell[places[1]] |= one.b.here[:, 0]
    own, others = of_matches(asking.own, asking.ways, of_cell)
    at = most_moving([_as_cells(one, [own], places) for one in pairs], places, finding.kind)
    gone = np.arange(len(of_cell)) == at
    asked = [*others, own.without("match", asking.played.called(at), gone)]
    results = _results([_as_cells(one, asked, places) for one in pairs], finding, asking)
    choices = [
        _choice(one, result, finding, question.scale.per)
        for one, result in zip(asked, results, strict=True)
    ]
    kept = [one for one in choices if one is not None]
    more = [*other_scale(finding), *like_for_like(finding)]
    return Panel(stretch=asking.stretch, choices=[*kept, *more])


def _as_cells(one: Pair, asked: Sequence[Asked], places: Sequence[Bools]) -> Pair:
    """A pair of one cell as one of a cell a way; `places` are the matches that its rows are of."""
    before = np.array([way.before[places[0]] for way in asked]).T
    after = np.array([way.after[places[1]] for way in asked]).T
    a, b = _masked(one.a, before), _masked(one.b, after)
    return replace(one, a=a, b=b, ball_a=one.ball_a * before, ball_b=one.ball_b * after)


def _masked(sums: Sums, kept: Bools) -> Sums:
    return Sums(sums.y * kept, sums.x * kept, sums.here & kept)


def _results(cells: list[Pair], finding: Change | Gap, asking: Asking) -> list[Compared[Any]]:
    """A comparison a way: of one cell, or of the two groups of a gap.

    How alike its periods are is asked of all of them, once.
    """
    question, names = asking.question, cells_of(finding)
    scale, statistics, unit = question.scale, question.statistics, question.timing.unit
    ways = cells[0].a.y.shape[1]
    each = [np.repeat(asking.alike[name], ways) for name in names]
    if len(cells) == 1:
        by = partial(by_period, unit=unit, alike=each[0])
        return [*compare(cells[0], scale, statistics, by, shuffled=False)]
    gap = np.repeat(asking.alike[apart(names)], ways)
    alike = Alike(each[0], each[1], gap)
    return [*gap_changes(cells[0], cells[1], scale, statistics, unit, shuffled=False, alike=alike)]


def _choice(
    asked: Asked, result: Compared[Any], finding: Change | Gap, per: float
) -> Choice | None:
    """One way's number at the level of the headline's printed interval.

    None of a way with too few periods for an error by periods, where the headline's is one: what
    its matches alone say would be another question, and an easier one.
    """
    effect = result.effect
    if effect and _easier(effect.cluster, finding.told.cluster):
        return None
    if effect is None:
        return made(asked.kind, asked.what, None, "can't tell", finding, result.refused)
    level = finding.told.level
    sides = None if isinstance(finding, Gap) else (result.a, result.b)
    widen(effect, level, sides, per)
    verdict = at_rate(effect, 1 - level)
    return made(asked.kind, asked.what, told_of(effect, finding.kind), verdict, finding)


def _easier(cluster: Clusters | None, own: Clusters | None) -> bool:
    return own is not None and own.wider and (cluster is None or cluster.few is not None)

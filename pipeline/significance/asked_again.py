"""How fragile a headline is: the same estimate and verdict in every other reasonable way to ask it.

Ways are cells: each is a mask over the matches, so that all are compared at once by the very code
that compares a beat's rows, errors and refusals included. Nothing is tallied again.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from pipeline.contracts.finding import Change, Finding, Gap
from pipeline.contracts.panel import Choice, Panel
from pipeline.contracts.parts import Clusters
from pipeline.contracts.timing import OUTSIDE
from pipeline.significance.arrays import WINDOWS, Pair, pair
from pipeline.significance.carried import carrier
from pipeline.significance.change import compare
from pipeline.significance.effects import Compared
from pipeline.significance.influence import most_moving
from pipeline.significance.kinds.gap import gap_changes, pairs_of
from pipeline.significance.methods.ratio import Bools, Sums
from pipeline.significance.own_matches import alike, made, other_scale
from pipeline.significance.printed import widen
from pipeline.significance.told_scale import told_of
from pipeline.significance.verdicts import at_rate
from pipeline.significance.ways import Asked, own_way, played_of, stretch_of, ways, widest

if TYPE_CHECKING:
    from pipeline.significance.question import Question


def ask_again(
    findings: Sequence[Finding], headlines: Collection[str], questions: Mapping[str, Question]
) -> None:
    """Give every headline that is a change between windows its panel, and its note if one carries.

    `questions` are by 'beat.measure'; findings are as judged and printed. What was refused, and has
    no number, is not asked again.
    """
    for finding in findings:
        if finding.id not in headlines or finding.effect is None:
            continue
        question = questions[f"{finding.beat}.{finding.measure}"]
        if question.beat.traits.panel and isinstance(finding, Change | Gap):
            finding.panel = panel_of(finding, question)
            finding.notes += carrier(finding)


def panel_of(finding: Change | Gap, question: Question) -> Panel:
    """All ways to ask it again, each with its number; a way that can't carry one is refused."""
    timing, windows = question.timing, question.windows
    if windows is None:
        raise ValueError(f"{finding.id} has no windows to be asked again in others")
    stretch = stretch_of(timing, windows)
    matches = question.every.drop_duplicates("match_id").sort_values("match_id")
    played, own = played_of(matches), own_way(played_of(matches), windows)
    asked = ways(played, own, timing, question.selection.seasons, question.grid(stretch))
    sides = np.array(widest([own, *asked]))
    every = question.by_period(timing.unit)
    rows = every.assign(
        window=every["match_id"].map(dict(zip(matches["match_id"], sides, strict=True)))
    )
    rows = rows[rows["window"] != OUTSIDE]
    if isinstance(finding, Gap):
        pairs = pairs_of(finding, rows)
    else:
        pairs = [pair(rows, [finding.cell], WINDOWS)]
    places = [sides == name for name in WINDOWS]
    at = most_moving([_as_cells(one, [own], places) for one in pairs], places, finding.kind)
    asked.append(own.without("match", played.called(at), np.arange(len(sides)) == at))
    results = _results([_as_cells(one, asked, places) for one in pairs], question)
    choices = [
        _choice(one, result, finding, question.scale.per)
        for one, result in zip(asked, results, strict=True)
    ]
    kept = [one for one in choices if one is not None]
    return Panel(stretch=stretch, choices=[*kept, *other_scale(finding), *alike(finding)])


def _as_cells(one: Pair, asked: Sequence[Asked], places: Sequence[Bools]) -> Pair:
    """A pair of one cell as one of a cell a way; `places` are the matches that its rows are of."""
    before = np.array([way.before[places[0]] for way in asked]).T
    after = np.array([way.after[places[1]] for way in asked]).T
    a, b = _masked(one.a, before), _masked(one.b, after)
    return replace(one, a=a, b=b, ball_a=one.ball_a * before, ball_b=one.ball_b * after)


def _masked(sums: Sums, kept: Bools) -> Sums:
    return Sums(sums.y * kept, sums.x * kept, sums.here & kept)


def _results(cells: list[Pair], question: Question) -> list[Compared[Any]]:
    """A comparison a way: of one cell, or of the two groups of a gap."""
    scale, statistics = question.scale, question.statistics
    if len(cells) == 1:
        return [*compare(cells[0], scale, statistics, question.by_periods, shuffled=False)]
    unit = question.timing.unit
    return [*gap_changes(cells[0], cells[1], scale, statistics, unit, shuffled=False)]


def _choice(
    asked: Asked, result: Compared[Any], finding: Change | Gap, per: float
) -> Choice | None:
    """One way's number at the level of the headline's printed interval.

    None of a way with too few periods for an error by periods, where the headline's is one: what
    its matches alone say would be another question, and an easier one.
    """
    effect, matches = result.effect, asked.matches
    if effect and _easier(effect.cluster, finding.told.cluster):
        return None
    if effect is None:
        return made(asked.kind, asked.what, None, "can't tell", finding, matches, result.refused)
    level = finding.told.level
    sides = None if isinstance(finding, Gap) else (result.a, result.b)
    widen(effect, level, sides, per)
    verdict = at_rate(effect, 1 - level)
    return made(asked.kind, asked.what, told_of(effect, finding.kind), verdict, finding, matches)


def _easier(cluster: Clusters | None, own: Clusters | None) -> bool:
    return own is not None and own.wider and (cluster is None or cluster.few is not None)

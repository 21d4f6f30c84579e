"""gap: did one group change more than the other? The difference of two changes."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from pipeline.contracts.finding import Change, Finding, Gap
from pipeline.contracts.notes import AnyNote, CheckDisagrees, FewClusters
from pipeline.contracts.parts import GroupChange
from pipeline.significance.arrays import WINDOWS, Pair, pair
from pipeline.significance.change import SEED, compare, group_change
from pipeline.significance.effects import Compared, compared, numbers_of
from pipeline.significance.level import Alike, Errors, by_period, gap_by_period, leveled
from pipeline.significance.methods.permutation import permute_gap
from pipeline.significance.methods.ratio import Floats, gap
from pipeline.significance.notes import few_clusters
from pipeline.significance.question import Question
from pipeline.text import slug

if TYPE_CHECKING:
    from pipeline.config.project import Statistics
    from pipeline.config.views import Scale
    from pipeline.contracts.codes import Unit


NO_SERIES = Alike()


def findings(question: Question) -> list[Finding]:
    """The gap of each cell, then each group's own change.

    A cell that has balls of one of the groups only is told as well, refused.
    """
    _, first, second = question.groups
    groups = [cell for cell in question.cells if cell.values]
    of_groups = [tuple(cell.values.values()) for cell in groups]
    rests = list(dict.fromkeys(values[1:] for values in of_groups))
    names = [[_id(group, *rest) for rest in rests] for group in (first, second)]
    pairs = [pair(question.compared, chosen, WINDOWS) for chosen in names]
    unit = question.timing.unit
    alike = question.alike_groups(*names)
    results = gap_changes(
        pairs[0], pairs[1], question.scale, question.statistics, unit, alike=alike
    )
    drifts = question.drifts(names[1], against=names[0])
    gaps: list[Finding] = []
    for rest, result, drift in zip(rests, results, drifts, strict=True):
        values = dict(zip(question.beat.cuts[1:], rest, strict=True)) if rest else {}
        common = question.answer("gap", _id(*rest) or "all", values, (first, second))
        gaps.append(Gap(**common, **question.numbers(result), drift=drift))
    own = question.compare(groups)
    changes = zip(groups, own, question.drifts([cell.id for cell in groups]), strict=True)
    return gaps + [
        Change(
            **question.answer("change", cell.id, cell.values, WINDOWS),
            **question.numbers(result),
            felt=question.felt(cell.values, result),
            drift=drift,
        )
        for cell, result, drift in changes
    ]


def _id(*values: str) -> str:
    """The id of the cell of these values, whether there is one or not."""
    return "-".join(map(slug, values))


def gap_changes(
    first: Pair,
    second: Pair,
    scale: Scale,
    statistics: Statistics,
    unit: Unit | None = None,
    shuffled: bool = True,
    alike: Alike = NO_SERIES,
) -> list[Compared[GroupChange]]:
    """How much more the second group changed than the first, a comparison a cell.

    Both pairs are of the same cells and the same matches, each of a period of that `unit`; without
    one all errors are of matches. The sides are the groups' own changes, each with its interval.
    `shuffled` as in `compare`; `alike` as in `by_period`.
    """
    changes = [
        compare(group, scale, statistics, partial(by_period, unit=unit, alike=own), shuffled)
        if unit
        else compare(group, scale, statistics, shuffled=shuffled)
        for group, own in ((first, alike.first), (second, alike.second))
    ]
    with np.errstate(all="ignore"):
        totals = first.a, first.b, second.a, second.b
        match = Errors(gap(*totals), gap(*totals, log=False))
        level = leveled(
            match, gap_by_period(first, second, unit, alike.gap) if unit else None, scale
        )
        checked = _permuted(first, second, statistics.permutations) if shuffled else None
        numbers = numbers_of(*level.errors, scale, checked)
    found = []
    for cell, (one, other) in enumerate(zip(*changes, strict=True)):
        sides = group_change(one), group_change(other)
        made = compared(cell, *sides, numbers, scale, level=level)
        notes: dict[type[AnyNote], AnyNote] = {
            type(note): note
            for part in (one, other)
            for note in part.notes
            if not isinstance(note, CheckDisagrees | FewClusters)
        }
        own = [*notes.values(), *few_clusters(made.effect)]
        found.append(Compared(made.a, made.b, made.refused, made.effect, own))
    return found


def _permuted(first: Pair, second: Pair, draws: int) -> Floats:
    rng = np.random.default_rng(SEED)
    return permute_gap((first.a, second.a), (first.b, second.b), first.blocks, draws, rng)


def cells_of_gap(finding: Gap) -> list[str]:
    """The cells of both groups of one gap."""
    return [_id(group, *finding.values.values()) for group in finding.sides]

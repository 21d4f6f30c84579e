"""Cautions as codes with their numbers; the words for them are the brief's."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

from pipeline.contracts import notes
from pipeline.contracts.finding import Finding, drift_of
from pipeline.contracts.notes import AnyNote
from pipeline.contracts.parts import Effect, Side, Span
from pipeline.contracts.selection import Newcomers
from pipeline.contracts.timing import Windows

if TYPE_CHECKING:
    from pipeline.config.project import Statistics
    from pipeline.config.views import Scale
    from pipeline.significance.effects import Compared

FEW_COUNTED = 30  # under 30 in the denominator is a caution by convention
DOMINATES = 0.25  # of a side's numerator in one match: look at that match first
MUCH_UNKNOWN = 0.10  # of a beat's balls of unknown kind or hand: coverage is low
MANY_REDUCED = 0.10  # of the matches compared
RESULT = "result"  # the cut
MANY_NEW = 0.25  # of the matches after, of a side not met before


def notes_on(found: Compared[Side], scale: Scale, statistics: Statistics) -> list[AnyNote]:
    """What a comparison's own numbers call for."""
    a, b, effect = found.a, found.b, found.effect
    told: list[AnyNote] = []
    fewest = min(a.matches, b.matches)
    enough = fewest >= statistics.least_matches
    if enough and fewest < statistics.few_matches:
        told.append(notes.FewMatches(matches=fewest))
    told += few_clusters(effect)
    counted = min(a.denominator, b.denominator) // scale.parts
    if counted < FEW_COUNTED:
        told.append(notes.FewCounted(count=counted, wickets=scale.per_wicket))
    largest = max(a.largest, b.largest)
    if enough and largest >= DOMINATES:
        told.append(notes.OneMatchDominates(share=largest))
    if effect and _on_two_sides(effect.p_match, effect.p_permutation):
        told.append(notes.CheckDisagrees(p=effect.p_match, p_permutation=effect.p_permutation))
    return told


def few_clusters(effect: Effect | None) -> list[AnyNote]:
    """That an error is of matches since there are too few periods for one of theirs."""
    cluster = effect.cluster if effect else None
    if cluster is None or cluster.few is None:
        return []
    return [notes.FewClusters(of=cluster.of, a=cluster.a, b=cluster.b, few=cluster.few)]


def _out(span: Span) -> bool:
    """Whether the interval leaves no change out."""
    return not span.low <= 0 <= span.high


def _on_two_sides(p: float, checked: float) -> bool:
    """Whether one is clearly under 5 per cent and the other clearly over."""
    return p < 0.05 < checked / 2 or checked < 0.05 < p / 2


def unknown_left_out(share: float) -> list[AnyNote]:
    """Balls of unknown kind or hand, which no row by them counts."""
    if not share:
        return []
    much = share >= MUCH_UNKNOWN
    return [notes.CoverageLow(share=share) if much else notes.UnknownLeftOut(share=share)]


def reduced(matches: int, shortened: int, an_innings: bool) -> list[AnyNote]:
    """Chases with fewer overs: they matter to what is counted an innings, and where many."""
    if shortened and (an_innings or shortened >= MANY_REDUCED * matches):
        return [notes.ReducedMatches(matches=shortened, of=matches)]
    return []


def by_result(finding: Finding, where: Collection[str]) -> list[AnyNote]:
    """A row, a filter (`where`) or a part of a mix of sides that won or lost."""
    told = {*finding.values, *where, *finding.asks.divided}
    return [notes.ChosenByResult()] if RESULT in told else []


def of_the_windows(
    windows: Windows, new: Newcomers | None, rivals: list[notes.Rival]
) -> list[AnyNote]:
    """What holds for every comparison of an event's two windows."""
    told: list[AnyNote] = []
    if rivals:
        told.append(notes.RivalEvent(rivals=rivals))
    if windows.inside:
        told.append(notes.TransitionSeason(seasons=windows.inside))
    if new and new.of_new_sides >= MANY_NEW * new.matches:
        told.append(notes.OppositionChanged(share=new.of_new_sides / new.matches))
    return told


def on_the_scales(finding: Finding) -> list[AnyNote]:
    """Printed intervals of which one leaves no change out and the other does not."""
    effect = finding.effect
    if effect is None or effect.relative is None:
        return []
    apart = _out(effect.difference) != _out(effect.relative)
    return [notes.ScaleDisagrees()] if apart else []


def on_the_drift(finding: Finding) -> list[AnyNote]:
    """A change whose drift can't be tested."""
    drift = drift_of(finding)
    if finding.verdict != "changed" or drift is None or drift.test is not None:
        return []
    return [
        notes.DriftNotTestable(
            because=drift.because,
            periods_before=drift.periods_before,
            periods_after=drift.periods_after,
            unit=drift.unit,
        )
    ]

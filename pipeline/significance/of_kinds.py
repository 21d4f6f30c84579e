"""Which module answers a beat: one a kind; a kind without one is an error."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import PlayersList
from pipeline.significance import notes
from pipeline.significance.kinds import (
    before_after,
    gap,
    groups,
    mix,
    phases,
    players,
    share,
    streaks,
    trend,
    turning_point,
)
from pipeline.significance.question import Question

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat

FINDINGS: dict[str, Callable[[Question], list[Finding]]] = {
    "before_after": before_after.findings,
    "gap": gap.findings,
    "groups": groups.findings,
    "mix": mix.findings,
    "phases": phases.findings,
    "players": players.findings,
    "share": share.findings,
    "streaks": streaks.findings,
    "trend": trend.findings,
    "turning_point": turning_point.findings,
}
# What a kind adds once the verdicts of its findings are set; most add nothing.
JUDGED: dict[str, Callable[[Sequence[Finding]], None]] = {
    "mix": mix.judged,
    "players": players.judged,
}


def judged(findings: Sequence[Finding], beats: Iterable[AnyBeat]) -> None:
    """What kinds add to their findings, beat by beat, as judged and printed."""
    for beat in beats:
        if beat.kind in JUDGED:
            JUDGED[beat.kind]([finding for finding in findings if finding.beat == beat.id])


LISTS: dict[str, Callable[[Question], PlayersList]] = {"players": players.listed}


def findings_of(question: Question) -> list[Finding]:
    """The findings of any beat: those of its kind, with the notes that every kind shares."""
    found = FINDINGS[question.beat.kind](question)
    shortened = question.compared[question.compared["cell"] == "all"].drop_duplicates("match_id")
    counts = len(shortened), int(shortened["reduced"].fillna(False).sum())
    for finding in found:
        if finding.cell != "all":
            finding.notes += notes.unknown_left_out(question.unknown)
        finding.notes += notes.by_result(finding, question.beat.where.chosen())
        finding.notes += notes.reduced(*counts, question.scale.an_innings)
    return found

"""The order of an argument: what each beat does in it, and another order where that buries it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Literal, NamedTuple

from pipeline.contracts.episode import Role
from pipeline.contracts.finding import Change, Finding, Gap
from pipeline.contracts.findings import Findings
from pipeline.episode.choice import Chosen
from pipeline.wording.composition import is_unlike
from pipeline.wording.expected import contradicts
from pipeline.wording.scales import sign_of

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.views import BriefView

BURIED = 3  # place from which on an answer comes late


class Argument(NamedTuple):
    """Each beat's role by its id; which of them turn against the beat before; another order.

    `other` is empty where the order that is there does not bury the answer. `by` is what comes
    first in it: the answer, or what people expect of another beat.
    """

    roles: Mapping[str, Role]
    turning: frozenset[str]
    other: list[str]
    by: Literal["answer", "expectation"] = "answer"


def argument(view: BriefView, findings: Findings, told: Mapping[str, Chosen]) -> Argument:
    """From the findings that each beat tells."""
    leads = {beat.id: lead(told[beat.id], findings) for beat in view.beats}
    ids = [beat.id for beat in view.beats]
    answering = _answering(ids, leads, findings)
    turning = frozenset(
        beat.id
        for before, beat in pairwise(view.beats)
        if _same_gap(before, beat) and turns(leads[before.id], leads[beat.id])
    )
    roles: dict[str, Role] = {}
    for at, beat in enumerate(ids):
        if beat == answering:
            roles[beat] = "answers"
        elif at == 0:
            roles[beat] = "sets the scene"
        elif beat in turning:
            roles[beat] = "turns"
        elif _cuts_against(told[beat], view):
            roles[beat] = "cuts against"
        else:
            roles[beat] = "closes" if at == len(ids) - 1 else "widens"
    expected = _expected(answering, view, findings)
    other = _other_order(ids, answering, expected, findings)
    return Argument(roles, turning, other, "expectation" if expected else "answer")


def lead(told: Chosen, findings: Findings) -> Finding | None:
    """The finding that a beat turns on: a headline that can be told, else what can, else any.

    Of several the surest.
    """

    def order(finding: Finding) -> tuple[bool, bool, bool, float]:
        p = finding.effect.p if finding.effect else 1.0
        open_ = finding.verdict == "can't tell"
        return open_, finding.id not in findings.headlines, finding.verdict != "changed", p

    return min(told.told, key=order, default=None)


def turns(before: Finding | None, finding: Finding | None) -> bool:
    """Whether the same measure truly goes another way: the other direction, or it held instead."""
    if before is None or finding is None or before.measure != finding.measure:
        return False
    if not isinstance(finding, Change | Gap) or type(before) is not type(finding):
        return False
    verdicts = {before.verdict, finding.verdict}
    if verdicts == {"changed"}:
        return sign_of(before) * sign_of(finding) < 0
    return verdicts == {"changed", "held"}


def _same_gap(before: AnyBeat, beat: AnyBeat) -> bool:
    """Whether no other groups are set against each other: their gap goes no way against this."""
    return not (before.groups and beat.groups) or before.groups == beat.groups


def _answering(
    ids: Sequence[str], leads: Mapping[str, Finding | None], findings: Findings
) -> str | None:
    """The beat of the first headline that can be told, in the topic's order; else of the first."""
    by_id = {finding.id: finding for finding in findings.findings}
    headlines = [by_id[name] for name in findings.headlines if name in by_id]
    settled = [each for each in headlines if each.verdict != "can't tell"]
    chosen = next(iter([*settled, *headlines]), None)
    return chosen.beat if chosen and chosen.beat in ids else None


def _cuts_against(told: Chosen, view: BriefView) -> bool:
    """Whether it tells what goes against a saying, or is another change like for like."""
    means = [(each.finding, each.means) for each in view.expected]
    said = {finding.id: finding for finding in told.told}
    wrong = any(of in said and contradicts(mean, said[of]) for of, mean in means)
    return wrong or any(map(is_unlike, told.told))


def _expected(answering: str | None, view: BriefView, findings: Findings) -> str | None:
    """The beat of the first thing people say, where that can be told and is not the answer's."""
    by_id = {finding.id: finding for finding in findings.findings}
    first = next((by_id[each.finding] for each in view.expected if each.finding in by_id), None)
    told = first is not None and first.verdict != "can't tell" and first.beat != answering
    return first.beat if first and told else None


def _other_order(
    ids: Sequence[str], answering: str | None, expected: str | None, findings: Findings
) -> list[str]:
    """What people expect, the answer, then beats with headlines that can be told, then the rest.

    Where no headline can be told there is no answer to bury.
    """
    settled = {
        each.beat
        for each in findings.findings
        if each.id in findings.headlines and each.verdict != "can't tell"
    }
    if answering not in settled or ids.index(answering) + 1 < BURIED:
        return []

    def order(beat: str) -> tuple[bool, bool, bool]:
        return beat != expected, beat != answering, beat not in settled

    other = sorted(ids, key=order)
    return other if other != list(ids) else []

"""What a number can be held against, made of the facts of a topic and of its findings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Change, Finding, Gap, Mix, Rates, Turn
from pipeline.said.targets import OVERS, SHARE, WINDOW, Role, Target
from pipeline.said.units import unit_of
from pipeline.text import slug

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.views import BriefView


_ROLES: dict[str, Role] = {
    "difference": "move", "change": "move", "felt": "felt", "drift": "drift", "step": "step",
    "beyond-control": "control", "like-for-like": "like", "held-still": "held",
    "luck-allowed-for": "luck", "yardstick": "yardstick", "same-in": "ways", "of-change": "part",
}  # fmt: skip


def targets_of(
    view: BriefView, findings: Iterable[Finding], facts: Iterable[Fact], edition: str | None = None
) -> Iterator[Target]:
    """Every fact that has a value; the findings' subjects are the beats' and their own."""
    by_id = {finding.id: finding for finding in findings}
    beats = {beat.id: beat for beat in view.beats}
    for fact in facts:
        if fact.value is None:
            continue
        finding, beat = by_id.get(fact.finding or ""), beats.get(fact.beat or "")
        if finding and beat:
            yield replace(_of_finding(fact, finding, beat, view, edition), filters=filters_of(beat))
        elif beat:
            yield replace(_of_beat(fact, beat, view, edition), filters=filters_of(beat))
        else:
            yield Target("count", unit_of(fact.unit), fact.value, {}, fact, edition=edition)


def _of_finding(
    fact: Fact, finding: Finding, beat: AnyBeat, view: BriefView, edition: str | None
) -> Target:
    part = fact.id.removeprefix(f"{finding.id}.")
    names = _in_overs({**names_of(beat), **finding.values, "measure": finding.measure}, view)
    sides, between = [slug(side) for side in finding.sides], _compared(finding, beat)
    if isinstance(finding, Mix | Rates):
        names["mix"] = "mix" if isinstance(finding, Mix) else "rates"
    role: Role = _ROLES.get(part, "level")
    side = sides.index(part) if part in sides else None
    share = part.removeprefix("share-") if part.startswith("share-") else ""
    if isinstance(finding, Turn):
        names["turn"] = "turn"
    if share:
        names, side = {**names, "measure": SHARE}, sides.index(share)
    if isinstance(finding, Gap):
        names["gap"] = "gap"
        if side is not None:
            role = "move"
            names.pop("gap")
    if side is not None and between:
        names[between] = finding.sides[side]
    elif side is not None:
        names[WINDOW] = finding.sides[side].rpartition(" ")[2]  # of a turn 'level before'
    return _target(fact, role, names, finding, side, "" if side is not None else between, edition)


def _compared(finding: Finding, beat: AnyBeat) -> str:
    """The cut whose two values are the finding's sides; '' of a change in time."""
    groups = beat.groups
    return groups[0] if groups and set(groups[1:]) == set(finding.sides) else ""


def _target(
    fact: Fact, role: Role, names: dict[str, str], finding: Finding, side: int | None,
    between: str, edition: str | None,
) -> Target:  # fmt: skip
    scale = fact.scale
    effect = finding.effect
    size = effect.difference.value if effect else 0.0
    if names.get("measure") == SHARE and isinstance(finding, Change) and finding.shares:
        size = finding.shares[1] - finding.shares[0]
    if role == "ways":
        names = {**names, "~ways": "ways"}
    return Target(
        role,
        unit_of(fact.unit),
        (fact.value or 0) * scale,
        names,
        fact,
        finding,
        None if fact.low is None else fact.low * scale,
        None if fact.high is None else fact.high * scale,
        side,
        (size > 0) - (size < 0),
        between,
        edition=edition,
    )


def _of_beat(fact: Fact, beat: AnyBeat, view: BriefView, edition: str | None) -> Target:
    """A point of a series, or a count of a list of players."""
    names = _in_overs({**names_of(beat), "measure": fact.measure or ""}, view)
    unit = unit_of(fact.unit)
    part = fact.id.rpartition(".")[2]
    if unit == "players":
        return Target("count", unit, fact.value or 0, {}, fact, edition=edition, what=fact.id)
    if part.startswith("kept-"):
        kind = {"bowler_kind": part.removeprefix("kept-")}
        return Target("part", unit, fact.value or 0, {**names, **kind}, fact, edition=edition)
    names["season"] = part
    return Target(
        "level", unit, fact.value or 0, names, fact, None, fact.low, fact.high, edition=edition
    )


def names_of(beat: AnyBeat) -> dict[str, str]:
    """What a beat's filter, or what it counts, holds to one value."""
    chosen = {**beat.where.chosen(), **beat.counted}
    names = {cut: values[0] for cut, values in chosen.items() if len(values) == 1}
    if beat.where.overs:
        names[OVERS] = "-".join(map(str, beat.where.overs))
    return names


def filters_of(beat: AnyBeat) -> dict[str, frozenset[str]]:
    """What a beat's filter keeps several values of."""
    chosen = {**beat.where.chosen(), **beat.counted}
    return {cut: frozenset(values) for cut, values in chosen.items() if len(values) > 1}


def _in_overs(names: dict[str, str], view: BriefView) -> dict[str, str]:
    """A phase and a stretch by the overs that they are: '11-40'."""
    phase, band = names.pop("phase", None), names.pop("band", None)
    if phase in view.format.phases:
        band = "-".join(map(str, view.format.phases[phase].overs))
    return {**names, OVERS: band} if band else names

"""Numbers that a brief says which are no facts: margins, how many were tested, who is listed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from pipeline.contracts.episode import Episode
from pipeline.contracts.finding import Change, Finding, drift_of, yardstick_of
from pipeline.contracts.findings import Findings
from pipeline.contracts.parts import Side
from pipeline.said.read_numbers import read
from pipeline.said.targets import SHARE, WINDOW, Role, Target
from pipeline.said.tokens import tokens_of
from pipeline.said.units import PER_CENT, POINTS, unit_after
from pipeline.wording.yardstick import in_units, value_before

MARGIN = "the margin set in advance"
_KINDS = (("bowler_arm", "arms"), ("batter_hand", "hands"), ("bowler_kind", "kinds"))
TESTED = "the numbers that are judged together"


def said_by_brief(
    findings: Findings, facts: Sequence[Target], episode: Episode | None
) -> Iterator[Target]:
    """Each with what it is, since no fact says so."""
    of = {each.finding.id: each for each in facts if each.finding}
    of |= {each.finding.id: each for each in facts if each.finding and each.side is None}
    for finding in findings.findings:
        yield from _of_finding(finding, of.get(finding.id))
    yield from _rests(findings.findings, facts)
    for players in findings.lists.values():
        for count in sorted({players.kept, players.left_out}):
            yield Target("count", "players", count, {}, what="players of the list")
        for cut, counts in _KINDS:
            for value, count in getattr(players, counts).items():
                yield Target("count", "players", count, {cut: value}, what="players of the list")
        least = players.at_least
        yield Target("count", str(least.of), least.count, {}, what="what it takes to be listed")
    yield from _of_lines(episode)


def _of_finding(finding: Finding, like: Target | None) -> Iterator[Target]:
    names = {cut: told for cut, told in like.names.items() if cut != WINDOW} if like else {}
    between = like.between if like else ""
    unit = PER_CENT if finding.margin.unit == "percent" else POINTS
    yield Target("margin", unit, finding.margin.size, names, between=between, what=MARGIN)
    drift = drift_of(finding)
    for size in sorted({finding.family_size, drift.family_size if drift else 0}):
        yield Target("count", "comparisons", size, {}, what=TESTED)
    matches = {side.matches for side in (finding.a, finding.b) if isinstance(side, Side)}
    for count in sorted({*matches, sum(matches)}):
        yield Target("count", "matches", count, {}, what="the matches of a number")
    yield from _shares(finding, names)
    if finding.panel and finding.panel.choices:
        asked = len(finding.panel.choices)
        yield Target("ways", "ways", asked, {}, what="the ways of asking")
    if drift and drift.test:
        yield _moved("drift", drift.test.expected.value * 100, names, finding)
    yardstick = yardstick_of(finding)
    if yardstick and finding.kind == "share":
        span = in_units(yardstick, value_before(finding))
        yield Target("yardstick", POINTS, span.value, names, finding=finding, what="the swing")


def _shares(finding: Finding, of: Mapping[str, str]) -> Iterator[Target]:
    """A group's share of the balls, and those of what else changed, where the finding is `of`."""
    if not isinstance(finding, Change):
        return
    told: list[tuple[dict[str, str], tuple[float, float]]] = [
        ({str(each.by): each.value}, (each.before, each.after))
        for each in (finding.composition.moved if finding.composition else ())
    ]
    if finding.shares:
        told.append((finding.values, finding.shares))
    for values, shares in told:
        sign = (shares[1] > shares[0]) - (shares[1] < shares[0])
        for side, share in enumerate(shares):
            names = {**of, **values, "measure": SHARE, WINDOW: finding.sides[side]}
            what = "its share of the balls"
            yield Target("level", PER_CENT, share * 100, names, side=side, moved=sign, what=what)


def _rests(findings: Sequence[Finding], facts: Sequence[Target]) -> Iterator[Target]:
    """Of a group's share of the balls the other group's, where there are two of them."""
    for each in facts:
        mine = each.finding
        if mine is None or mine.kind != "share" or each.role != "level" or each.unit != PER_CENT:
            continue
        for cut, value in each.names.items():
            values = {one.values[cut] for one in findings if cut in one.values}
            if each.names.get("measure") == f"{value}-share" and len(values | {value}) == 2:
                (other,) = values - {value} or {""}
                names = {**each.names, cut: other, "measure": SHARE}
                rest, what = 100 - each.value, "the rest of the balls"
                yield replace(
                    each, value=rest, names=names, fact=None, finding=None, low=None, high=None,
                    moved=-each.moved, what=what,
                )  # fmt: skip


def _moved(role: Role, value: float, names: Mapping[str, str], finding: Finding) -> Target:
    return Target(role, PER_CENT, value, names, finding=finding, what="what the drift comes to")


def _of_lines(episode: Episode | None) -> Iterator[Target]:
    """Counts of the close and the cold open: matches that would settle it, balls asked."""
    lines = [*episode.close, *episode.cold_open] if episode else []
    for line in lines:
        tokens = tokens_of(line.text)
        for said in read(tokens):
            unit = unit_after(tokens, said.last)
            if unit and unit.name in ("matches", "balls") and said.whole:
                yield Target("count", unit.name, said.value, {}, what="as the brief says it")

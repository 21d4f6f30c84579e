"""Every sayable number with a stable id: 'kinds.economy.spin-middle.change'."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import msgspec

from pipeline.brief.fact import (
    Origin,
    count_fact,
    difference_fact,
    drift_fact,
    felt_fact,
    kept_fact,
    part_fact,
    percent_fact,
    same_in_fact,
    share_fact,
    text_fact,
    value_fact,
    yardstick_fact,
)
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import (
    Change,
    Finding,
    Gap,
    Groups,
    Mix,
    Player,
    Turn,
    control_of,
    drift_of,
    felt_of,
    yardstick_of,
)
from pipeline.contracts.findings import Findings, PlayersList, Point
from pipeline.contracts.parts import GroupChange, Side, Span
from pipeline.csv_files import csv_text
from pipeline.text import slug
from pipeline.wording import tested
from pipeline.wording.composition import composition_of
from pipeline.wording.labels import period_said
from pipeline.wording.mix_parts import share_told
from pipeline.wording.names import all_of, among_groups, has_moved, is_apart, named
from pipeline.wording.phrases import APART, TIME
from pipeline.wording.shown_numbers import taken_unrounded
from pipeline.wording.values import digits_said

if TYPE_CHECKING:
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import BriefView


def facts_of(view: BriefView, findings: Findings) -> list[Fact]:
    """All facts of a topic, in the order of its findings."""
    made = list(_of_data(findings))
    for finding in findings.findings:
        measure = view.measures[finding.measure]
        made += _of_finding(finding, measure, view.format, finding.id in findings.headlines)
    for key, players in findings.lists.items():
        beat, name = key.split(".")
        of_beat = [f for f in findings.findings if f.beat == beat and f.measure == name]
        made += _of_list(key, players, named(of_beat))
    for key, series in findings.series.items():
        beat, name = key.split(".")
        made += _of_series(key, beat, view.measures[name], name, series)
    return made


def _of_data(findings: Findings) -> Iterator[Fact]:
    data, family = findings.data, findings.family
    yield _counted("data.matches", data.matches, "matches", "in the topic's data")
    yield _counted("data.balls", data.balls, "valid balls", "in the topic's data")
    for amount, key, which in (
        (data.compared, "compared", "in the windows or the groups that are compared"),
        (data.counted, "counted", "compared, or behind the trend"),
    ):
        if amount:
            yield _counted(f"data.{key}-matches", amount.matches, "matches", which)
            yield _counted(f"data.{key}-balls", amount.balls, "valid balls", which)
    yield _counted("family.looked_at", family.looked_at, "comparisons", "all that were made")
    if family.earlier:
        which = "that were headlines in earlier builds, and are counted with today's"
        yield _counted("family.earlier", family.earlier, "comparisons", which)
    yield _counted("family.cant_tell", family.cant_tell, "comparisons", "that can't be called")


def _counted(identity: str, count: int, unit: str, which: str) -> Fact:
    return count_fact(identity, count, unit, {"definition": f"{unit} {which}"})


def _of_finding(finding: Finding, measure: Measure, form: Format, headline: bool) -> Iterator[Fact]:
    origin: Origin = {
        "finding": finding.id,
        "beat": finding.beat,
        "measure": finding.measure,
        "definition": _defined(finding, measure),
        "query": finding.beat,
        "headline": headline,
        "verdict": finding.verdict,
        "second": _second(finding),
    }
    yield from _sides(finding, measure, origin)
    if finding.refused:
        return
    identity, effect, share = finding.id, finding.told, finding.kind == "share"
    ways = APART if isinstance(finding, Groups) else TIME
    yield difference_fact(
        f"{identity}.difference",
        effect.difference,
        share,
        measure,
        origin,
        level=effect.level,
        arithmetic=taken_unrounded(finding, measure),
        ways=ways,
    )
    if not share:
        change = effect.change
        yield percent_fact(f"{identity}.change", change, origin, level=effect.level, ways=ways)
    if felt := felt_of(finding):
        yield felt_fact(f"{identity}.felt", finding, felt, measure, form, origin)
    yield from _second_question(finding, measure, origin)
    yield from _what_else(finding, measure, origin)
    if finding.panel and finding.panel.choices:
        yield same_in_fact(f"{identity}.same-in", finding.panel, origin)
    yield from _of_its_answer(finding, origin)


def _second(finding: Finding) -> str | None:
    """The verdicts on what it was held against."""
    held = (drift_of(finding), control_of(finding))
    return "; ".join(each.verdict for each in held if each) or None


def _defined(finding: Finding, measure: Measure) -> str:
    """What its numbers are of; those of a turning point are the model's."""
    if isinstance(finding, Turn) and finding.turn:
        return f"{measure.defined}, {tested.levels_are(finding.turn)}"
    return measure.defined


def _sides(finding: Finding, measure: Measure, origin: Origin) -> Iterator[Fact]:
    """Both values; of a gap, both groups' own changes."""
    digits = _digits(finding, measure)
    for name, side in zip(finding.sides, (finding.a, finding.b), strict=True):
        identity = f"{finding.id}.{slug(name)}"
        if isinstance(side, GroupChange):
            yield from _group_change(identity, side, finding.kind == "share", measure, origin)
        else:
            yield from _value(identity, side, measure, origin, digits)


def _digits(finding: Finding, measure: Measure) -> int | None:
    """Those that a line says both values with, where it can say them."""
    if isinstance(finding, Gap) or finding.a.value is None or finding.b.value is None:
        return None
    return digits_said(finding, measure)


def _value(
    identity: str, side: Side, measure: Measure, origin: Origin, digits: int | None = None
) -> Iterator[Fact]:
    """A side's value, where it has one."""
    if side.value is not None:
        ends = None if side.low is None or side.high is None else (side.low, side.high)
        yield value_fact(identity, side.value, ends, measure, origin, digits)


def _group_change(
    identity: str, side: GroupChange, share: bool, measure: Measure, origin: Origin
) -> Iterator[Fact]:
    """A group's own change, unless it is refused: of a share in points, else in per cent."""
    if share and side.difference:
        yield difference_fact(identity, side.difference, True, measure, origin)
    elif side.change:
        yield percent_fact(identity, side.change, origin)


def _second_question(finding: Finding, measure: Measure, origin: Origin) -> Iterator[Fact]:
    """The drift, the step and the change beyond the control, whatever the first verdict is."""
    identity, share = finding.id, finding.kind == "share"
    drift, control = drift_of(finding), control_of(finding)
    if drift and drift.test:
        of = " of the share itself" if share else ""
        yield drift_fact(f"{identity}.drift", drift.test.slope, origin, f"{of} a {drift.per}")
        yield percent_fact(f"{identity}.step", drift.test.step, origin, of, drift.test.level)
    if yardstick := yardstick_of(finding):
        of = " of the share itself" if share else ""
        yield yardstick_fact(f"{identity}.yardstick", yardstick, origin, of)
    if control and share:
        beyond, level = control.effect.difference, control.effect.level
        yield difference_fact(f"{identity}.beyond-control", beyond, True, measure, origin, level)
    elif control and control.effect.relative:
        beyond, level = control.effect.relative, control.effect.level
        yield percent_fact(f"{identity}.beyond-control", beyond, origin, level=level)


def _what_else(finding: Finding, measure: Measure, origin: Origin) -> Iterator[Fact]:
    """The change like for like, and with sides, innings and grounds held still."""
    found = composition_of(finding)
    if found is None:
        return
    spans = {"like-for-like": found.like_for_like, "held-still": found.held_still}
    for name, span in spans.items():
        identity = f"{finding.id}.{name}"
        if span and finding.kind == "share":
            yield difference_fact(identity, span, True, measure, origin)
        elif span:
            yield percent_fact(identity, span, origin)


def _of_its_answer(finding: Finding, origin: Origin) -> Iterator[Fact]:
    """What only a group or a part of a mix, a player or a turning point has."""
    if isinstance(finding, Change) and finding.shares:
        for share, side in zip(finding.shares, finding.sides, strict=True):
            yield share_fact(f"{finding.id}.share-{slug(side)}", share, origin)
    if isinstance(finding, Mix) and (part := share_told(finding)):
        yield part_fact(f"{finding.id}.of-change", part, origin)
    if isinstance(finding, Player) and finding.shrunk:
        shrunk = finding.shrunk
        change = Span(value=shrunk.change, low=shrunk.low, high=shrunk.high)
        yield percent_fact(f"{finding.id}.luck-allowed-for", change, origin)
    if isinstance(finding, Turn) and finding.turn:
        turn = finding.turn
        words = f"between {period_said(turn.last)} and {period_said(turn.next)}"
        reach = tested.dates_shown(turn)
        yield text_fact(f"{finding.id}.date", words, reach, turn.every, origin)


def _of_list(key: str, players: PlayersList, told: list[Player]) -> Iterator[Fact]:
    """How many players a list has, how many of them moved, and what separates the rest."""
    beat, name = key.split(".")
    origin: Origin = {"beat": beat, "measure": name, "query": beat}
    counts = (
        ("kept", players.kept, "with enough in both windows"),
        ("in-both", players.in_both, "who played in both windows"),
        ("left-out", players.left_out, "who played in both and had too little"),
        ("moved", sum(map(has_moved, told)), "who moved, with luck allowed for"),
        ("apart", sum(map(is_apart, told)), "who stand clear of the mean of their kind"),
    )
    for which, count, definition in counts:
        defined: Origin = {**origin, "definition": definition}
        yield count_fact(f"{key}.players-{which}", count, "players", defined)
    for group, among in among_groups(told).items():
        defined = {**origin, "definition": f"what separates {all_of(group)} that is more than luck"}
        yield kept_fact(f"{key}.kept-{slug(group)}", among.kept, defined)


def _of_series(
    key: str, beat: str, measure: Measure, name: str, series: list[Point]
) -> Iterator[Fact]:
    origin: Origin = {"beat": beat, "measure": name, "definition": measure.defined, "query": beat}
    for point in series:
        yield from _value(f"{key}.{slug(point.label)}", point, measure, origin)


def to_csv(facts: list[Fact]) -> str:
    """The facts as a table; empty where there is nothing to say."""
    return csv_text(map(msgspec.structs.asdict, facts), Fact.__struct_fields__)

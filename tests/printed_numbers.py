"""Numbers as they are printed of a finding: on its card, in its row, on its frame, as its facts."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from pipeline.brief.table_rows import Row, table_row
from pipeline.brief.top_sheet import Card, card
from pipeline.charts.rows import rows_of
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import (
    Finding,
    Gap,
    Groups,
    Turn,
    control_of,
    drift_of,
    felt_of,
    yardstick_of,
)
from pipeline.contracts.parts import Span
from tests.any_findings import Case
from tests.claim_patterns import listened
from tests.claims import percent, told, way
from tests.listening import Number, heard
from tests.word_makers import FORM

PLAIN = 0.95  # the level that is not printed beside a row


def wrong_prints(case: Case, facts: dict[str, Fact]) -> Iterator[str]:
    """What a card, a row, a frame or a fact shows that is not the finding's."""
    finding = case.finding
    if finding.refused:
        yield from _of_refused(case, facts)
        return
    top, row = card(*case, FORM), table_row(*case, FORM)
    yield from _card(top, case)
    yield from _row(row, finding)
    yield from _frame(case)
    yield from _facts(finding, facts)
    linked = [
        top.fact,
        *(row.facts[name] for name in ("a", "b", "difference") if name in row.facts),
    ]
    linked += [row.facts["change"]] if row.change and "change" in row.facts else []
    yield from (f"no fact {name}" for name in linked if name not in facts)


def _of_refused(case: Case, facts: dict[str, Fact]) -> Iterator[str]:
    """Of a refused one nothing is shown but its two values."""
    top, row = card(*case, FORM), table_row(*case, FORM)
    (drawn,) = rows_of([case.finding], *case[1:], FORM)
    ends = ("difference", "change", "felt", "step", "drift", "beyond-control", "date")
    shown = [name for name in ends if f"{case.finding.id}.{name}" in facts]
    if heard(top.number).numbers or drawn.change or shown or heard(row.interval).numbers:
        yield f"refused, and shown: {top.number} {drawn} {shown} {row.interval}"


def _card(top: Card, case: Case) -> Iterator[str]:
    finding = case.finding
    drift = drift_of(finding)
    if (top.verdict, top.second) != (finding.verdict, drift and drift.verdict):
        yield f"card: {top.verdict}, {top.second}"
    yield from _among(top.among, finding)
    if isinstance(finding, Turn) and finding.turn:
        if re.findall(r"\d{4}", top.number) != [finding.turn.last, finding.turn.next]:
            yield f"card: {top.number}"
        return
    yield from _shown("card", top.number, told(finding).value)
    level, low, high = re.findall(r"([\d.]+)% interval (\S+) to (\S+)", top.detail)[0]
    yield from _level("card", level, finding.told.level)
    yield from _ends("card", f"{low} to {high}", told(finding))
    if finding.kind != "share":
        yield from _shown("card", top.detail.split(" ")[0], finding.told.difference.value)
    values = _values(finding)
    for shown, value in zip(listened(top.sides, case).numbers, values, strict=True):
        if not shown.near(value):
            yield f"card: {top.sides}, of {values}"


def _values(finding: Finding) -> list[float]:
    """Both values of a finding; of a gap, the groups' own changes."""
    if not isinstance(finding, Gap):
        return [side.value or 0.0 for side in (finding.a, finding.b)]
    share = finding.kind == "share"
    spans = [side.difference if share else side.change for side in (finding.a, finding.b)]
    return [(span.value if share else span.value * 100) if span else 0.0 for span in spans]


def _row(row: Row, finding: Finding) -> Iterator[str]:
    if row.verdict != finding.verdict:
        yield f"row: {row.verdict}"
    yield from _among(row.among, finding)
    yield from _shown("row", row.difference, finding.told.difference.value)
    if finding.kind != "share":
        yield from _shown("row", row.change, told(finding).value)
    yield from _ends("row", row.interval, told(finding))
    if row.level or finding.told.level != PLAIN:
        yield from _level("row", row.level.rstrip("%"), finding.told.level)
    for shown, value in zip((row.a, row.b), _values(finding), strict=True):
        yield from _shown("row", shown, value)


def _frame(case: Case) -> Iterator[str]:
    (drawn,) = rows_of([case.finding], *case[1:], FORM)
    span = told(case.finding)
    if drawn.change != span or drawn.verdict != case.finding.verdict:
        yield f"frame: {drawn}"
    yield from _among(drawn.among, case.finding)
    yield from _shown("frame", drawn.change_shown, span.value)
    yield from _ends("frame", drawn.interval_shown, span)


def _facts(finding: Finding, facts: dict[str, Fact]) -> Iterator[str]:
    effect, drift, control = finding.told, drift_of(finding), control_of(finding)
    share = finding.kind == "share"
    known: dict[str, tuple[Span, float, float]] = {
        "difference": (effect.difference, effect.level, 1)
    }
    if not share:
        known["change"] = (effect.change, effect.level, 100)
    if drift and drift.test:
        known["step"] = (drift.test.step, drift.test.level, 100)
    if yardstick := yardstick_of(finding):
        span = Span(value=yardstick.sd, low=yardstick.low, high=yardstick.high)
        known["yardstick"] = (span, PLAIN, 100)
    elif f"{finding.id}.yardstick" in facts:
        yield "a yardstick that can't be told from none"
    if control:
        beyond = control.effect.difference if share else control.effect.change
        known["beyond-control"] = (beyond, control.effect.level, 1 if share else 100)
    if felt := felt_of(finding):
        known["felt"] = (Span(value=felt.value, low=felt.low, high=felt.high), effect.level, 1)
    for name, (span, level, scale) in known.items():
        fact = facts[f"{finding.id}.{name}"]
        if (fact.value, fact.low, fact.high) != (span.value, span.low, span.high):
            yield f"fact {name}: {fact}"
        if type(fact.level) is not float or not math.isclose(fact.level, level):
            yield f"fact {name}: at the level {fact.level}, of {level}"
        yield from _shown(f"fact {name}", fact.display, span.value * scale)
        yield from _ends(f"fact {name}", fact.interval or "", span if scale == 1 else percent(span))
        said = re.findall(r"\b(?:up|down|higher|lower|more|fewer)\b", fact.spoken)
        if said and way(said[-1]) * span.value < 0:
            yield f"fact {name}: {fact.spoken}, of {span.value}"
        if isinstance(finding, Groups) and {"up", "down"} & set(said):
            yield f"fact {name}, of two groups: {fact.spoken}"


def _among(among: str, finding: Finding) -> Iterator[str]:
    lost = f"one of {finding.family_size} looks" if "lost_among" in finding.because else ""
    if among != lost:
        yield f"among {among!r}, of {finding.because} in {finding.family_size}"


def _level(where: str, shown: str, level: float) -> Iterator[str]:
    if not Number(float(shown), 0.05).near(level * 100):
        yield f"{where}: level {shown}, of {level}"


def _shown(where: str, text: str, value: float) -> Iterator[str]:
    """A value with its sign, to the digits that it is shown with."""
    numbers = heard(text).numbers
    if len(numbers) != 1 or not numbers[0].near(value):
        yield f"{where}: {text}, of {value}"


def _ends(where: str, text: str, span: Span) -> Iterator[str]:
    """Both ends, to the digits that they are shown with."""
    numbers = heard(text).numbers
    if len(numbers) != 2 or not (numbers[0].near(span.low) and numbers[1].near(span.high)):
        yield f"{where}: {text}, of {span}"

"""The lines for a challenge as printed: interval, p and its family, drift, step, control."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from pipeline.contracts.finding import Turn, control_of, drift_of
from pipeline.contracts.parts import Span
from tests.any_findings import Case
from tests.claims import percent, told
from tests.listening import number

N = r"([−+]?\d[\d,]*(?:\.\d+)?)"
INTERVAL = re.compile(rf"{N}(?:%| pts), {N}% interval {N} to {N}")
AMONG = re.compile(rf"p [=<] {N} among {N} \((Holm|Benjamini and Hochberg)\)")
DRIFT = re.compile(rf"drift {N}% a season, {N} to {N} \({N} before, {N} after\)")


def wrong_test(lines: Sequence[str | None], case: Case) -> Iterator[str]:
    """What the test, drift and control lines print that is not the finding's."""
    test, drift_line, control_line = lines
    finding, drift, control = case.finding, drift_of(case.finding), control_of(case.finding)
    if finding.refused:
        if re.search(r"interval \S*\d|p [=<]", test or ""):
            yield f"refused, and tested: {test}"
    else:
        if not isinstance(finding, Turn):
            yield from _interval(test or "", told(finding), finding.told.level)
        yield from _family(test or "", case)
    asked = drift.test if drift else None
    if bool(asked) != bool(drift_line) and not finding.refused:
        yield f"drift: {drift_line}"
    if drift and asked and drift_line:
        yield from _interval(drift_line, percent(asked.step), asked.level)
        slope = asked.slope
        ends = [each * 100 for each in (slope.value, slope.low, slope.high) if each is not None]
        known = (*ends, drift.periods_before, drift.periods_after)
        found = [number(part) for part in DRIFT.findall(drift_line)[0]]
        if not all(one.near(value) for one, value in zip(found, known, strict=True)):
            yield f"{drift_line}, of {drift}"
    if bool(control) != bool(control_line):
        yield f"control: {control_line}"
    if control and control_line:
        effect = control.effect
        span = effect.difference if finding.kind == "share" else percent(effect.change)
        yield from _interval(control_line, span, effect.level)


def _interval(line: str, span: Span, level: float) -> Iterator[str]:
    found = [number(part) for part in INTERVAL.findall(line)[0]]
    known = (span.value, level * 100, span.low, span.high)
    if not all(one.near(value) for one, value in zip(found, known, strict=True)):
        yield f"{line}, of {span} at {level}"


def _family(line: str, case: Case) -> Iterator[str]:
    finding = case.finding
    p, count, method = AMONG.findall(line)[0]
    named = {"Holm": "holm", "Benjamini and Hochberg": "bh"}[method]
    if int(count) != finding.family_size or named != finding.adjusted_by:
        yield f"{line}, of {finding.family_size} by {finding.adjusted_by}"
    if finding.p_adjusted is None or not number(p).near(finding.p_adjusted):
        yield f"{line}, of p {finding.p_adjusted}"

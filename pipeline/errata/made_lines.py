"""Which lines of a brief were made of which finding: as it keeps them, or by making them again.

An edition of before keeps none: of its lines those are recognised that are made so today, in any
of the forms that this version's voice has.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection
from typing import NamedTuple

from pipeline.contracts.finding import Finding
from pipeline.episode.lines_of import every_line_of
from pipeline.errata.records import Record
from pipeline.event_of import event_of
from pipeline.wording import of_kinds
from pipeline.wording.expected import found_of

Is = Callable[[str], bool]
# What may stand before a line: how it follows the one before it, or which beat told it in full.
_BEFORE = (". ", "”: ")


class Sorted(NamedTuple):
    """Lines that were made of the asked findings, and lines that were made of none."""

    own: list[str]
    free: list[str]


def sorted_lines(
    lines: list[str],
    own: Collection[str],
    record: Record,
    made_of: Callable[[Record, Finding], Is],
) -> Sorted:
    """`own` are ids of findings; `made_of` tells whether a line was made of one.

    Lines of other findings alone are in neither.
    """
    mine: list[str] = []
    others: set[str] = set()
    for finding in record.findings.findings:
        here = list(filter(made_of(record, finding), lines))
        if finding.id in own:
            mine += here
        else:
            others.update(here)
    return Sorted(mine, [line for line in lines if line not in mine and line not in others])


def line_of(record: Record, finding: Finding) -> Is:
    """A finding among the lines of its beat."""
    view = record.view
    beat = next(beat for beat in view.beats if beat.id == finding.beat)
    made = every_line_of(finding, beat, record.findings, view)
    return _kept_or(record, finding, lambda line: _ends_with(line, made))


def told_in_answer(record: Record, finding: Finding) -> Is:
    """A headline's sentences in the answer: its own, its part of what can't be told, the saying."""
    if finding.id not in record.findings.headlines:
        return lambda line: False
    view = record.view
    beat = next(beat for beat in view.beats if beat.id == finding.beat)
    measure = view.measures[finding.measure]
    told = [of_kinds.alone(finding, beat, measure, view.format, event_of(view, beat))]
    for item in view.expected:
        if item.finding == finding.id:
            told.append(f"“{item.say}”: {found_of(item.means, finding)}.")
    wholes = {each.lower() for each in told}
    if finding.verdict != "can't tell" or finding.refused:
        return _kept_or(record, finding, lambda line: line.lower() in wholes)
    whether = f"whether {of_kinds.open_question(finding, beat, measure, view.format)},".lower()
    named = of_kinds.named_open(finding, beat, measure, view.format).lower()
    return _kept_or(
        record,
        finding,
        lambda line: line.lower() in wholes or whether in line.lower() or named in line.lower(),
    )


def _kept_or(record: Record, finding: Finding, made: Is) -> Is:
    """By what the brief keeps of a line; of a line that it does not know, by making it again."""

    def is_of(line: str) -> bool:
        about = record.said.get(line)
        return made(line) if about is None else finding.id in about

    return is_of


def _ends_with(line: str, made: re.Pattern[str]) -> bool:
    """Whether it is a line that is made so, with nothing but how it follows before it."""
    found = made.search(line)
    before = line[: found.start()] if found else ""
    return found is not None and (not before or before.endswith(_BEFORE))

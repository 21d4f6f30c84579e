"""Which lines of a brief were made of which finding: by making each finding's line again.

An edition that another version made has other words; of its lines none is recognised.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import NamedTuple

from pipeline.contracts.finding import Finding
from pipeline.episode.lines_of import line_of as line_of_finding
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
    made = line_of_finding(finding, beat, record.findings, view)
    return lambda line: _ends_with(line, made)


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
        return lambda line: line.lower() in wholes
    whether = f"whether {of_kinds.open_question(finding, beat, measure, view.format)},".lower()
    return lambda line: line.lower() in wholes or whether in line.lower()


def _ends_with(line: str, made: str) -> bool:
    """Whether it is the line that was made, with nothing but how it follows before it."""
    before = line[: -len(made)]
    return line.lower().endswith(made.lower()) and (not before or before.endswith(_BEFORE))

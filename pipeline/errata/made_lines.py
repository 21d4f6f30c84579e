"""Which lines of a brief were made of which finding: by making each finding's line again."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from pipeline.contracts.finding import Finding
from pipeline.errata.records import Record
from pipeline.wording import of_kinds

Make = Callable[[Record, Finding], str | None]


class Sorted(NamedTuple):
    """Lines that were made of the finding, and lines that were made of none."""

    own: list[str]
    free: list[str]


def sorted_lines(lines: list[str], own: str | None, record: Record, make: Make) -> Sorted:
    """`own` is the finding's id; `make` makes a finding's line, or none where it has none.

    Lines of other findings are in neither. What stands before a line, such as how it follows the
    one before it, is not of the finding.
    """
    mine: list[str] = []
    others: set[str] = set()
    for finding in record.findings.findings:
        made = make(record, finding)
        if made:
            here = [line for line in lines if line.lower().endswith(made.lower())]
            if finding.id == own:
                mine += here
            else:
                others.update(here)
    return Sorted(mine, [line for line in lines if line not in mine and line not in others])


def line_of(record: Record, finding: Finding) -> str:
    """A finding among the lines of its beat."""
    view = record.view
    beat = next(beat for beat in view.beats if beat.id == finding.beat)
    measure = view.measures[finding.measure]
    return of_kinds.line(finding, beat, measure, view.format, view.event)


def breath_of(record: Record, finding: Finding) -> str | None:
    """A headline's sentence in the answer."""
    if finding.id not in record.findings.headlines or finding.refused:
        return None
    view = record.view
    beat = next(beat for beat in view.beats if beat.id == finding.beat)
    measure = view.measures[finding.measure]
    return of_kinds.breath(finding, beat, measure, view.format, view.event)

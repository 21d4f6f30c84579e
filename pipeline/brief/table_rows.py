"""A finding as a row of a table: shown numbers only."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.codes import DriftVerdict, Verdict
from pipeline.contracts.finding import Finding
from pipeline.wording import of_kinds
from pipeline.wording.confidence import level_shown, one_of_looks, widened
from pipeline.wording.refusals import refusal_said
from pipeline.wording.scales import change_of
from pipeline.wording.second_verdict import SHORT, second
from pipeline.wording.shown_numbers import (
    NONE,
    both_shown,
    difference_shown,
    fact_ends,
    unrounded,
)

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format


@dataclass(frozen=True, kw_only=True)
class Row:
    """A finding's cells, and the facts behind those that are one.

    `mark` stands at a difference that is not that of the two values as they are shown. `group` is
    what rows of a kind stand under, `short` the row's name there; `headline`: it is one.
    """

    id: str
    facts: dict[str, str]
    name: str
    a: str
    b: str
    matches: str
    balls: str
    verdict: Verdict
    among: str
    second: DriftVerdict | None
    drift: str
    refused: str | None
    difference: str = NONE
    change: str = NONE
    interval: str = NONE
    level: str = ""
    extra: str = NONE
    mark: str = ""
    group: str = ""
    short: str = ""
    headline: bool = False


class RowGroup(NamedTuple):
    """Rows that belong together, under the name of what they share; '' of those under none."""

    name: str
    rows: list[Row]


def row_groups(rows: Sequence[Row]) -> list[RowGroup]:
    """Rows by what they are of, each group together, in the order in which the groups begin.

    What is of none comes first. Where there are no two groups, or none has two rows, all are.
    """
    groups: dict[str, list[Row]] = {"": []}
    for row in rows:
        groups.setdefault(row.group, []).append(row)
    sizes = [len(own) for name, own in groups.items() if name]
    if len(sizes) < 2 or max(sizes) < 2:
        return [RowGroup("", list(rows))]
    return [RowGroup(name, own) for name, own in groups.items() if own]


def table_row(
    finding: Finding,
    beat: AnyBeat,
    measure: Measure,
    form: Format,
    headlines: Collection[str] = (),
) -> Row:
    """A finding as a row of a table; a refused one has its two values and why."""
    (a, b), beside = both_shown(finding, measure), second(finding)
    group, short = of_kinds.grouped(finding, beat, form)
    row = Row(
        id=finding.id,
        facts={cell: f"{finding.id}.{end}" for cell, end in fact_ends(finding).items()},
        name=of_kinds.label(finding, beat, form),
        a=a,
        b=b,
        matches=f"{finding.a.matches:,} / {finding.b.matches:,}",
        balls=f"{finding.a.balls:,} / {finding.b.balls:,}",
        verdict=finding.verdict,
        among=one_of_looks(finding),
        second=beside,
        drift=SHORT[beside] if beside else NONE,
        refused=refusal_said(finding) if finding.refused else None,
        group=group,
        short=short,
        headline=finding.id in headlines,
    )
    if finding.refused:
        return row
    change = change_of(finding)
    return replace(
        row,
        difference=difference_shown(finding, measure),
        change="" if finding.kind == "share" else change.shown(),
        interval=change.interval(),
        level=level_shown(finding.told.level) if widened(finding) else "",
        extra=of_kinds.extra(finding, beat),
        mark=unrounded(finding, measure),
    )

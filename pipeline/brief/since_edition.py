"""The page that says what changed since the newest archived edition."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from pipeline.contracts.editions import LinesMoved, Since
from pipeline.contracts.facts import Fact
from pipeline.contracts.findings import Findings
from pipeline.editions.difference import compared
from pipeline.editions.difference_words import causes_said, facts_said, intervals_said
from pipeline.editions.reading import VERIFY, read_view
from pipeline.editions.sides import edition_side, side_of
from pipeline.editions.store import editions
from pipeline.wording import numbers

if TYPE_CHECKING:
    from pipeline.config.views import BriefView

MOST_ROWS = 30  # numbers written out on the page; compare lists all


@dataclass(frozen=True)
class SincePage:
    """What the page prints; a row is a number's id, what it was and what it is.

    `intervals` are on numbers that are the same but for their intervals.
    """

    title: str
    causes: list[str]
    rows: list[tuple[str, str, str]]
    more: str
    intervals: list[str]
    lines: list[LinesMoved]
    charts: str


def since(
    view: BriefView, findings: Findings, facts: list[Fact], points: str, out: Path, archive: Path
) -> Since | None:
    """The comparison with the newest edition of the topic; None when nothing is archived.

    The pages are made with the brief's own settings, so these are compared and no others.
    """
    there = editions(archive / view.topic)
    if not there:
        return None
    folder = archive / view.topic / str(there[-1])
    then = read_view(folder / "data", type(view), "brief", VERIFY)
    old = edition_side(folder)._replace(settings={"brief": then.model_dump(mode="json")})
    new = side_of(view.topic, findings, facts, points, out, {"brief": view.model_dump(mode="json")})
    return Since(edition=there[-1], difference=compared(old, new))


def since_page(found: Since | None) -> SincePage | None:
    """None when both say the same."""
    if not found or found.difference.same:
        return None
    moved = found.difference
    rows = list(facts_said(sorted(moved.facts, key=lambda fact: not fact.headline)))
    more = len(rows) - MOST_ROWS
    charts = [f"{chart.chart} ({', '.join(chart.what)})" for chart in moved.charts]
    return SincePage(
        title=f"What changed since edition {found.edition}",
        causes=causes_said(moved.causes),
        rows=rows[:MOST_ROWS],
        more=f"{numbers.counted(more, 'more number')} moved." if more > 0 else "",
        intervals=intervals_said(moved.facts),
        lines=moved.lines,
        charts="; ".join(charts),
    )

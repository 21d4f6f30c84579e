"""The page that says what changed since the newest archived edition."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.editions.difference import compared
from pipeline.editions.difference_words import causes, shown
from pipeline.editions.sides import edition_side, side_of
from pipeline.editions.store import editions
from pipeline.wording import numbers

View = dict[str, Any]
MOST_ROWS = 30  # numbers written out on the page; compare lists all


def since(
    view: View, findings: View, facts: list[View], points: str, out: Path, archive: Path
) -> View | None:
    """The comparison with the newest edition of the topic; None when nothing is archived."""
    topic = view["topic"]
    there = editions(archive / topic)
    if not there:
        return None
    old = edition_side(archive / topic / str(there[-1]))
    old = old._replace(settings={"brief": old.settings["brief"]})
    plain = {"brief": view.model_dump(mode="json")}
    new = side_of(topic, findings, facts, points, out / "charts", plain)
    return {**compared(old, new), "edition": there[-1]}


def since_page(found: View | None) -> View | None:
    """What the page prints; None when both say the same."""
    if not found or found["same"]:
        return None
    rows = list(shown(sorted(found["facts"], key=lambda fact: not fact["headline"])))
    more = len(rows) - MOST_ROWS
    charts = [f"{chart['chart']} ({', '.join(chart['what'])})" for chart in found["charts"]]
    return {
        "title": f"What changed since edition {found['edition']}",
        "causes": causes(found),
        "rows": rows[:MOST_ROWS],
        "more": f"{numbers.counted(more, 'more number')} moved." if more > 0 else "",
        "lines": found["lines"],
        "charts": "; ".join(charts),
    }

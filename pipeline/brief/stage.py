"""Findings and charts into the brief."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from pipeline.brief.background import cited
from pipeline.brief.content import context
from pipeline.brief.facts import facts_of, to_csv
from pipeline.brief.on_screen import on_screen
from pipeline.brief.paper import pdf
from pipeline.brief.render import page, printed, talking_points
from pipeline.brief.since_build import facts_before, moved
from pipeline.brief.since_edition import since, since_page
from pipeline.contracts.editions import Around
from pipeline.contracts.facts import Fact
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.editions.reading import MAKE, read_charts
from pipeline.errors import write_atomically
from pipeline.wording import numbers

View = dict[str, Any]


def write_brief(
    view: View,
    out: Path,
    edition: int | None = None,
    archive: Path | None = None,
    around: Around | None = None,
    paper: bool = True,
) -> Around:
    """Make everything first, then write: a failure leaves the earlier brief whole.

    `edition` is the number of an archived one; without it the pages say 'Working copy'. `archive`
    is where earlier editions are, beside the topic's folder unless it is given. `around` is what
    was taken from them when the brief was made before; it is returned, so that it can be kept.
    Without `paper` no PDF is made.
    """
    facts, made, around = brief_of(
        view, out, edition, archive or out.parent / "archive", paper, around
    )
    changes = moved(view["topic"], facts_before(out / "facts.json"), facts)
    for name, data in made.items():
        write_atomically(out / name, data)
    if changes:
        print("\n".join(changes))
    return around


def brief_of(
    view: View,
    out: Path,
    edition: int | None,
    archive: Path,
    paper: bool = True,
    around: Around | None = None,
) -> tuple[list[Fact], dict[str, str | bytes], Around]:
    """Facts, every file of the brief by its name (no PDF without `paper`), and what is around it:
    the facts that are cited from earlier editions, and what changed since the newest."""
    findings = read_json(out / "findings.json", Findings)
    charts = msgspec.to_builtins(read_charts(out, MAKE))
    facts = facts_of(view, findings)
    see_also = (
        around.see_also if around else cited(view["words"]["see_also"], archive, view["file"])
    )
    content = context(view, findings, charts, facts, see_also, edition)
    points = talking_points(content)
    typed = msgspec.convert(facts, list[Fact])
    compared = around.since if around else since(view, findings, typed, points, out, archive)
    content["since"] = since_page(compared)
    screen = on_screen(view, findings, charts, listed(content), out)
    table = to_csv(facts)
    made: dict[str, str | bytes] = {
        "brief.html": page(content, out / "charts", screen),
        "facts.json": json.dumps(facts, indent=1, ensure_ascii=False, allow_nan=False) + "\n",
        "facts.csv": table,
        "talking-points.md": points,
        "summary.json": json.dumps(summary(content, findings), indent=1, ensure_ascii=False) + "\n",
    }
    if paper:
        newest = max(date.fromisoformat(source["retrieved"]) for source in view["credits"])
        made["brief.pdf"] = pdf(
            lambda fit: printed(content, out / "charts", fit), sections(content), table, newest
        )
    return typed, made, Around(see_also=see_also, since=compared)


def sections(content: View) -> list[str]:
    """Ids of the paper's sections that may be set tighter, in their order."""
    beats = [f"beat-{beat['id']}" for beat in content["beats"]]
    more = ["since"] if content["since"] else []
    return ["top", "run-sheet", *beats, *more, "method", "facts"]


def listed(content: View) -> list[View]:
    """The facts of the index, in its order."""
    return [fact for place in content["facts"] for fact in place["facts"]]


def summary(content: View, findings: View) -> View:
    """What a shelf needs to know of a brief."""
    data, family = findings["data"], findings["family"]
    return {
        **{key: content[key] for key in ("topic", "title", "question", "answer", "fingerprint")},
        "matches": numbers.matches(data["matches"]),
        **{key: data[key] for key in ("first", "last")},
        **{key: family[key] for key in ("looked_at", "cant_tell")},
    }

"""python -m pipeline.brief --topic NAME --out FOLDER: findings and charts into the brief."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

from pipeline.brief.facts import facts_of, to_csv
from pipeline.brief.moved import facts_before, moved
from pipeline.brief.pages import context
from pipeline.brief.paper import pdf
from pipeline.brief.render import page, printed, talking_points
from pipeline.brief.screen import on_screen
from pipeline.command import topic_call
from pipeline.config import views
from pipeline.errors import run_stage, write_atomically
from pipeline.wording import numbers


def main() -> None:
    call = topic_call("brief", __doc__, views.brief)
    write_brief(call.view, call.out)


def write_brief(
    view: views.View, out: Path, edition: int | None = None, archive: Path | None = None
) -> None:
    """Make everything first, then write: a failure leaves the earlier brief whole.

    `edition` is the number of an archived one; without it the pages say 'Working copy'.
    `archive` is where cited editions are, beside the topic's folder unless it is given.
    """
    facts, made = brief_of(view, out, edition, archive or out.parent / "archive")
    changes = moved(view["topic"], facts_before(out / "facts.json"), facts)
    for name, data in made.items():
        write_atomically(out / name, data)
    if changes:
        print("\n".join(changes))


def brief_of(
    view: views.View, out: Path, edition: int | None, archive: Path, paper: bool = True
) -> tuple[list[views.View], dict[str, str | bytes]]:
    """Facts, and every file of the brief by its name (without the PDF when no paper is wanted)."""
    findings = json.loads((out / "findings.json").read_text("utf-8"))
    charts = json.loads((out / "charts" / "charts.json").read_text("utf-8"))
    facts = facts_of(view, findings)
    content = context(view, findings, charts, facts, archive, edition)
    screen = on_screen(view, findings, charts, listed(content), out)
    table = to_csv(facts)
    made: dict[str, str | bytes] = {
        "brief.html": page(content, out / "charts", screen),
        "facts.json": json.dumps(facts, indent=1, ensure_ascii=False, allow_nan=False) + "\n",
        "facts.csv": table,
        "talking-points.md": talking_points(content),
        "summary.json": json.dumps(summary(content, findings), indent=1, ensure_ascii=False) + "\n",
    }
    if paper:
        newest = max(date.fromisoformat(source["retrieved"]) for source in view["credits"])
        made["brief.pdf"] = pdf(
            lambda fit: printed(content, out / "charts", fit), content["sections"], table, newest
        )
    return facts, made


def listed(content: views.View) -> list[views.View]:
    """The facts of the index, in its order."""
    return [fact for place in content["facts"] for fact in place["facts"]]


def summary(content: views.View, findings: views.View) -> views.View:
    """What a shelf needs to know of a brief."""
    data, family = findings["data"], findings["family"]
    return {
        **{key: content[key] for key in ("topic", "title", "question", "answer", "fingerprint")},
        "matches": numbers.matches(data["matches"]),
        **{key: data[key] for key in ("first", "last")},
        **{key: family[key] for key in ("looked_at", "cant_tell")},
    }


if __name__ == "__main__":
    run_stage(main)

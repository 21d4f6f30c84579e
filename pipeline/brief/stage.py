"""Findings and charts into the brief."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from pipeline.brief.background import citations
from pipeline.brief.content import Content, context
from pipeline.brief.facts import facts_of, to_csv
from pipeline.brief.on_screen import on_screen
from pipeline.brief.paper import pdf
from pipeline.brief.render import page, printed, talking_points
from pipeline.brief.scripts import script_page, scripts_of
from pipeline.brief.since_build import facts_before, moved_lines
from pipeline.brief.since_edition import since, since_page
from pipeline.brief.spoken import episode_of
from pipeline.contracts.editions import Around
from pipeline.contracts.facts import Fact, Facts, Summary
from pipeline.contracts.files import as_json, read_json
from pipeline.contracts.findings import Findings
from pipeline.contracts.script_check import ScriptState
from pipeline.editions.reading import MAKE, read_charts
from pipeline.errors import write_atomically
from pipeline.kept_script import said_files
from pipeline.terminal import say
from pipeline.topic_files import STATE
from pipeline.wording import numbers
from pipeline.wording.script_checked import states_said

if TYPE_CHECKING:
    from pipeline.config.views import BriefView


class Brief(NamedTuple):
    """A brief as it is made, before it is written.

    `files` by their names; `around` is what it took from earlier editions: the facts that it cites,
    and what changed since the newest.
    """

    facts: list[Fact]
    files: dict[str, str | bytes]
    around: Around


def write_brief(
    view: BriefView,
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
    made = brief_of(view, out, edition, archive or out.parent / "archive", paper, around)
    moved = moved_lines(view.topic, facts_before(out), made.facts)
    for name, data in made.files.items():
        write_atomically(out / name, data)
    if moved:
        say(*moved)
    return made.around


def brief_of(
    view: BriefView,
    out: Path,
    edition: int | None,
    archive: Path,
    paper: bool = True,
    around: Around | None = None,
) -> Brief:
    """Everything of the brief, from the findings and charts in `out`; no PDF without `paper`."""
    findings = read_json(out / "findings.json", Findings)
    charts = read_charts(out, MAKE)
    facts = facts_of(view, findings)
    see_also = around.see_also if around else citations(view.words.see_also, archive, view.file)
    content = context(view, findings, charts, facts, see_also, edition)
    points = talking_points(content)
    compared = around.since if around else since(view, findings, facts, points, out, archive)
    episode = episode_of(content.topic, content.said)
    scripts = scripts_of(view, episode, findings, facts, charts)
    reading = scripts.read if scripts.kept else None
    told = _checked(view, out)
    content = replace(content, since=since_page(compared), reading=reading, checked=told)
    screen = on_screen(view, findings, charts, content.listed, out)
    table = to_csv(facts)
    files: dict[str, str | bytes] = {
        "brief.html": page(content, out / "charts", screen),
        "facts.json": as_json(Facts(facts=facts)),
        "facts.csv": table,
        "talking-points.md": points,
        "episode.json": as_json(episode),
        "script.md": scripts.draft,
        "script.html": script_page(content, scripts),
        "summary.json": as_json(summary(content, findings)),
    }
    if paper:
        newest = max(source.retrieved for source in content.sources)
        files["brief.pdf"] = pdf(
            lambda fit: printed(content, out / "charts", fit), sections(content), table, newest
        )
    return Brief(facts, files, Around(see_also=see_also, since=compared))


def _checked(view: BriefView, out: Path) -> list[str]:
    """What the check of the topic's scripts and captions came to; none where there are none."""
    if not said_files(view.file):
        return []
    return states_said(read_json(out / STATE, ScriptState).files)


def sections(content: Content) -> list[str]:
    """Ids of the paper's sections that may be set tighter, in their order."""
    beats = [f"beat-{beat.id}" for beat in content.beats]
    more = ["background"] if content.background or content.see_also else []
    more += ["since"] if content.since else []
    return ["top", "run-sheet", *beats, *more, "method", "facts"]


def summary(content: Content, findings: Findings) -> Summary:
    """What a shelf and an edition need to know of a brief."""
    data, family = findings.data, findings.family
    return Summary(
        topic=content.topic,
        title=content.title,
        question=content.question,
        answer=content.answer,
        fingerprint=content.fingerprint,
        matches=numbers.matches(data.matches),
        first=data.first,
        last=data.last,
        looked_at=family.looked_at,
        cant_tell=family.cant_tell,
        checked=content.checked,
    )

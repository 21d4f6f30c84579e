"""Draft, kept script and the page that is read from: what the brief's stage writes of a script."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.episode import Episode
from pipeline.contracts.facts import ChartMade, Fact
from pipeline.contracts.files import as_written
from pipeline.contracts.findings import Findings
from pipeline.kept_script import is_kept, kept_of
from pipeline.slots.drafted import draft_of
from pipeline.slots.filled import Script, filled
from pipeline.slots.marked_up import blocks_of, read_script
from pipeline.templating import environment, style

if TYPE_CHECKING:
    from pipeline.brief.content import Content
    from pipeline.config.views import BriefView


class Scripts(NamedTuple):
    """The draft as Markdown, the script that is read, and whether that is the kept one."""

    draft: str
    read: Script
    kept: bool


def scripts_of(
    view: BriefView,
    episode: Episode,
    findings: Findings,
    facts: Sequence[Fact],
    charts: Sequence[ChartMade],
) -> Scripts:
    """Raises UserError with every mistake of a kept script; there is none of a draft.

    Forms are made of the facts as facts.json has them, so that whoever has the file makes the same.
    """
    facts = [as_written(fact) for fact in facts]
    again = {one.id: one.again for one in findings.findings if one.again}
    draft = draft_of(view.words.title, episode, facts, view.words.sponsor, again)
    path, names = kept_of(view.file), [chart.chart for chart in charts]
    if is_kept(path):
        return Scripts(draft, filled(read_script(path), facts, names, str(path)), True)
    return Scripts(draft, filled(blocks_of(draft, "script.md"), facts, names, "script.md"), False)


def script_page(content: Content, scripts: Scripts) -> str:
    """The script that is read as one HTML page, with its fonts inside it."""
    page = environment().get_template("script.html.jinja")
    css = [style(name) for name in ("fonts-screen.css", "script.css")]
    return page.render(**vars(content), script=scripts.read, kept=scripts.kept, css=css)

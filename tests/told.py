"""The cautions, headings and openings of briefs: of random topics, and of the built demo's."""

from __future__ import annotations

import warnings
from contextlib import chdir
from pathlib import Path
from random import Random
from typing import NamedTuple

from pipeline.brief.content import Content, context
from pipeline.brief.facts import facts_of
from pipeline.config import views
from pipeline.config.load import load
from pipeline.config.views import BriefView
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.errors import UserError
from pipeline.in_memory import numbers_of
from tests.any_topics import any_topic
from tests.brief_makers import chart_made
from tests.golden.made import DATA


class Told(NamedTuple):
    """A brief without its drawings, and what it was made of."""

    view: BriefView
    findings: Findings
    content: Content


def told_of(view: BriefView, findings: Findings) -> Told:
    """The brief that says these findings."""
    charts = [chart_made(f"{beat.id}.{name}") for beat in view.beats for name in beat.measures]
    content = context(view, findings, charts, facts_of(view, findings), [])
    return Told(view, findings, content)


def any_told(project: Path, seed: int) -> Told | None:
    """The brief of a random topic of the untidy league; none where the topic is refused."""
    return asked(project, any_topic(Random(seed)))


def asked(project: Path, text: str) -> Told | None:
    """The brief of a topic that is written so; none where it is refused."""
    (project / "config" / "topics" / "any.yaml").write_text(text, "utf-8")
    with chdir(project), warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            config = load(Path("config"), only="any")
            of = (views.metrics(config, "any"), views.significance(config, "any"))
            return told_of(views.brief(config, "any"), numbers_of(*of, DATA).findings)
        except UserError:
            return None


def demo_told(built: Path, topic: str) -> Told:
    """The brief of one of the demo's topics, whose findings are built."""
    with chdir(built):
        config = load(Path("config"), only=topic)
        findings = read_json(Path("output") / topic / "findings.json", Findings)
        return told_of(views.brief(config, topic), findings)


def printed(told: Told) -> list[str]:
    """Every caution of a brief, in the order in which it is read."""
    return [*told.content.cautions, *(one for page in told.content.beats for one in page.careful)]

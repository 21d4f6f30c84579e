"""A topic of the built demo made anew from the clean tables, in this process."""

from __future__ import annotations

from contextlib import chdir
from dataclasses import dataclass
from pathlib import Path

import matplotlib.pyplot as plt
from msgspec.structs import replace

from pipeline.brief.background import citations
from pipeline.brief.content import Content, context
from pipeline.brief.facts import facts_of
from pipeline.brief.on_screen import Screen, on_screen
from pipeline.brief.render import talking_points
from pipeline.charts.compose import charts_of
from pipeline.charts.frame import Words, frame, words_of
from pipeline.charts.theme import theme_of
from pipeline.config import views
from pipeline.config.frame_files import frame_names
from pipeline.config.load import Config, load
from pipeline.contracts.facts import ChartMade, Charts, Fact
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.run import make_stage

TOPICS = ("long-grass", "sea-air", "who-paid")
DATA = Path("output/data")


@dataclass(frozen=True)
class Made:
    """What the stages hand on; `folder` holds the drawings."""

    findings: Findings
    charts: list[ChartMade]
    framed: list[Words]
    facts: list[Fact]
    content: Content
    screen: Screen
    points: str
    folder: Path


def made(built: Path, topic: str, out: Path) -> Made:
    """Everything of a topic but its PDF and its frames; `built` is a project folder with data."""
    with chdir(built):
        config = load(Path("config"), only=topic)
        for stage in ("metrics", "significance"):
            make_stage(getattr(views, stage)(config, topic), out, DATA)
        charts, framed = _charts(config, topic, out)
        view = views.brief(config, topic)
        findings = read_json(out / "findings.json", Findings)
        facts = facts_of(view, findings)
        see_also = citations(view.words.see_also, Path("output/archive"), view.file)
        content = context(view, findings, charts, facts, see_also)
        drawn = [replace(chart, frames=[]) for chart in charts]
        screen = on_screen(view, findings, drawn, facts, out)
        points = talking_points(content)
    return Made(findings, charts, framed, facts, content, screen, points, out / "charts")


def _charts(config: Config, topic: str, out: Path) -> tuple[list[ChartMade], list[Words]]:
    """Vector charts and their data; of the frames, which take longer, only words and names."""
    view = views.charts(config, topic)
    make_stage(view.model_copy(update={"frames": []}), out, DATA)
    findings = read_json(out / "findings.json", Findings)
    asked = charts_of(view, findings)
    made = read_json(out / "charts" / "charts.json", Charts).charts
    names = [frame_names(each.name, view.frames, each.beat.hides_when) for each in asked]
    told = [replace(chart, frames=list(own)) for chart, own in zip(made, names, strict=True)]
    return told, [words_of(chart, view) for chart in asked]


def draw_frames(built: Path, topic: str, found: Made) -> None:
    """The frames for the video, whose text is larger than in the drawings of the page."""
    with chdir(built):
        view = views.charts(load(Path("config"), only=topic), topic)
        theme = theme_of(view.theme, "light")
        for chart in charts_of(view, found.findings):
            for blind in (False, True)[: 1 + chart.beat.hides_when]:
                frame(chart, view, theme, blind)
    plt.close("all")

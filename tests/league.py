"""Small invented leagues over some seasons, as project folders to be asked as the demo is."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

from pipeline.charts.compose import charts_of
from pipeline.charts.frame import frame
from pipeline.charts.theme import theme_of
from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.finding import Finding
from pipeline.contracts.notes import AnyNote
from tests.asking import ask, by_id
from tests.builders import cleaned, delivery
from tests.conftest import ROOT
from tests.golden.made import Made, made
from tests.tallying import HEAD, played_in

FIVE = HEAD.replace("2020-01-01", "2017-01-01").replace("1 seasons", "5 seasons")


def scored(year: int, runs: int, balls: int = 60, day: int = 1, **who: str) -> dict[str, Any]:
    """A match of so many valid balls, its runs spread over them; `who` bowled or batted."""
    each, more = divmod(runs, balls)
    bowled = [{**delivery(each + (at < more)), **who} for at in range(balls)]
    return played_in(year, bowled, dates=[f"{year}-06-{day:02}"])


def league(folder: Path, matches: list[dict], **sheets: str) -> Path:
    """The folder of a project with the demo's configuration and these matches, cleaned."""
    cleaned(folder, sheets, tidewater={f"m{at}.json": one for at, one in enumerate(matches)})
    (folder / "output").mkdir()
    (folder / "data").rename(folder / "output" / "data")
    shutil.copytree(ROOT / "config", folder / "config")
    for name in ("demo_data", "templates"):  # sheets and fonts that the configuration names
        (folder / name).symlink_to(ROOT / name)
    return folder


def findings(
    project: Path, beats: str, head: str = HEAD, headlines: str = "[]"
) -> dict[str, Finding]:
    """Findings by id of a topic of these beats."""
    return by_id(ask(project, project / "asked", beats, headlines, head))


def brief(project: Path, beats: str, head: str = HEAD, headlines: str = "[]") -> Made:
    """Everything of a topic of these beats, to the words of its page."""
    text = f"{head}headlines: {headlines}\nbeats:\n{beats}\n"
    (project / "config" / "topics" / "asked.yaml").write_text(text, "utf-8")
    return made(project, "asked", project / "output" / "asked")


def codes(finding: Finding) -> dict[str, AnyNote]:
    """Its notes by their code."""
    return {str(note.__struct_config__.tag): note for note in finding.notes}


def drawn(project: Path, beats: str, head: str = HEAD) -> tuple[dict[str, Finding], dict[str, Any]]:
    """Findings by id, and the canvas of each chart's light frame by the chart's name."""
    found = ask(project, project / "asked", beats, "[]", head)
    view = views.charts(load(project / "asked" / "config", only="asked"), "asked")
    theme = theme_of(view.theme, "light")
    charts = charts_of(view, found)
    return by_id(found), {chart.name: frame(chart, view, theme) for chart in charts}

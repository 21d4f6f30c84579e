"""Is the topic built, and of the configuration, tables and code that would be archived with it?

Times of files lie, so the numbers are made again: queries, findings and facts, and the titles and
descriptions of the charts. What this can't see: a raw file replaced since the clean tables were
made (the workflow compares it at every run), and colours of charts.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec

from pipeline.archive.contents import Asked, files_of_charts
from pipeline.brief.facts import facts_of
from pipeline.charts.compose import charts_of
from pipeline.charts.drawings import described
from pipeline.charts.frame import words_of
from pipeline.clean.corrections import read_corrections
from pipeline.config import views
from pipeline.config.frame_files import SHEET, chart_files
from pipeline.contracts.files import as_written, read_json
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fixes
from pipeline.editions.alike import alike
from pipeline.editions.reading import MAKE, read_charts, read_facts
from pipeline.errors import Problem, UserError
from pipeline.in_memory import numbers_of
from pipeline.records.whole import check_whole
from pipeline.significance.stage import fingerprint
from pipeline.tables import PLAYED
from pipeline.topic_files import NUMBERS

BUILT = (*NUMBERS, "summary.json", "facts.json", "charts/charts.json", f"charts/{SHEET}")


def check(asked: Asked) -> None:
    """Raise UserError naming each output that is missing, or the first that is too old."""
    if not asked.built.is_dir():
        raise UserError(Problem(str(asked.built), f"no built topic here; {MAKE}"))
    check_whole(asked.config, asked.topic, asked.built.parent, asked.data)
    _check_there([asked.built / name for name in BUILT])
    _check_there([asked.data / f"{name}.parquet" for name in PLAYED])
    _check_there([asked.data / name for name in ("corrections.json", "quality.json")])
    _check_corrections(asked)
    findings = read_json(asked.built / "findings.json", Findings, MAKE)
    _check_findings(asked, findings)
    _check_charts(asked, findings)
    facts = facts_of(views.brief(asked.config, asked.topic), findings)
    if read_facts(asked.built, MAKE) != [as_written(fact) for fact in facts]:
        raise _old(asked.built / "facts.json", "findings, the configuration or the code")


def _check_there(paths: list[Path]) -> None:
    missing = [Problem(str(p), f"no such file; {MAKE}") for p in paths if not p.is_file()]
    if missing:
        raise UserError(missing)


def _check_corrections(asked: Asked) -> None:
    """The corrections that are listed are those that the clean tables were made with."""
    path = asked.config.project.corrections
    listed = [correction.record() for correction in read_corrections(path)]
    made_with = read_json(asked.data / "corrections.json", Fixes, MAKE).corrections
    if made_with != listed:
        raise UserError(Problem(str(path), f"not what the clean tables were made with; {MAKE}"))


def _check_findings(asked: Asked, findings: Findings) -> None:
    config, topic = asked.config, asked.topic
    mark = fingerprint(asked.built / "tallies.parquet")
    asking = (views.metrics(config, topic), views.significance(config, topic))
    again = numbers_of(*asking, asked.data, mark).findings
    if not alike(_without_paths(findings), _without_paths(again)):
        raise _old(asked.built / "findings.json", "clean tables, the configuration or the code")


def _without_paths(findings: Findings) -> Any:
    """The queries name the tables by the path that was given, which may be another one now."""
    return msgspec.to_builtins(msgspec.structs.replace(findings, queries={}))


def _check_charts(asked: Asked, findings: Findings) -> None:
    view = views.charts(asked.config, asked.topic)
    folder = asked.built / "charts"
    made = read_charts(asked.built, MAKE)
    charts = charts_of(view, findings)
    titles = [words_of(chart, view).title for chart in charts]
    now = [
        (chart.name, title, described(chart, view.format))
        for chart, title in zip(charts, titles, strict=True)
    ]
    if [(chart.chart, chart.title, chart.alt) for chart in made] != now:
        raise _old(folder / "charts.json", "findings, the configuration or the code")
    wanted = [
        name for chart in charts for name in chart_files(chart.name, view.frames, chart.hides)
    ]
    _check_there([folder / name for name in dict.fromkeys([*wanted, *files_of_charts(made)])])


def _old(path: Path, what: str) -> UserError:
    return UserError(Problem(str(path), f"not what the {what} make now; {MAKE} first"))

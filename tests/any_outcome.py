"""What becomes of a topic: an answer, a refusal that says what to do, or neither."""

from __future__ import annotations

import re
import warnings
from collections.abc import Callable, Iterator
from contextlib import chdir
from dataclasses import fields, is_dataclass
from functools import cache, partial
from pathlib import Path
from typing import Any
from unittest.mock import patch

import msgspec

from pipeline.brief.facts import facts_of
from pipeline.brief.paper import pdf
from pipeline.brief.render import page, printed
from pipeline.brief.stage import sections
from pipeline.config import views
from pipeline.config.load import load
from pipeline.config.placed import placed
from pipeline.config.yaml_files import Document, read_yaml
from pipeline.contracts.facts import Facts
from pipeline.contracts.files import as_json
from pipeline.errors import Problem, UserError
from pipeline.in_memory import numbers_of
from tests.faults.where import cause
from tests.golden.made import DATA, Made, draw_frames, made
from tests.untidy import untidy

NAME = "any"
READ = "pipeline.config.load.read_yaml"
MEASURES = """  {name}:
    {{label: {name}, numerator: {above}, denominator: {below}, per: {per}, kind: {kind},
    unit: {unit}, spoken: {unit}, decimals: 2, rise_favours: batting, margin: {margin},
    defined: {name}}}
"""
# Sums that the demo has no measure of: by matches, of multiples, of what can be below nought.
ADDED = {
    "decided_share": ("decided", "matches", 100, "share", "per cent of matches", "5 points"),
    "outs_a_match": ("wickets", "matches", 1, "rate", "outs a match", "5 %"),
    "worth": ("4*four + 6*six - wickets", "innings", 1, "rate", "of worth", "5 %"),
    "nothing_lost": ("legal - faced", "legal", 100, "share", "per cent of balls", "1 points"),
}
LONG = (
    "  unlimited: {label: matches without a limit, match_types: [domestic one-day], "
    "balls_per_over: 6}\n"
)


def any_league(folder: Path) -> Path:
    """The untidy league's project, with more measures and a format without overs or phases."""
    project = untidy(folder)
    config = project / "config"
    with (config / "measures.yaml").open("a", encoding="utf-8") as file:
        for name, (above, below, per, kind, unit, margin) in ADDED.items():
            words = {"per": per, "kind": kind, "unit": unit, "margin": margin}
            file.write(MEASURES.format(name=name, above=above, below=below, **words))
    with (config / "formats.yaml").open("a", encoding="utf-8") as file:
        file.write(LONG)
    return project


def outcome(project: Path, text: str, pages: bool, paper: bool = False) -> str:
    """'ok', 'refused', or 'other: ' and its cause: the exception and where in the pipeline it was.

    With `pages` it is taken to words, charts and the page, with `paper` to the PDF as well.
    """
    (project / "config" / "topics" / f"{NAME}.yaml").write_text(text, "utf-8")
    try:
        with warnings.catch_warnings(), chdir(project), placed(), patch(READ, read_once):
            warnings.simplefilter("error")
            wrong = _shown(project, paper) if pages else _found()
    except UserError as error:
        untold = [one for one in error.problems if not _well_told(one)]
        return f"other: refused without a place: {untold[0]}" if untold else "refused"
    except Exception as error:  # what it is for: to name any that is not foreseen
        return cause(error)
    return f"other: {wrong}" if wrong else "ok"


def read_once(path: Path) -> Document:
    """A file of the project as it was when it was read first: two thirds of a topic's time."""
    return read_yaml(path) if path.stem == NAME else _kept(path.resolve())(path)


@cache
def _kept(path: Path) -> Callable[[Path], Document]:
    """Problems name the path as it was asked for, which is the same from the project's folder."""
    return cache(read_yaml)


def _well_told(problem: Problem) -> bool:
    """One line, with the topic's file and the line in it."""
    told = problem.line is not None and problem.file.endswith(f"{NAME}.yaml")
    return told and bool(problem.message.strip()) and "\n" not in str(problem)


def _found() -> str:
    """Findings and facts, which hold no number that is none."""
    config = load(Path("config"), only=NAME)
    asked = (views.metrics(config, NAME), views.significance(config, NAME))
    findings = numbers_of(*asked, DATA).findings
    as_json(findings)
    as_json(Facts(facts=facts_of(views.brief(config, NAME), findings)))
    return "" if findings.findings or findings.series else "no finding"


def _shown(project: Path, paper: bool) -> str:
    """Everything of the brief; a sentence that says nothing is named."""
    folder = project / "output" / NAME
    found = made(project, NAME, folder)
    as_json(Facts(facts=found.facts))
    draw_frames(project, NAME, found)
    html = page(found.content, found.folder, found.screen)
    if paper:
        _print(found)
    empty = [place for place, text in texts(found.content) if hollow(text)]
    empty += ["talking points"] if hollow(found.points) else []
    empty += [] if html.strip() else ["page"]
    return f"an empty sentence in {empty[0]}" if empty else ""


def _print(found: Made) -> None:
    newest = max(source.retrieved for source in found.content.sources)
    html_of = partial(printed, found.content, found.folder)
    pdf(html_of, sections(found.content), "", newest)


def texts(value: Any, place: str = "content") -> Iterator[tuple[str, str]]:
    """Every sentence of a list in what the page holds, with its place."""
    if isinstance(value, list):
        for item in value:
            yield from [(place, item)] if isinstance(item, str) else texts(item, place)
    elif is_dataclass(value) and not isinstance(value, type):
        for each in fields(value):
            if each.name != "sides":  # headings of columns, which a table without rows has not
                yield from texts(getattr(value, each.name), f"{place}.{each.name}")
    elif isinstance(value, msgspec.Struct):
        for name in value.__struct_fields__:
            yield from texts(getattr(value, name), f"{place}.{name}")


def hollow(text: str) -> bool:
    """Whether a text says nothing, or a number in it is none."""
    return not text.strip() or bool(re.search(r"\b(None|nan|inf|NaN)\b|\{|\}", text))

"""python -m pipeline topic NAME [--from OTHER]: write a commented topic file that runs as it is.

It asks about the project's data; with --from it asks what another topic asks, and holds only what
differs from it.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

import duckdb

from pipeline.config.load import DEFAULT, load_project
from pipeline.config.project import Format
from pipeline.config.topic_names import FOLDER, SUFFIX, wrong_name
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.new_topic.held import matches_table
from pipeline.new_topic.like_another import like_text
from pipeline.sql import quoted
from pipeline.templating import environment
from pipeline.terminal import say


class Played(NamedTuple):
    """The matches of one type that a competition played in a season."""

    competition: str
    match_type: str
    season: str
    first: str
    matches: int


@dataclass(frozen=True)
class Proposal:
    """What a new topic asks about; `timed` where there are two seasons to compare."""

    competition: str
    format: str
    date: str
    timed: bool
    before: int
    after: int
    phases: list[str]


def topic(words: list[str]) -> None:
    """Take a competition of the data and a date in the middle of its seasons; never overwrite."""
    parser = argparse.ArgumentParser(prog="python -m pipeline topic", description=__doc__)
    parser.add_argument("name", help="of the file: config/topics/NAME.yaml")
    parser.add_argument("--from", dest="other", metavar="OTHER", help="a topic that it is like")
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--output", type=Path, default=Path("output"))
    options = parser.parse_args(words)
    path = options.config / FOLDER / f"{options.name}{SUFFIX}"
    if wrong := wrong_name(options.name):
        raise UserError(Problem(options.name, wrong))
    if path.exists() or path.is_symlink():
        raise UserError(Problem(str(path), "it is there already; choose another name"))
    asked = (options.config, options.output)
    if options.other:
        text = like_text(options.name, options.other, *asked)
    else:
        text = topic_text(options.name, *asked)
    write_atomically(path, text)
    say(*_next(path, options.name, load_project(options.config).project.topics))


def _next(path: Path, name: str, listed: list[str] | str) -> list[str]:
    """What to do with it; where the project lists its topics it has to be listed too."""
    lines = [f"{path} is written: open it, change what it asks, and then"]
    if listed != "all" and name not in listed:
        lines = [f"{path} is written: open it, change what it asks,"]
        lines.append(f"add {name} to the topics in {path.parents[1] / 'project.yaml'}, and then")
    return [*lines, f"  .venv/bin/snakemake {name}"]


def topic_text(name: str, config: Path, output: Path) -> str:
    """The file's text, for the largest competition of the data that some format covers."""
    matches = matches_table(output)
    formats = load_project(config).formats
    proposal = proposed(_played(matches), formats)
    if proposal is None:
        message = "no format in formats.yaml covers a match type of the data; add one"
        raise UserError(Problem(str(config / "formats.yaml"), message))
    templates = environment(autoescape=False)
    return templates.get_template("topic.yaml.jinja").render(name=name, **vars(proposal))


def _played(matches: Path) -> list[Played]:
    """In the order of their first matches."""
    query = (
        "SELECT competition, match_type, season, min(date)::VARCHAR AS first, count(*) "
        f"FROM read_parquet({quoted(str(matches))}) GROUP BY ALL "
        "ORDER BY first, competition, match_type"
    )
    return [Played(*row) for row in duckdb.connect().sql(query).fetchall()]


def proposed(rows: Sequence[Played], formats: Mapping[str, Format]) -> Proposal | None:
    """Competition, format, and an event at the middle season, with as many seasons as there are."""
    sizes: Counter[tuple[str, str]] = Counter()
    for row in rows:
        for key, form in formats.items():
            if row.match_type in form.match_types:
                sizes[row.competition, key] += row.matches
    if not sizes:
        return None
    ((competition, key), _), *_ = sizes.most_common()
    form = formats[key]
    mine = [r for r in rows if r.competition == competition and r.match_type in form.match_types]
    seasons = list(dict.fromkeys(row.season for row in mine))
    half = len(seasons) // 2
    return Proposal(
        competition=competition,
        format=key,
        date=next(row.first for row in mine if row.season == seasons[half]),
        timed=half > 0,
        before=min(5, half),
        after=min(5, len(seasons) - half),
        phases=list(form.phases),
    )

"""python -m pipeline topic NAME [--from OTHER]: write a commented topic file that runs as it is.

It asks about the project's data; with --from it asks what another topic asks, and holds only what
differs from it.
"""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pipeline.config.load import DEFAULT, load_project
from pipeline.config.topic_names import FOLDER, SUFFIX, wrong_name
from pipeline.config.yaml_files import read_yaml
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.new_topic.held import matches_table
from pipeline.new_topic.lacking import chosen, missing, named
from pipeline.new_topic.like_another import like_text
from pipeline.new_topic.played import played
from pipeline.new_topic.proposed import Asked, Proposal, proposed
from pipeline.templating import environment
from pipeline.terminal import say
from pipeline.text import capitalised


def topic(words: list[str]) -> None:
    """Take a competition of the data and a day between its seasons; never overwrite."""
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
    told: list[str] = []
    if options.other:
        text = like_text(options.name, options.other, *asked)
    else:
        text, told = topic_text(options.name, *asked)
    write_atomically(path, text)
    say(*_next(path, options.name, load_project(options.config).project.topics), *told)


def _next(path: Path, name: str, listed: list[str] | str) -> list[str]:
    """What to do with it; where the project lists its topics it has to be listed too."""
    lines = [f"{path} is written: open it, change what it asks, and then"]
    if listed != "all" and name not in listed:
        lines = [f"{path} is written: open it, change what it asks,"]
        lines.append(f"add {name} to the topics in {path.parents[1] / 'project.yaml'}, and then")
    return [*lines, f"  .venv/bin/snakemake {name}"]


def topic_text(name: str, config: Path, output: Path) -> tuple[str, list[str]]:
    """The file's text, and what to know of it: what it asks about, and what the data lack.

    It fits the data: the event has seasons on both sides, and a headline is one that can be made.
    Raises UserError where no format covers the data, or there is nothing to compare in them.
    """
    matches = matches_table(output)
    held = load_project(config)
    taken = _asked_about(config)
    proposal = proposed(played(matches), held.formats, taken)
    if proposal is None:
        message = "no format in formats.yaml covers a match type of the data; add one"
        raise UserError(Problem(str(config / "formats.yaml"), message))
    if not proposal.date and not proposal.innings:
        message = f"{named(proposal.asked)} has one season and no second innings: add matches"
        raise UserError(Problem(str(matches), f"there is nothing to compare; {message}"))
    least = held.project.statistics.least_matches
    lacks = missing(proposal, held.project.players, matches.parent, least)
    text = (
        environment(autoescape=False)
        .get_template("topic.yaml.jinja")
        .render(
            name=name,
            title=json.dumps(capitalised(name.replace("-", " ").replace("_", " "))),
            data=_data(proposal.asked),
            headlines=_headlines(proposal),
            lacks=lacks,
            **vars(proposal),
        )
    )
    return text, [chosen(proposal), *lacks]


def _headlines(proposal: Proposal) -> list[str]:
    """By id: the whole rate, and of the kind of bowler that is known of enough balls."""
    if not proposal.date:
        return ["innings"]
    return ["rate", *([f"kinds.economy.{proposal.kind}"] if proposal.kind else [])]


def _data(asked: Asked) -> str:
    """As YAML, on one line."""
    told = {key: value for key, value in asked._asdict().items() if value}
    quoted = {
        key: json.dumps(told[key], ensure_ascii=False) if key == "competition" else told[key]
        for key in told
    }
    return ", ".join(f"{key}: {value}" for key, value in quoted.items())


def _asked_about(config: Path) -> set[str]:
    """Competitions that topics name; a topic that can't be read names none."""
    found: set[str] = set()
    for path in sorted((config / FOLDER).glob(f"*{SUFFIX}")):
        try:
            data = read_yaml(path).tree.get("data")
        except UserError:
            continue
        named = data.get("competition") if isinstance(data, dict) else None
        found |= {str(one) for one in (named if isinstance(named, list) else [named]) if one}
    return found

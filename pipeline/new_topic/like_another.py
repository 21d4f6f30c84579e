"""A topic that is like one that is there: its own title, and hints of what usually differs."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path

from pipeline.config.like import LIKE, MOST, TITLE, heard
from pipeline.config.load import Config, load
from pipeline.config.topic import Event, Topic
from pipeline.config.yaml_files import read_yaml
from pipeline.errors import Problem, UserError
from pipeline.new_topic.held import Held, held, matches_table
from pipeline.templating import environment
from pipeline.text import capitalised
from pipeline.wording import numbers

SUGGESTED = 6  # values of the data, the most matches first; the others are counted


def like_text(name: str, other: str, folder: Path, output: Path) -> str:
    """The file's text. Raises UserError where the other topic has a mistake, or is like too many,
    or the data are not read yet.
    """
    matches = matches_table(output)
    config = load(folder, only=other)
    already = config.like[other]
    if len(already) >= MOST:
        message = f"'{other}' is like '{already[0]}', and that like another; take '{already[0]}'"
        raise UserError(Problem(str(config.topic_file(other)), message, where=LIKE))
    template = environment(autoescape=False).get_template("topic-like.yaml.jinja")
    return template.render(
        name=name,
        other=other,
        title=_quoted(_title(name, config, other)),
        hints=_hints(config, config.topics[other], matches),
    )


def _title(name: str, config: Config, other: str) -> str:
    """The name in words, unless one of those that it is like has that title."""
    taken = [heard(read_yaml(path).tree.get(TITLE)) for path in config.topic_files(other)]
    title = capitalised(name.replace("-", " ").replace("_", " "))
    while heard(title) in taken:
        title += " again"
    return title


def _hints(config: Config, topic: Topic, matches: Path) -> list[list[str]]:
    """Sections in YAML, which hold as they are when they are no comments any more."""
    data = topic.data
    of_form = {
        "match_type": config.formats[data.format].match_types,
        "source": data.source or list(config.sources),
    }
    competitions = held(matches, "competition", of_form)
    genders = held(matches, "gender", {**of_form, "competition": data.competition or []})
    sections = [
        [f"question: {_quoted(topic.question)}"],
        [
            "data:",
            *_suggested("competition", data.competition or [], competitions),
            *_suggested("gender", [data.gender] if data.gender else [], genders),
        ],
    ]
    return [*sections, _event(topic.event)] if topic.event else sections


def _suggested(key: str, own: Sequence[str], there: Sequence[Held]) -> list[str]:
    """The first value that the topic does not take, or the one that there is; all in a comment."""
    if not there:
        return []
    first = next((one for one in there if one.value not in own), there[0])
    told = [f"{_quoted(one.value)} ({numbers.matches(one.matches)})" for one in there[:SUGGESTED]]
    told += [f"{len(there) - SUGGESTED} more"] if len(there) > SUGGESTED else []
    return [f"  {key}: {_quoted(first.value)}   # the data hold {', '.join(told)}"]


def _event(event: Event) -> list[str]:
    return [
        "event:",
        f"  name: {_quoted(event.name)}",
        f"  date: {event.date}",
        f"  before: {event.before}",
        f"  after: {event.after}",
    ]


def _quoted(text: str) -> str:
    """As YAML, on one line."""
    return json.dumps(text, ensure_ascii=False)

"""python -m pipeline compare A B: what moved from A to B, and why; or two topics side by side.

A and B are editions: a folder, or TOPIC/NUMBER. B may be a topic's name, or left out: then it is
the topic as it is built now. Are both the names of topics, then they are two questions, each with
its own answer; nothing moved between them, and their difference is not tested.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.archive.contents import Asked, merged
from pipeline.archive.current import check
from pipeline.compare.beside import Built, beside
from pipeline.compare.beside_words import lines_of
from pipeline.config.load import DEFAULT, load
from pipeline.config.topic_names import FOLDER, topic_names
from pipeline.contracts.base import Contract
from pipeline.contracts.editions import Difference
from pipeline.contracts.files import read_json, write_contract
from pipeline.contracts.findings import Findings
from pipeline.editions.archived_views import archived_side
from pipeline.editions.difference import compared
from pipeline.editions.difference_words import (
    NOTHING,
    causes_said,
    facts_said,
    intervals_said,
    same_number,
)
from pipeline.editions.reading import MAKE, read_facts, read_summary
from pipeline.editions.sides import Side, built_side, by_stage
from pipeline.editions.store import editions
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.terminal import WIDTH as TERMINAL
from pipeline.terminal import say, wrap

WIDTH = 34  # of a number with its verdict


def compare(words: list[str]) -> None:
    """Write what differs as JSON where that is asked for, and print it."""
    parser = argparse.ArgumentParser(
        prog="python -m pipeline compare",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("a", metavar="A")
    parser.add_argument("b", metavar="B", nargs="?")
    parser.add_argument("--json", type=Path, help="a file to write the comparison to")
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--output", type=Path, default=Path("output"))
    options = parser.parse_args(words)
    if _of_topics(options):
        found = beside(*(_built(name, options) for name in (options.a, options.b)))
        say_and_write(list(lines_of(found)), found, options.json)
        return
    old = archived_side(edition_of(options.a, options.output))
    new = _second(options.b or old.topic, options)
    if old.topic != new.topic:
        message = (
            f"of another topic ({new.topic}) than {options.a} ({old.topic}); compare one topic, or "
            f"two as they are built: compare {old.topic} {new.topic}"
        )
        raise UserError(Problem(options.b, message))
    moved = compared(old, new)
    say_and_write(printed(moved), moved, options.json)


def say_and_write(lines: list[str], found: Contract, path: Path | None) -> None:
    if path:
        write_contract(path, found)
    say(*lines)


def _of_topics(options: argparse.Namespace) -> bool:
    """Whether two topics are asked for. Raises UserError where one is, beside something else."""
    there = topic_names(options.config / FOLDER)
    if options.a not in there or options.b is None or _is_edition(options.a):
        return False
    if options.a == options.b:
        message = "the same topic twice; name another one, or an edition of it first"
        raise UserError(Problem(options.b, message))
    if options.b not in there:
        hint = did_you_mean(options.b, [name for name in there if name != options.a])
        message = f"no topic '{options.b}'{hint}; an edition stands first: compare TOPIC/NUMBER"
        raise UserError(Problem(options.b, message))
    return True


def _built(name: str, options: argparse.Namespace) -> Built:
    """A topic as it is built now."""
    asked = _checked(name, options)
    return Built(
        read_summary(asked.built, MAKE),
        read_json(asked.built / "findings.json", Findings, MAKE),
        read_facts(asked.built, MAKE),
        by_stage(merged(asked)),
    )


def _checked(name: str, options: argparse.Namespace) -> Asked:
    """Raises UserError where what is built is not what the settings make now."""
    config = load(options.config, only=name)
    out = options.output / name
    asked = Asked(config, name, out, options.output / "data", options.output / "archive")
    check(asked)  # settings that are not built yet would be called causes of what is not there
    return asked


def edition_of(name: str, output: Path) -> Path:
    """The folder of an edition: a path, or TOPIC/NUMBER in the archive."""
    for folder in (Path(name), output / "archive" / name):
        if _is_edition(folder):
            return folder
    topic = name.partition("/")[0]
    archive = output / "archive"
    there = [f"{topic}/{number}" for number in editions(archive / topic)]
    there = [edition for edition in there if (archive / edition / "data").is_dir()]
    listed = f"there: {', '.join(there)}" if there else "nothing is archived of that topic"
    message = f"no edition here; give its folder, or TOPIC/NUMBER ({listed})"
    raise UserError(Problem(name, message))


def _is_edition(folder: Path | str) -> bool:
    return (Path(folder) / "data" / "edition.json").is_file()


def _second(name: str, options: argparse.Namespace) -> Side:
    """An edition, or a topic as it is built."""
    out = options.output / name
    if "/" in name or not (out / "findings.json").is_file():
        return archived_side(edition_of(name, options.output))
    return built_side(name, out, merged(_checked(name, options)))


def printed(found: Difference) -> list[str]:
    """Lines to print."""
    lines = [f"from  {found.old}", f"to    {found.new}", ""]
    because = causes_said(found.causes)
    if found.same:
        lines.append("they say the same, and draw the same")
        if because == [NOTHING]:
            return lines
    rows = list(facts_said(found.facts))
    wide = max((len(name) for name, _, _ in rows), default=0)
    lines += [f"{name:{wide}}  {was:{WIDTH}} -> {now}".rstrip() for name, was, now in rows]
    silent = len(found.facts) - len(rows) - sum(map(same_number, found.facts))
    lines += [f"{silent} more moved in digits that are not shown"] if silent else []
    for sentence in intervals_said(found.facts):
        lines += wrap(sentence, TERMINAL, "", "  ")
    for part in found.lines:
        lines += ["", f"{part.beat}:"]
        lines += [f"  - {line}" for line in part.gone] + [f"  + {line}" for line in part.new]
    if found.charts:
        charts = [f"{moved.chart} ({', '.join(moved.what)})" for moved in found.charts]
        lines += ["", f"charts: {'; '.join(charts)}"]
    return [
        *lines,
        "",
        "what differs of what they were made of:",
        *(f"  {line}" for line in because),
    ]

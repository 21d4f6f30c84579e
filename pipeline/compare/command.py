"""python -m pipeline compare A B: what moved from A to B, and why.

A and B are editions: a folder, or TOPIC/NUMBER. B may be a topic's name, or left out: then it is
the topic as it is built now.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.archive.contents import Asked, merged, write_contract
from pipeline.archive.current import check
from pipeline.config.load import DEFAULT, load
from pipeline.contracts.editions import Difference
from pipeline.editions.archived_views import archived_side
from pipeline.editions.difference import compared
from pipeline.editions.difference_words import (
    NOTHING,
    causes_said,
    facts_said,
    intervals_said,
    same_number,
)
from pipeline.editions.sides import Side, built_side
from pipeline.editions.store import editions
from pipeline.errors import Problem, UserError
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
    old = archived_side(edition_of(options.a, options.output))
    new = _second(options.b or old.topic, options)
    if old.topic != new.topic:
        message = (
            f"of another topic ({new.topic}) than {options.a} ({old.topic}); compare one topic"
        )
        raise UserError(Problem(options.b, message))
    found = compared(old, new)
    if options.json:
        write_contract(options.json, found)
    say(*printed(found))


def edition_of(name: str, output: Path) -> Path:
    """The folder of an edition: a path, or TOPIC/NUMBER in the archive."""
    for folder in (Path(name), output / "archive" / name):
        if (folder / "data" / "edition.json").is_file():
            return folder
    topic = name.partition("/")[0]
    archive = output / "archive"
    there = [f"{topic}/{number}" for number in editions(archive / topic)]
    there = [edition for edition in there if (archive / edition / "data").is_dir()]
    listed = f"there: {', '.join(there)}" if there else "nothing is archived of that topic"
    message = f"no edition here; give its folder, or TOPIC/NUMBER ({listed})"
    raise UserError(Problem(name, message))


def _second(name: str, options: argparse.Namespace) -> Side:
    """An edition, or a topic as it is built."""
    out = options.output / name
    if "/" in name or not (out / "findings.json").is_file():
        return archived_side(edition_of(name, options.output))
    config = load(options.config, only=name)
    asked = Asked(config, name, out, options.output / "data", options.output / "archive")
    check(asked)  # settings that are not built yet would be called causes of what is not there
    return built_side(name, out, merged(asked))


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

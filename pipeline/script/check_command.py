"""python -m pipeline script-check TOPIC [FILE ...]: is every number that is said one of the data's?

Reads the topic's own script and captions (config/topics/TOPIC.script.md, .script.txt, .vtt, .srt),
or the files that are named: Markdown, plain text, WebVTT, SubRip. Prints what is to be mended and
what a person has to check. The exit status is 1 where a number contradicts the facts, goes the
wrong way or has the wrong unit, and of a mistake in the call; else 0.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.config import views
from pipeline.config.load import DEFAULT, load
from pipeline.contracts.files import write_contract
from pipeline.contracts.script_check import ScriptChecks
from pipeline.errors import Problem, UserError
from pipeline.kept_script import SAID, said_files
from pipeline.records.whole import check_numbers
from pipeline.script.check_table import table
from pipeline.script.held_against import by_facts
from pipeline.script.stage import all_checked
from pipeline.terminal import say
from pipeline.wording.script_checked import fails


def script_check(words: list[str]) -> None:
    """Print the check of each file, and write it as JSON where that is asked for."""
    options = _parsed(words)
    topic, out = options.topic, options.output / options.topic
    config = load(options.config, only=topic)
    files = options.files or said_files(config.topic_file(topic))
    if not files:
        place = config.topic_file(topic).with_name(topic)
        names = ", ".join(f"{place}{ending}" for ending in SAID)
        message = f"no script and no captions; write one of {names}, or name a file"
        raise UserError(Problem(topic, message))
    check_numbers(config, topic, options.output)
    known = by_facts(views.brief(config, topic), out, options.output / "archive")
    checked = all_checked(files, topic, known.facts, known.judge)
    if options.json:
        checks = [one.check for one in checked]
        write_contract(options.json, ScriptChecks(topic=topic, checks=checks))
    for at, one in enumerate(checked):
        say(*([""] if at else []), *table(one))
    if any(fails(one.check) for one in checked):
        raise SystemExit(1)


def _parsed(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="python -m pipeline script-check",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("topic")
    parser.add_argument(
        "files", nargs="*", type=Path, metavar="FILE", help="a script (.md, .txt) or captions"
    )
    parser.add_argument("--json", type=Path, metavar="FILE", help="a file to write the check to")
    parser.add_argument("--output", type=Path, default=Path("output"))
    parser.add_argument("--config", type=Path, default=DEFAULT)
    return parser.parse_args(words)

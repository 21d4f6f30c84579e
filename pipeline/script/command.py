"""python -m pipeline script TOPIC: what moved under the topic's kept script since it was written.

--keep takes the draft of the last build as the script to keep, once: config/topics/TOPIC.script.md
is yours from then on, and nothing writes over it. --checked takes today's numbers as those that it
was written with, when you have gone through what moved.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.brief.facts import facts_of
from pipeline.config import views
from pipeline.config.load import DEFAULT, Config, load
from pipeline.contracts.facts import Fact, Facts
from pipeline.contracts.files import as_json, read_json, write_contract
from pipeline.contracts.findings import Findings
from pipeline.csv_files import read_text_of
from pipeline.editions.reading import MAKE, read_facts
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.kept_script import is_kept, kept_of, written_with
from pipeline.records.whole import check_numbers, check_whole
from pipeline.script.moved import script_moved, slots_of
from pipeline.script.moved_words import lines_of
from pipeline.slots.drafted import DRAFT, KEPT, note
from pipeline.slots.marked_up import Slot, blocks_of, read_script
from pipeline.terminal import say

AGAIN = "delete it: all its numbers will count as written since"


def script(words: list[str]) -> None:
    """Print what moved, or keep the draft, or take today's numbers as seen."""
    options = _parsed(words)
    config, topic = load(options.config, only=options.topic), options.topic
    path = kept_of(config.topic_file(topic))
    if options.keep:
        say(*_keep(config, topic, path, options.output))
    elif not is_kept(path):
        how = f"python -m pipeline script {topic} --keep takes the draft of the last build"
        say(f"{topic} has no script of its own yet; {how}")
    elif options.checked:
        slots, facts = slots_of(read_script(path)), _facts_now(config, topic, options.output)
        known = _remember(config, topic, slots, facts)
        lost = len({slot.fact for slot in slots}) - known
        more = f"; {lost} that no fact has" if lost else ""
        say(f"{path}: today's numbers are those it was written with ({known} facts{more})")
    else:
        _moved(config, topic, path, options)


def _parsed(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="python -m pipeline script",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("topic")
    what = parser.add_mutually_exclusive_group()
    what.add_argument(
        "--keep", action="store_true", help="take the draft, where there is no script"
    )
    what.add_argument("--checked", action="store_true", help="today's numbers have been seen")
    what.add_argument("--json", type=Path, help="a file to write what moved to")
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--output", type=Path, default=Path("output"))
    return parser.parse_args(words)


def _keep(config: Config, topic: str, path: Path, output: Path) -> list[str]:
    """Raises UserError where there is a script already, or no whole draft."""
    there = "it is there already, and yours: nothing writes over it; delete or rename it first"
    if is_kept(path):
        raise UserError(Problem(str(path), there))
    check_whole(config, topic, output)
    draft = (output / topic / "script.md").read_text("utf-8")
    text = draft.replace(note(DRAFT, topic), note(KEPT, topic), 1)
    facts = read_facts(output / topic, MAKE)
    _remember(config, topic, slots_of(blocks_of(text, str(path))), facts)
    try:
        _write_new(path, text)
    except FileExistsError:
        raise UserError(Problem(str(path), there)) from None
    return [
        f"{path} is written: it is yours, and the brief reads it from the next build on.",
        f"What its numbers are today is kept in {written_with(config.topic_file(topic)).name}",
        f"beside it; what moved since: python -m pipeline script {topic}",
    ]


def _write_new(path: Path, text: str) -> None:
    """Half a script would be there already, and nobody's: what can't be written whole is none."""
    with path.open("x", encoding="utf-8") as file:
        try:
            file.write(text)
            file.flush()
        except BaseException:
            path.unlink()
            raise


def _remember(config: Config, topic: str, slots: list[Slot], facts: list[Fact]) -> int:
    """Write what the facts of these slots are; how many there are."""
    names = {slot.fact for slot in slots}
    found = [fact for fact in facts if fact.id in names]
    write_atomically(written_with(config.topic_file(topic)), as_json(Facts(facts=found)))
    return len(found)


def _moved(config: Config, topic: str, path: Path, options: argparse.Namespace) -> None:
    text = read_text_of(path)
    slots = slots_of(blocks_of(text, str(path)))
    beside = written_with(config.topic_file(topic))
    then = read_json(beside, Facts, AGAIN).facts if is_kept(beside) else []
    found = script_moved(topic, str(path), slots, then, _facts_now(config, topic, options.output))
    if options.json:
        write_contract(options.json, found)
    say(*lines_of(found, text.replace("\r\n", "\n").replace("\r", "\n").split("\n")))


def _facts_now(config: Config, topic: str, output: Path) -> list[Fact]:
    """Of the findings, since a script that can't be filled keeps the brief from being made."""
    check_numbers(config, topic, output)
    findings = read_json(output / topic / "findings.json", Findings, MAKE)
    return facts_of(views.brief(config, topic), findings)

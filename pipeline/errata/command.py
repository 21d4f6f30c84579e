"""python -m pipeline correction FACT [--topic NAME]: a number was said, and is another now.

Prints what each archived edition said, all that used it, why it moved as far as that is on record,
and a draft of what to say; with --captions, where the video says it (or would, by its script).
With --edition TOPIC/NUMBER in place of a fact the same in short of all that moved since that
edition; without --captions its own script and captions are gone through.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from msgspec import structs

from pipeline.archive.contents import Asked
from pipeline.archive.current import check
from pipeline.compare.command import edition_of
from pipeline.config.load import DEFAULT, load
from pipeline.config.topic_names import FOLDER
from pipeline.contracts.errata import EditionErrata, Errata
from pipeline.contracts.files import write_contract
from pipeline.editions.store import read_edition
from pipeline.errata.edition_printed import edition_printed
from pipeline.errata.printed import printed
from pipeline.errata.records import archived_record, archived_records, built_record
from pipeline.errata.search import Places, errata, in_captions, of_edition
from pipeline.errata.which_fact import asked_for
from pipeline.kept_script import said_files
from pipeline.terminal import say


def correction(words: list[str]) -> None:
    """Write what is found as JSON where that is asked for, and print it."""
    options = _parsed(words)
    found = _of_edition(options) if options.edition else _of_fact(options)
    if options.json:
        write_contract(options.json, found)
    say(*(printed(found) if isinstance(found, Errata) else edition_printed(found)))


def _of_fact(options: argparse.Namespace) -> Errata:
    topic, names = asked_for(options.fact, options.topic, options.output)
    asked = _checked(topic, options)
    now, editions = built_record(asked), archived_records(asked.archive, topic)
    found = errata(options.fact, names, now, editions, Places(options.config, asked.archive))
    if options.captions:
        said = in_captions(options.captions, names, now, editions)
        found = structs.replace(found, captions=said)
    return found


def _of_edition(options: argparse.Namespace) -> EditionErrata:
    folder = edition_of(options.edition, options.output)
    topic = read_edition(folder).topic
    asked = _checked(topic, options)
    record = archived_record(folder)
    kept = said_files(folder / "data" / "config" / FOLDER / topic)
    files = [options.captions] if options.captions else kept
    return of_edition(record, built_record(asked), files, Places(options.config, asked.archive))


def _checked(topic: str, options: argparse.Namespace) -> Asked:
    """Raises UserError where what is built is not what the settings make now."""
    archive = options.output / "archive"
    config = load(options.config, only=topic)
    asked = Asked(config, topic, options.output / topic, options.output / "data", archive)
    check(asked)  # against outputs that are older there would seem to be nothing to correct
    return asked


def _parsed(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="python -m pipeline correction",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument(
        "fact",
        nargs="?",
        help="its id, as in the brief's index; or a finding's id, which means all its facts",
    )
    what.add_argument(
        "--edition", metavar="TOPIC/NUMBER", help="all that moved since an edition (or its folder)"
    )
    parser.add_argument("--topic", help="where several topics have the fact")
    parser.add_argument(
        "--captions", type=Path, help="the video's captions (.srt, .vtt) or script (.txt, .md)"
    )
    parser.add_argument("--json", type=Path, help="a file to write the report to")
    parser.add_argument("--output", type=Path, default=Path("output"))
    parser.add_argument("--config", type=Path, default=DEFAULT)
    return parser.parse_args(words)

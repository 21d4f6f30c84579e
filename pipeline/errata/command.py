"""python -m pipeline correction FACT [--topic NAME]: a number was said, and is another now.

Prints what each archived edition said, all that used it, why it moved as far as that is on record,
and a draft of what to say; with --captions, where the video says it (or would, by its script).
"""

from __future__ import annotations

import argparse
from pathlib import Path

from msgspec import structs

from pipeline.archive.contents import Asked
from pipeline.archive.current import check
from pipeline.config.load import DEFAULT, load
from pipeline.contracts.files import write_contract
from pipeline.errata.printed import printed
from pipeline.errata.records import archived_records, built_record
from pipeline.errata.search import Places, errata, in_captions
from pipeline.errata.which_fact import asked_for
from pipeline.terminal import say


def correction(words: list[str]) -> None:
    """Write what is found as JSON where that is asked for, and print it."""
    options = _parsed(words)
    topic, names = asked_for(options.fact, options.topic, options.output)
    archive = options.output / "archive"
    config = load(options.config, only=topic)
    asked = Asked(config, topic, options.output / topic, options.output / "data", archive)
    check(asked)  # against outputs that are older there would seem to be nothing to correct
    now, editions = built_record(asked), archived_records(archive, topic)
    found = errata(options.fact, names, now, editions, Places(options.config, archive))
    if options.captions:
        said = in_captions(options.captions, names, now, editions)
        found = structs.replace(found, captions=said)
    if options.json:
        write_contract(options.json, found)
    say(*printed(found))


def _parsed(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="python -m pipeline correction",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument(
        "fact",
        help="its id, as in the brief's index; or a finding's id, which means all its facts",
    )
    parser.add_argument("--topic", help="where several topics have the fact")
    parser.add_argument(
        "--captions", type=Path, help="the video's captions (.srt, .vtt) or script (.txt, .md)"
    )
    parser.add_argument("--json", type=Path, help="a file to write the report to")
    parser.add_argument("--output", type=Path, default=Path("output"))
    parser.add_argument("--config", type=Path, default=DEFAULT)
    return parser.parse_args(words)

"""python -m pipeline.archive --topic NAME --out FOLDER: seal an edition of a built brief."""

from __future__ import annotations

import argparse
import signal
import sys
from pathlib import Path

from pipeline.archive.bag import seal
from pipeline.archive.contents import Asked, fill
from pipeline.archive.current import check
from pipeline.archive.edition import about, content_of
from pipeline.config.load import DEFAULT, load
from pipeline.editions.store import editions, locked, read_about, staging, take
from pipeline.errors import run_stage


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.archive", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--topic", required=True)
    parser.add_argument("--out", type=Path, required=True, help="the topic's folder")
    parser.add_argument("--data", type=Path, default=Path("output/data"), help="clean tables")
    parser.add_argument("--archive", type=Path, help="default: archive/ beside the topic's folder")
    options = parser.parse_args()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # so that what is half made is removed
    config = load(options.config, only=options.topic)
    archive = options.archive or options.out.parent / "archive"
    print(archived(Asked(config, options.topic, options.out, options.data, archive)))


def archived(asked: Asked) -> str:
    """Seal the next edition, unless the newest says the same; the line to print.

    Raises UserError when the topic is not built, or its outputs are older than what made them.
    """
    check(asked)
    content = content_of(asked)
    folder = asked.archive / asked.topic
    with locked(folder):
        there = editions(folder)
        newest = read_about(folder / str(there[-1])) if there else {}
        if newest.get("content") == content:
            return f"{asked.topic}: nothing has changed since {_named(newest)}"
        number = there[-1] + 1 if there else 1
        edition = about(asked, number, content)
        with staging(folder) as made:
            fill(asked, edition, made)
            files = seal(made, edition)
            place = take(made, folder / str(number))
    return f"{asked.topic}: {_named(edition)}, {files} files, is in {place}"


def _named(edition: dict) -> str:
    return f"edition {edition['edition']} ({edition['date']})"


if __name__ == "__main__":
    run_stage(main)

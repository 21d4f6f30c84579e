"""python -m pipeline.archive --topic NAME --out FOLDER: seal an edition of a built brief."""

from __future__ import annotations

import argparse
import signal
import sys
from pathlib import Path

from pipeline.archive.contents import Asked
from pipeline.archive.stage import archived
from pipeline.config.load import DEFAULT, load
from pipeline.config.placed import placed
from pipeline.errors import run_stage
from pipeline.terminal import say


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
    with placed():
        say(archived(Asked(config, options.topic, options.out, options.data, archive)))


if __name__ == "__main__":
    run_stage(main)

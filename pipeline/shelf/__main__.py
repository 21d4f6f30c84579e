"""python -m pipeline.shelf --out FOLDER: index.html over the topics built there and the archive."""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.config.load import DEFAULT, load
from pipeline.errors import run_stage
from pipeline.shelf.stage import write_shelf


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.shelf", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--out", type=Path, required=True, help="the folder of all outputs")
    options = parser.parse_args()
    config = load(options.config)
    write_shelf(options.out, list(config.topics), config.project.title)


if __name__ == "__main__":
    run_stage(main)

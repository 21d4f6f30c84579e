"""python -m pipeline.clean --data FOLDER: every source's tables into one clean set."""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.clean.quality_page import table
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import DEFAULT, load_project
from pipeline.errors import run_stage
from pipeline.records.outputs import Files
from pipeline.records.recording import record_options, recording
from pipeline.terminal import say


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.clean", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--data", type=Path, required=True, help="folder with a folder a source")
    parser.add_argument("--threads", type=int, help="the most to work with")
    record_options(parser)
    options = parser.parse_args()
    with recording("clean", options) as record:
        config = load_project(options.config)
        view, files = views.clean(config), Files(config, options.data.parent, options.data)
        record.begins(view, *files.of("clean", ""), str(options.config))
        say(*table(clean(view, options.data, options.threads)))


if __name__ == "__main__":
    run_stage(main)

"""python -m pipeline convert SOURCE --to FOLDER: a source's match files as tables of our own."""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.config.load import DEFAULT, load_sources
from pipeline.convert.convert import write_converted
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.ingest.ball_tables.contract import FORMS
from pipeline.terminal import say

SHOWN = 20  # of what was left out


def convert(words: list[str]) -> None:
    """Write a source of sources.yaml as `ball-tables`, and say what was written and left out."""
    parser = argparse.ArgumentParser(prog="python -m pipeline convert", description=__doc__)
    parser.add_argument("source", metavar="SOURCE", help="its id in sources.yaml")
    parser.add_argument("--to", type=Path, required=True, metavar="FOLDER", help="a new folder")
    parser.add_argument("--form", choices=FORMS, default=FORMS[0])
    parser.add_argument("--config", type=Path, default=DEFAULT)
    options = parser.parse_args(words)
    sources = load_sources(options.config)
    if options.source not in sources:
        hint = did_you_mean(options.source, sources)
        file = str(options.config / "sources.yaml")
        raise UserError(Problem(file, f"no source '{options.source}'{hint}"))
    found = write_converted(sources[options.source], options.to, options.form)
    for name, count in found.rows.items():
        say(f"{options.to}/{name}.{options.form}: {count:,} rows")
    for problem in found.left_out[:SHOWN]:
        say(f"left out: {problem}")
    if (more := len(found.left_out) - SHOWN) > 0:
        say(f"and {more:,} more, left out likewise")
    say(f"in sources.yaml: path: {options.to}, layout: ball-tables")

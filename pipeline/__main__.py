"""python -m pipeline COMMAND: what is done by hand, beside the workflow.

build          the workflow: what is not up to date is made (make brief does this)
look FILE      what an unknown table holds: a proposed map of its columns, added to sources.yaml
fetch SOURCE   ask a PostgreSQL server for a source's rows, and keep them as its file
topic NAME     a commented topic file that runs as it is
preview NAME   a topic's page, made anew at every save
doctor         is everything there that a brief needs, and what to do about what is not
explain FACT   where a number comes from: definition, sums, interval, test, corrections, query
verify PATH    is an archived edition whole, or what is damaged, missing or extra in it
compare A B    what moved between two editions, or from an edition to what is built now, and why
rebuild PATH   an edition made again from what it holds: the same bytes, or what differs
grounds        countries of the grounds that have none: suggested, and accepted in bulk
correction FACT   where a number that has changed was said, and the draft of a correction
script TOPIC   what moved under the script that you keep of a topic; --keep takes the draft
script-check TOPIC [FILE ...]   is every number of a script or of captions one of the data's
convert SOURCE --to FOLDER   a source's match files as tables of our own (config/BALL-TABLES.md)
"""

from __future__ import annotations

import sys

from pipeline.commands import run
from pipeline.errors import run_stage
from pipeline.terminal import say


def main() -> None:
    name, *words = sys.argv[1:] or ["--help"]
    if name in ("-h", "--help"):
        say(*__doc__.strip().splitlines())
        return
    run(name, words)


if __name__ == "__main__":
    run_stage(main)

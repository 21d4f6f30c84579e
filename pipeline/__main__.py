"""python -m pipeline COMMAND: what is done by hand, beside the workflow.

topic NAME     a commented topic file that runs as it is
doctor         is everything there that a brief needs, and what to do about what is not
explain FACT   where a number comes from: definition, sums, interval, test, corrections, query
"""

from __future__ import annotations

import sys

from pipeline.doctor.command import doctor
from pipeline.errors import Problem, UserError, did_you_mean, run_stage
from pipeline.explain.command import explain
from pipeline.start.command import topic

COMMANDS = {"topic": topic, "doctor": doctor, "explain": explain}


def main() -> None:
    name, *words = sys.argv[1:] or ["--help"]
    if name in ("-h", "--help"):
        print(__doc__.strip())
        return
    if name not in COMMANDS:
        raise UserError(
            Problem("python -m pipeline", f"no command '{name}'{did_you_mean(name, COMMANDS)}")
        )
    COMMANDS[name](words)


if __name__ == "__main__":
    run_stage(main)

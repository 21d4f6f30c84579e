"""python -m pipeline doctor: check Python, libraries, fonts, configuration, voice, data, space."""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.config.load import DEFAULT
from pipeline.doctor.checks import CHECKS, Finding
from pipeline.terminal import say


def doctor(words: list[str]) -> None:
    """Print a line a check; what is wrong is said with what to do. Exit status 1 if anything is."""
    parser = argparse.ArgumentParser(prog="python -m pipeline doctor", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--output", type=Path, default=Path("output"))
    options = parser.parse_args(words)
    found = [each for check in CHECKS for each in check(options.config, options.output)]
    for finding in found:
        say(line(finding))
    wrong = sum(not finding.well for finding in found)
    say(f"{len(found) - wrong} of {len(found)} checks are well" + ("." if not wrong else ":"))
    if wrong:
        say("mend what is marked, from the top, and ask again")
        raise SystemExit(1)


def line(finding: Finding) -> str:
    """'ok    Python 3.11', or 'MEND  fonts: what is missing; what to do'."""
    what = f"{finding.what}; {finding.mend}" if finding.mend and not finding.well else finding.what
    return f"{'ok   ' if finding.well else 'MEND '} {finding.name}: {what}"

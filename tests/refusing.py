"""Good balls, a good match file, and what is said of a bad one beside it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tests.builders import delivery, match, read_all, source

BALLS = [
    delivery(1),
    delivery(wides=2),
    delivery(wicket={"kind": "bowled", "player_out": "A Batt"}),
]
GOOD = json.dumps(match([delivery(1), delivery(4)]))


def refused(path: Path, said: str, layout: str = "match-json", kept: int = 1) -> None:
    """One problem that says so, on one line, and the other matches are read."""
    tables, problems = read_all(source(path, layout))
    (line,) = [str(problem) for problem in problems]
    assert said in line and str(path) in line and "\n" not in line
    assert tables.matches.num_rows == kept


def said(found: list[Any]) -> list[str]:
    return [str(problem) for problem in found]

"""The ragged info file beside a match's deliveries in the `delivery-csv` layout."""

from __future__ import annotations

import csv
import io
from typing import Any

from pipeline.errors import Problem, UserError

# The file's keys -> our match columns.
KEYS = {
    "gender": "gender",
    "venue": "venue",
    "city": "city",
    "event": "competition",
    "match_type": "match_type",
    "team_type": "team_type",
    "winner": "winner",
    "outcome": "result",
    "balls_per_over": "balls_per_over",
    "overs": "overs_limit",
    "revision": "revision",
}


def parse_info(data: bytes, file: str) -> dict[str, Any]:
    """{'match': our columns, 'people': name -> id}; keys it doesn't know are passed over."""
    try:
        rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))
    except (UnicodeDecodeError, csv.Error) as error:
        raise UserError(Problem(file, f"not a readable CSV: {error}")) from None
    match: dict[str, str] = {}
    people: dict[str, str] = {}
    for row in rows:
        if len(row) >= 3 and row[0] == "info" and row[1] in KEYS:
            match[KEYS[row[1]]] = row[2]
        elif len(row) >= 5 and row[:3] == ["info", "registry", "people"]:
            people[row[3]] = row[4]
    return {"match": match, "people": people}

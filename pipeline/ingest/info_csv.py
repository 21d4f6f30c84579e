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
DIGITS = {"balls_per_over": 2, "overs": 3, "revision": 4}  # the most a number may have


def parse_info(data: bytes, file: str) -> dict[str, Any]:
    """{'match': our columns, 'people': name -> id}; keys it doesn't know are passed over."""
    try:
        rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))
    except (UnicodeDecodeError, csv.Error) as error:
        raise UserError(Problem(file, f"not a readable CSV: {error}")) from None
    match: dict[str, str] = {}
    people: dict[str, str] = {}
    for line, row in enumerate(rows, start=1):
        if len(row) >= 3 and row[0] == "info" and row[1] in KEYS:
            _check_number(row[1], row[2], file, line)
            match[KEYS[row[1]]] = row[2]
        elif len(row) >= 5 and row[:3] == ["info", "registry", "people"]:
            people[row[3]] = row[4]
    return {"match": match, "people": people}


def _check_number(key: str, value: str, file: str, line: int) -> None:
    if value and key in DIGITS and not (value.isdecimal() and len(value) <= DIGITS[key]):
        raise UserError(Problem(file, f"'{value}' is no count for {key}", line, 1))

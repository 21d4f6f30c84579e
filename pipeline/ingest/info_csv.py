"""The ragged info file beside a match's deliveries in the `delivery-csv` layout."""

from __future__ import annotations

import io
from functools import partial
from typing import NamedTuple

from pipeline.date_forms import day_of
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.ingest.csv_by_line import check_text, rows_of
from pipeline.ingest.limits import MOST_INNINGS
from pipeline.ingest.number_cells import count_of, flag_of
from pipeline.ingest.other_forms import not_apart
from pipeline.ingest.row_names import INNINGS_FLAGS, INNINGS_NUMBERS, OF_INNINGS
from pipeline.open_layouts.delivery_csv import DATE, DATE_FORMS, INFO, INFO_UNUSED

MOST = {"balls_per_over": 99, "overs": 999, "revision": 999_999}
MOST |= {f"winner_{unit}": 9_999 for unit in ("runs", "wickets", "innings")}


class InfoFile(NamedTuple):
    """What one says of its match, under our columns' names; people's ids by name; its innings.

    `strays` are its keys that the layout does not have.
    """

    match: dict[str, str]
    people: dict[str, str]
    innings: dict[int, dict[str, str]]
    strays: tuple[str, ...] = ()


def parse_info(data: bytes, file: str) -> InfoFile:
    """What the file says; keys it doesn't know are passed over, and given with the rest.

    Of an innings it may say `info,innings,<number>,<name>,<value>`, with our names. Raises
    UserError with the line of a number that is none, or of a quotation mark that is never closed.
    """
    found, strays = InfoFile({}, {}, {}), list[str]()
    opened = partial(io.BytesIO, data)
    check_text(opened, file)
    for line, cells in rows_of(opened, file):
        row = [cell.strip() for cell in cells]
        if len(row) >= 3 and row[0] == "info" and row[1] in INFO:
            if said := _checked(row[1], row[2], file, line):  # a blank takes nothing away
                found.match[INFO[row[1]]] = said
        elif len(row) >= 5 and row[:3] == ["info", "registry", "people"]:
            found.people[row[3]] = row[4]
        elif len(row) >= 5 and row[:2] == ["info", "innings"]:
            number = _check_innings(row[2:5], file, line)
            if row[4]:
                found.innings.setdefault(number, {})[row[3]] = row[4]
        elif len(row) >= 3 and row[:2] == ["info", DATE] and (day := _day(row[2])):
            found.match["last_day"] = max(day, found.match.get("last_day", day))
        elif len(row) == 1 and (apart := not_apart(row)):
            raise UserError(Problem(file, apart, line, 1))
        elif len(row) >= 2 and row[0] == "info" and row[1] not in INFO_UNUSED:
            strays.append(f"info.{row[1]}")
    return found._replace(strays=tuple(strays))


def _day(text: str) -> str:
    """A day in the usual form; '' of what is none."""
    day = next((day for form in DATE_FORMS if (day := day_of(text, form))), None)
    return day.isoformat() if day else ""


def _check_innings(said: list[str], file: str, line: int) -> int:
    """The number of the innings that something readable is said of."""
    number, name, value = said
    message = ""
    if not count_of(number, MOST_INNINGS):
        message = f"innings '{number}': expected 1 to {MOST_INNINGS}"
    elif name not in (*OF_INNINGS, "batting_team"):
        message = f"nothing of an innings is called '{name}'{did_you_mean(name, OF_INNINGS)}"
    elif name in INNINGS_NUMBERS and count_of(value, INNINGS_NUMBERS[name]) is None:
        message = f"'{value}' is no count for {name}"
    elif name in INNINGS_FLAGS and flag_of(value) is None:
        message = f"'{value}' is neither 0 nor 1: {name}"
    if message:
        raise UserError(Problem(file, message, line, 1))
    return count_of(number, MOST_INNINGS) or 0


def _checked(key: str, value: str, file: str, line: int) -> str:
    """The value, of a number its plain digits."""
    if not value or key not in MOST:
        return value
    count = count_of(value, MOST[key])
    if count is None or (key == "balls_per_over" and not count):
        message = f"'{value}' is no count for {key}; expected digits, up to {MOST[key]:,}"
        raise UserError(Problem(file, message, line, 1))
    return str(count)

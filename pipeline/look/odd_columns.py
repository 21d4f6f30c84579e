"""What is odd in columns that were found: runs that count extras, kinds that no column has."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from pipeline.look.folded_names import NEAR, said_by_name
from pipeline.look.joined_tables import name_in_sql
from pipeline.look.mapped import KINDS, Guess
from pipeline.look.sampled import COUNTS, Column, samples
from pipeline.look.trade_words import CODES, heard
from pipeline.text import listed

Columns = Mapping[str, Guess]
ALIKE = NEAR - 0.05  # by its name alone a column is one of ours
TWO_DIGITS = re.compile(r"\d{1,2}([/.-])\d{1,2}\1\d{2}")
LEAST = 3  # wides by which it is told


def counts_extras(columns: Columns) -> str:
    """What to say of runs of the bat that count extras too: then every wide has runs."""
    if "runs_batter" not in columns:
        return ""
    bat = columns["runs_batter"].column
    runs = [
        cell.strip() for cell, is_wide in zip(bat.cells, _wide(columns), strict=False) if is_wide
    ]
    if len(runs) < LEAST or any(cell in ("", "0") for cell in runs):
        return ""
    return f"every wide has runs in '{bat.name}': it seems to count extras too; see runs_batter"


def _wide(columns: Columns) -> list[bool]:
    """Whether a ball is a wide, as far as columns say it."""
    if "wides" in columns:
        return [cell.strip() not in ("", "0") for cell in columns["wides"].column.cells]
    kinds = columns["extra_kind"].column.cells if "extra_kind" in columns else []
    return [CODES["extra_kind"].get(heard(cell)) == "wides" for cell in kinds]


def odd_columns(columns: Columns) -> list[str]:
    """What would count as none, and ids of matches that may be none."""
    found = []
    without = [kind for kind in KINDS[:4] if kind not in columns]
    if without and "extra_kind" not in columns:
        found.append(
            f"no column looks like {listed(without)}: they count as none; if the table has them, "
            "add them to columns"
        )
    if "dismissal" not in columns:
        found.append("no column looks like kinds of dismissal: no wicket would count")
    if {"match_id", "date"} <= columns.keys():
        ids, days = (columns[name].column for name in ("match_id", "date"))
        if len(set(zip(ids.cells, days.cells, strict=True))) > len(set(ids.cells)):
            found.append(
                f"'{ids.name}' has several dates for one match: if it begins anew each season, "
                "make an id of both by a query; if they are the days of one match, its first row "
                "counts"
            )
    return found


def passed_over(head: Sequence[Column], columns: Columns) -> list[str]:
    """What to say of columns that are in no map for what is in their cells."""
    used = {guess.column.name for guess in columns.values()}
    found = []
    for column in head:
        if column.name in used or not column.distinct:
            continue
        called = [
            ours
            for ours in (*COUNTS, "innings")
            if ours not in columns and said_by_name(ours, column.name) >= ALIKE
        ]
        if called and not column.whole:
            found.append(_no_numbers(called[0], column))
        if "dismissal" not in columns and said_by_name("dismissal", column.name) >= ALIKE:
            found.append(_no_dismissals(column))
        if "date" not in columns and (day := TWO_DIGITS.fullmatch(column.distinct[0])):
            found.append(_short_years(column, day[1]))
    return found


def _no_numbers(ours: str, column: Column) -> str:
    words = [cell for cell in column.distinct if not cell.isdecimal()]
    return (
        f"'{column.name}' is called as {ours} is, but holds what is no whole number "
        f"({samples(Column('', words))}): add it to columns, and under written, values, {ours} "
        "what each of these stands for"
    )


def _no_dismissals(column: Column) -> str:
    return (
        f"'{column.name}' is called as dismissal is, but its words ({samples(column)}) are not the "
        "trade's: add it to columns with who was out (player_out), and under written, values, "
        "dismissal what each of these stands for"
    )


def _short_years(column: Column, mark: str) -> str:
    name = name_in_sql(column.name)
    form = f"%d{mark}%m{mark}%y"
    return (
        f"'{column.name}' may hold days with years of two digits, which could be of any century: "
        f"query: SELECT *, strftime(strptime({name}, '{form}'), '%Y-%m-%d') AS day FROM data "
        "ORDER BY ..., and date: day (%m and %d the other way round where the month is first)"
    )

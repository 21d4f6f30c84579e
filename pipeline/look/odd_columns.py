"""What is odd in columns that were found: runs that count extras, kinds that no column has."""

from __future__ import annotations

from collections.abc import Mapping

from pipeline.look.mapped import KINDS, Guess
from pipeline.look.trade_words import CODES, heard
from pipeline.text import listed

Columns = Mapping[str, Guess]
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

"""The researcher's sheets of what is known: players.csv and grounds.csv, read and checked."""

from __future__ import annotations

from collections.abc import Iterable

import pyarrow as pa

from pipeline.clean.regions import area_of
from pipeline.clean.styles import read_hand, read_style
from pipeline.csv_files import Row, check_unique, once_each, read_sheet
from pipeline.errors import Problem, UserError

PLAYER_COLUMNS = ("id", "name", "batting_hand", "bowling_style", "tags")
GROUND_COLUMNS = ("venue", "ground", "city", "country", "region")
GROUND_OPTIONAL = ("venue_city", "home", "source")
Rows = list[tuple[int, Row]]


def read_players(path: str | None) -> Rows:
    """players.csv as written, a row a player, with the line of each."""
    rows = read_sheet(path, PLAYER_COLUMNS)
    if nobody := [line for line, row in rows if not row["id"]]:
        message = "id is blank; players-to-fill.csv has the ids"
        raise UserError(once_each(Problem(str(path), message, line, 1) for line in nobody))
    check_unique(str(path), rows, "id")
    return rows


def players_table(rows: list[Row]) -> pa.Table:
    """One row a player: id, name, hand, arm, kind, style, tags (';' between), both as written.

    `second_style` is what else the player bowls. What can't be read is unknown; `unread` names it.
    """
    told = [read_style(row["bowling_style"]) for row in rows]
    return pa.table(
        {
            "id": _text(row["id"] for row in rows),
            "name": _text(row["name"] for row in rows),
            "hand": _text(read_hand(row["batting_hand"]) or "unknown" for row in rows),
            "arm": _text(each.first.arm for each in told),
            "kind": _text(each.first.kind for each in told),
            "style": _text(each.first.style for each in told),
            "second_style": _text("; ".join(s.style for s in each.others) for each in told),
            "tags": _text(row["tags"] for row in rows),
            "as_written": _text(row["bowling_style"] for row in rows),
            "hand_as_written": _text(row["batting_hand"] for row in rows),
        }
    )


def read_grounds(path: str | None) -> Rows:
    """grounds.csv as written: a row a spelling of a venue.

    `venue_city` is wanted only where one venue name is two grounds: the city the match file gives.
    `home` is the sides whose home ground it is, ';' between them; `source` says where a country is
    from. All three may be left out.
    """
    rows = read_sheet(path, GROUND_COLUMNS, GROUND_OPTIONAL)
    check_unique(str(path), rows, "venue", "venue_city")
    return rows


def grounds_table(rows: list[Row]) -> pa.Table:
    """Blank is unknown; a blank region is the country's M49 area, where M49 knows the country."""
    columns = {
        name: _text(row[name] or "unknown" for row in rows)
        for name in ("ground", "city", "country")
    }
    return pa.table(
        {
            "venue": _text(row["venue"] for row in rows),
            "venue_city": _text(row["venue_city"] for row in rows),
            **columns,
            "home": _text(row["home"] or "unknown" for row in rows),
            "region": _text(row["region"] or area_of(row["country"]) or "unknown" for row in rows),
        }
    )


def _text(values: Iterable[str]) -> pa.Array:
    return pa.array(list(values), pa.string())

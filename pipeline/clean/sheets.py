"""The researcher's sheets: players.csv and grounds.csv, read and checked."""

from __future__ import annotations

import csv
from pathlib import Path

import pyarrow as pa

from pipeline.clean.styles import parse_style
from pipeline.errors import Problem, UserError, did_you_mean

PLAYER_COLUMNS = ("id", "name", "batting_hand", "bowling_style", "tags")
GROUND_COLUMNS = ("venue", "ground", "city", "country", "region")
HANDS = {"left": "left", "right": "right", "": "unknown", "unknown": "unknown"}


def read_players(path: str | None) -> pa.Table:
    """One row a player: id, name, hand, arm, kind, style, tags (text, ';' between)."""
    rows = _read(path, PLAYER_COLUMNS, "id")
    problems, hands = [], []
    for line, row in rows:
        hand = re_hand(row["batting_hand"])
        if hand not in HANDS:
            message = f"batting_hand '{hand}'{did_you_mean(hand, ['left', 'right'])}"
            problems.append(Problem(str(path), message, line, 1))
        hands.append(HANDS.get(hand, "unknown"))
    if problems:
        raise UserError(problems)
    styles = [parse_style(row["bowling_style"]) for _, row in rows]
    return pa.table(
        {
            "id": _text(row["id"] for _, row in rows),
            "name": _text(row["name"] for _, row in rows),
            "hand": _text(hands),
            "arm": _text(style.arm for style in styles),
            "kind": _text(style.kind for style in styles),
            "style": _text(style.style for style in styles),
            "tags": _text(row["tags"] for _, row in rows),
        }
    )


def re_hand(text: str) -> str:
    """'Left hand bat', 'left-handed' and 'left' are one."""
    word = text.strip().lower().split("-")[0].split(" ")[0]
    return word.removesuffix("handed")


def read_grounds(path: str | None) -> pa.Table:
    """One row a spelling of a venue: venue, ground, city, country, region; blank is unknown."""
    rows = _read(path, GROUND_COLUMNS, "venue")
    return pa.table(
        {name: _text(row[name] or "unknown" for _, row in rows) for name in GROUND_COLUMNS}
    )


def _text(values) -> pa.Array:
    return pa.array(list(values), pa.string())


def _read(path: str | None, columns: tuple[str, ...], key: str) -> list[tuple[int, dict]]:
    """Rows with their line numbers; the header must be right and the key unique."""
    if path is None:
        return []
    try:
        with Path(path).open(encoding="utf-8-sig", newline="") as file:
            reader = csv.DictReader(file)
            rows = [
                (reader.line_num, {k: (v or "").strip() for k, v in row.items() if k})
                for row in reader
            ]
            header = reader.fieldnames or []
    except FileNotFoundError:
        message = "no such file; it is named in project.yaml"
        raise UserError(Problem(str(path), message)) from None
    except (UnicodeDecodeError, csv.Error) as error:
        raise UserError(Problem(str(path), f"not a readable CSV: {error}")) from None
    missing = [name for name in columns if name not in header]
    if missing:
        message = f"no column {', '.join(missing)}; expected {', '.join(columns)}"
        raise UserError(Problem(str(path), message, 1, 1))
    seen: dict[str, int] = {}
    problems = []
    for line, row in rows:
        if row[key] in seen:
            message = f"{key} '{row[key]}' stands on line {seen[row[key]]} too; keep one of them"
            problems.append(Problem(str(path), message, line, 1))
        seen[row[key]] = line
    if problems:
        raise UserError(problems)
    return rows

"""What rows, and what stands beside them, say of a match and its innings: rows of our tables."""

from __future__ import annotations

from datetime import date
from typing import Any

from pipeline.ingest.info_csv import InfoFile
from pipeline.ingest.number_cells import flag_of, number_of
from pipeline.ingest.row_names import INNINGS_NUMBERS, MATCH_TEXT
from pipeline.open_layouts.match_types import in_words

Said = dict[str, str]


def match_row(match_id: str, cells: Said, beside: InfoFile, days: tuple[date, date]) -> Said | Any:
    """A row of the matches, of its first delivery's cells and what is known beside them."""
    given = cells | beside.match
    text = {name: given.get(name) or None for name in MATCH_TEXT}
    teams = sorted({cells["batting_team"], cells["bowling_team"]})
    return {
        **text,
        "match_type": in_words(text["match_type"] or "") or None,
        "match_id": match_id,
        "date": days[0],
        "last_day": max(days[1], date.fromisoformat(beside.match.get("last_day", str(days[1])))),
        "season": cells["season"],
        "team_1": teams[0],
        "team_2": teams[-1],
        "margin": text["margin"] or _margin(beside.match),
        "result": text["result"] or ("win" if text["winner"] else None),
        "overs_limit": count(given.get("overs_limit")),
        "balls_per_over": count(given.get("balls_per_over")) or 6,
        "revision": count(given.get("revision")) or 1,
    }


def _margin(given: Said) -> str | None:
    """'3 runs', as the other layout has it."""
    units = [unit for unit in ("innings", "runs", "wickets") if given.get(f"winner_{unit}")]
    sizes = [f"{given[f'winner_{unit}']} {unit}" for unit in units]
    return ", ".join(sizes) or None


def innings_row(match_id: str, number: int, said: Said) -> dict[str, Any]:
    """A row of the innings, of what its first delivery and a table beside it say."""
    numbers = {name: count(said.get(name)) for name in INNINGS_NUMBERS}
    return {
        "match_id": match_id,
        "innings": number,
        "batting_team": said["batting_team"],
        "target_runs": numbers["target_runs"],
        "target_overs": said.get("target_overs") or None,
        "penalty_pre": numbers["penalty_pre"] or 0,
        "penalty_post": numbers["penalty_post"] or 0,
        "declared": is_set(said, "declared"),
        "forfeited": is_set(said, "forfeited"),
        "miscounted_overs": 0,
    }


def is_set(said: Said, name: str) -> bool:
    return bool(flag_of(said.get(name, "")))


def count(text: str | None) -> int | None:
    """A number that was checked already; None of a blank."""
    return number_of(text or "")

"""The layouts with a row a delivery: `delivery-csv`, and `table` with its map of columns."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import numpy as np
import pandas as pd

from pipeline.errors import Problem
from pipeline.ingest.columns import Codes, Person, Tables, finish, without_id
from pipeline.ingest.info_csv import InfoFile
from pipeline.ingest.row_checks import numbered
from pipeline.ingest.row_files import load_rows
from pipeline.ingest.row_names import MATCH_TEXT, RUNS
from pipeline.open_layouts.match_types import in_words

if TYPE_CHECKING:
    from pipeline.config.project import Source

Written = tuple[str, str, str, str, str]  # match, name, id, gender, side of somebody on a row
NO_INFO = InfoFile({}, {})
# Who is on which side.
ROLES = {
    **dict.fromkeys(("batter", "non_striker", "player_out", "other_player_out"), "batting_team"),
    "bowler": "bowling_team",
}


def read_rows(source: Source) -> tuple[Tables, list[Problem]]:
    """The tables of one row-a-delivery source; bad matches are left out and named."""
    frame, infos, bad = load_rows(source)
    for name, value in {"gender": "unknown", **source.constants}.items():
        if name not in frame.columns:
            frame[name] = value
    frame = numbered(frame, bad)
    for match, problem in _in_two_files(frame):
        bad.matches.add(match)
        bad.problems.append(problem)
    frame = frame[~frame["match_id"].isin(bad.matches)]
    extra = _super_overs(frame, infos)
    counted = frame[extra].groupby("match_id")["innings"].nunique()
    aside = {str(match): int(count) for match, count in counted.items()}
    played = frame[~extra].reset_index(drop=True)
    return _tables(played, infos, source, aside), bad.problems


def _super_overs(frame: pd.DataFrame, infos: dict[str, InfoFile]) -> pd.Series:
    """Rows of super overs: marked ones, and what comes after two innings of limited overs.

    ASSUME: a match of limited overs has two innings, so a third is a super over (common practice).
    Where no limit is known nothing is set aside.
    """
    given = {match: info.match.get("overs_limit", "") for match, info in infos.items()}
    limit = frame["match_id"].map(lambda match: given.get(str(match), "")).astype(str)
    if "overs_limit" in frame.columns:
        limit = limit.where(limit != "", frame["overs_limit"].astype(str))
    limited = ~limit.isin(["", "0"])
    return frame["super_over"] | (limited & (frame["innings"] > 2))


def _in_two_files(frame: pd.DataFrame) -> list[tuple[str, Problem]]:
    """An innings told by two files would be counted twice; neither is taken."""
    files = frame.drop_duplicates(["match_id", "innings", "file"])
    first = files.groupby(["match_id", "innings"])["file"].transform("first")
    return [
        (match, Problem(file, f"match {match}, innings {innings} is in {other} too; keep one"))
        for match, innings, file, other in zip(
            files["match_id"], files["innings"], files["file"], first, strict=True
        )
        if file != other
    ]


def _tables(
    frame: pd.DataFrame, infos: dict[str, InfoFile], source: Source, aside: dict[str, int]
) -> Tables:
    matches = [
        _match_row(str(match_id), rows.iloc[0], infos.get(str(match_id), NO_INFO), source)
        | {"super_overs": aside.get(str(match_id), 0)}
        for match_id, rows in frame.groupby("match_id", sort=False)
    ]
    innings = [
        _innings_row(rows.iloc[0]) for _, rows in frame.groupby(["match_id", "innings"], sort=False)
    ]
    found: set[Person] = set()
    people = _identities(frame, infos, found)
    raw: dict[str, Any] = {
        **{name: _coded(frame[name]) for name in ("match_id", "batting_team", "bowling_team")},
        "innings": frame["innings"].to_numpy(),
        "over": frame["over"].to_numpy(),
        "delivery": frame.groupby(["match_id", "innings", "over"]).cumcount().to_numpy() + 1,
        **{f"{role}_id": _coded(people[role]) for role in ("batter", "non_striker", "bowler")},
        **{name: frame[name].to_numpy(np.int16) for name in RUNS},
        **{name: frame[name].to_numpy(bool) for name in ("non_boundary", "delivered")},
    }
    return finish(raw, _wickets(frame, people), matches, innings, found)


def _coded(values: pd.Series) -> Any:
    codes = Codes()
    return codes.column([codes[str(value)] for value in values])


def _identities(
    frame: pd.DataFrame, infos: dict[str, InfoFile], found: set[Person]
) -> dict[str, pd.Series]:
    """Ids of the people on each row: a column of ids, the info file's, or name, gender and side."""
    columns = {}
    for role, side in ROLES.items():
        if role not in frame.columns:
            continue
        ids = frame.get(f"{role}_id", pd.Series("", frame.index))
        keys = [frame["match_id"], frame[role], ids, frame["gender"], frame[side]]
        rows: list[Written] = list(zip(*keys, strict=True))
        people = {row: _person(row, infos.get(str(row[0]), NO_INFO)) for row in set(rows)}
        columns[role] = pd.Series([people[row].id for row in rows], frame.index, dtype=str)
        found |= {person for person in people.values() if person.name}
    return columns


def _person(written: Written, info: InfoFile) -> Person:
    _, name, known, gender, team = written
    gender = info.match.get("gender", gender)
    identity = known or info.people.get(name)
    made = identity or without_id(name, gender, team)
    return Person(made, name, gender, team, bool(identity))


def _wickets(frame: pd.DataFrame, people: dict[str, pd.Series]) -> list[tuple[int, str, str]]:
    found = []
    for kind, player in (("dismissal", "player_out"), ("other_dismissal", "other_player_out")):
        if kind in frame.columns and player in frame.columns:
            rows = np.flatnonzero(frame[kind].to_numpy() != "")
            found += [(int(r), frame[kind].iloc[r], people[player].iloc[r]) for r in rows]
    return sorted(found)


def _match_row(match_id: str, row: pd.Series, info: InfoFile, source: Source) -> dict[str, Any]:
    given: dict[str, Any] = {str(name): value for name, value in row.items()} | info.match
    text = {name: given.get(name) or None for name in MATCH_TEXT}
    teams = sorted({row["batting_team"], row["bowling_team"]})
    limit = str(given.get("overs_limit") or "")
    return {
        **text,
        "match_type": in_words(text["match_type"] or "") or None,
        "match_id": match_id,
        "date": date.fromisoformat(row["date"]),
        "last_day": date.fromisoformat(row["date"]),  # rows have no other
        "season": str(row["season"]),
        "team_1": teams[0],
        "team_2": teams[-1],
        "margin": _margin(info.match),
        "result": given.get("result") or ("win" if text["winner"] else None),
        "overs_limit": int(limit) if limit.isdigit() else None,
        "balls_per_over": int(given.get("balls_per_over") or 6),
        "source": source.id,
        "revision": int(given.get("revision") or 1),
    }


def _margin(given: dict[str, str]) -> str | None:
    """'3 runs', as the other layout has it."""
    units = [unit for unit in ("innings", "runs", "wickets") if given.get(f"winner_{unit}")]
    sizes = [f"{given[f'winner_{unit}']} {unit}" for unit in units]
    return ", ".join(sizes) or None


def _innings_row(row: pd.Series) -> dict[str, Any]:
    return {
        "match_id": str(row["match_id"]),
        "innings": int(row["innings"]),
        "batting_team": row["batting_team"],
        "penalty_pre": 0,
        "penalty_post": 0,
        "declared": False,
        "forfeited": False,
        "miscounted_overs": 0,
    }

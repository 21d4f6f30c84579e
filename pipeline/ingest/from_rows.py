"""The layouts with a row a delivery: `delivery-csv`, and `table` with its map of columns."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd

from pipeline.config.project import Source
from pipeline.errors import Problem
from pipeline.ingest.chunk import Codes, Tables, finish
from pipeline.ingest.row_checks import numbered
from pipeline.ingest.row_files import MATCH_TEXT, RUNS, load_rows


def read_rows(source: Source) -> tuple[Tables, list[Problem]]:
    """The tables of one row-a-delivery source; bad matches are left out and named."""
    frame, infos = load_rows(source)
    problems: list[tuple[str, Problem]] = []
    for name, value in {"gender": "unknown", **source.constants}.items():
        if name not in frame.columns:
            frame[name] = value
    frame = numbered(frame, problems)
    problems += _in_two_files(frame)
    bad = {match for match, _ in problems}
    frame = frame[~frame["match_id"].isin(bad)].reset_index(drop=True)
    named = [problem for _, problem in problems]
    return _tables(frame, infos, source), named


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


def _tables(frame: pd.DataFrame, infos: dict[str, dict], source: Source) -> Tables:
    matches = [
        _match_row(match_id, rows.iloc[0], infos.get(str(match_id), {}), source)
        for match_id, rows in frame.groupby("match_id", sort=False)
    ]
    innings = [
        _innings_row(match_id, number, rows.iloc[0]["batting_team"], infos.get(str(match_id), {}))
        for (match_id, number), rows in frame.groupby(["match_id", "innings"], sort=False)
    ]
    names: dict[str, str] = {}
    people = _identities(frame, infos, names)
    raw: dict[str, Any] = {
        **{name: _coded(frame[name]) for name in ("match_id", "batting_team", "bowling_team")},
        "innings": frame["innings"].to_numpy(),
        "over": frame["over"].to_numpy(),
        "delivery": frame.groupby(["match_id", "innings", "over"]).cumcount().to_numpy() + 1,
        **{f"{role}_id": _coded(people[role]) for role in ("batter", "non_striker", "bowler")},
        **{name: frame[name].to_numpy(np.int16) for name in RUNS},
        **{name: frame[name].to_numpy(bool) for name in ("non_boundary", "delivered")},
    }
    return finish(raw, _wickets(frame, people), matches, innings, dict(sorted(names.items())))


def _coded(values: pd.Series) -> Any:
    codes = Codes()
    return codes.column([codes[str(value)] for value in values])


def _identities(
    frame: pd.DataFrame, infos: dict[str, dict], names: dict[str, str]
) -> dict[str, pd.Series]:
    """Ids of the people on each row: a column of ids, the info file's, or name and gender."""
    found = {}
    for role in ("batter", "non_striker", "bowler", "player_out", "other_player_out"):
        if role not in frame.columns:
            continue
        ids = frame.get(f"{role}_id", pd.Series("", frame.index))
        column = []
        for match, name, known, gender in zip(
            frame["match_id"], frame[role], ids, frame["gender"], strict=True
        ):
            info = infos.get(str(match), {"people": {}, "match": {}})
            gender = info["match"].get("gender", gender)
            identity = known or info["people"].get(name) or f"{name} ({gender})"
            column.append(identity)
            if name:
                names[identity] = name
        found[role] = pd.Series(column, frame.index)
    return found


def _wickets(frame: pd.DataFrame, people: dict[str, pd.Series]) -> list[tuple[int, str, str]]:
    found = []
    for kind, player in (("dismissal", "player_out"), ("other_dismissal", "other_player_out")):
        if kind in frame.columns and player in frame.columns:
            rows = np.flatnonzero(frame[kind].to_numpy() != "")
            found += [(int(r), frame[kind].iloc[r], people[player].iloc[r]) for r in rows]
    return sorted(found)


def _match_row(match_id: str, row: pd.Series, info: dict[str, Any], source: Source) -> dict:
    given = {**row.to_dict(), **info.get("match", {})}
    text = {name: given.get(name) or None for name in MATCH_TEXT}
    teams = sorted({row["batting_team"], row["bowling_team"]})
    limit = str(given.get("overs_limit") or "")
    return {
        **text,
        "match_id": str(match_id),
        "date": pd.Timestamp(row["date"]).date(),
        "season": str(row["season"]),
        "team_1": teams[0],
        "team_2": teams[-1],
        "result": given.get("result") or ("win" if text["winner"] else None),
        "overs_limit": int(limit) if limit.isdigit() else None,
        "balls_per_over": int(given.get("balls_per_over") or 6),
        "source": source.id,
        "revision": int(given.get("revision") or 1),
        "super_overs": 0,
    }


def _innings_row(match_id: str, number: int, team: str, info: dict[str, Any]) -> dict[str, Any]:
    return {
        "match_id": str(match_id),
        "innings": int(number),
        "batting_team": team,
        "penalty_pre": 0,
        "penalty_post": 0,
        "declared": False,
        "forfeited": False,
        "miscounted_overs": 0,
    }

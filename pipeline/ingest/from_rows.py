"""The layouts with a row a delivery: `delivery-csv`, and `table` with its map of column names."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from pipeline.config.project import Source
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.ingest.chunk import Codes, Tables, finish
from pipeline.ingest.files import list_members, read_members
from pipeline.ingest.info_csv import parse_info
from pipeline.ingest.laws import KINDS

# The layout's names -> ours. `ball` is text: read as a number, "0.10" would collide with "0.1".
DELIVERY_CSV = {
    "start_date": "date",
    "striker": "batter",
    "runs_off_bat": "runs_batter",
    "wicket_type": "dismissal",
    "player_dismissed": "player_out",
    "other_wicket_type": "other_dismissal",
    "other_player_dismissed": "other_player_out",
}
NEEDED = (
    *("match_id", "date", "season", "innings", "batting_team", "bowling_team"),
    *("batter", "non_striker", "bowler", "runs_batter"),
)
RUNS = ("runs_batter", "wides", "noballs", "byes", "legbyes", "penalty")
MATCH_TEXT = ("competition", "match_type", "gender", "team_type", "venue", "city", "winner")
OPTIONAL = (
    *("over", "ball", "extras", *RUNS[1:], "non_boundary", "delivered", *MATCH_TEXT),
    *("dismissal", "player_out", "other_dismissal", "other_player_out"),
    *("batter_id", "non_striker_id", "bowler_id", "player_out_id", "overs_limit", "revision"),
)


def read_rows(source: Source) -> tuple[Tables, list[Problem]]:
    """The tables of one row-a-delivery source; bad matches are left out and named."""
    frame, infos, problems = _load(source)
    for name, value in {"gender": "unknown", **source.constants}.items():
        if name not in frame.columns:
            frame[name] = value
    frame = _numbered(frame, problems)
    bad = {match for match, _ in problems}
    frame = frame[~frame["match_id"].isin(bad)].reset_index(drop=True)
    named = [problem for _, problem in problems]
    return _tables(frame, infos, source), named


def _load(source: Source) -> tuple[pd.DataFrame, dict[str, dict], list[tuple[str, Problem]]]:
    """All rows as text, with the file and line of each."""
    path = Path(source.path)
    if path.suffix == ".parquet":
        frame = pd.read_parquet(path).astype(str).replace({"None": "", "nan": "", "<NA>": ""})
        return _renamed(frame, source, str(path)), {}, []
    frames, infos = [], {}
    for name, data in read_members(path, list_members(path, ".csv")):
        file = f"{path}/{name}" if path.name != name else str(path)
        if isinstance(data, str):
            raise UserError(Problem(file, data))
        if name.endswith("_info.csv"):
            infos[Path(name).stem.removesuffix("_info")] = parse_info(data, file)
        else:
            frames.append(_renamed(_read_csv(data, file), source, file))
    if not frames:
        raise UserError(Problem(str(path), "no file with deliveries in it (only info files)"))
    return pd.concat(frames, ignore_index=True).fillna(""), infos, []


def _read_csv(data: bytes, file: str) -> pd.DataFrame:
    try:
        text = data.decode("utf-8-sig")
        return pd.read_csv(io.StringIO(text), dtype=str, keep_default_na=False)
    except UnicodeDecodeError as error:
        raise UserError(Problem(file, f"not UTF-8 text (byte {error.start})")) from None
    except (pd.errors.ParserError, pd.errors.EmptyDataError) as error:
        raise UserError(Problem(file, f"not a readable CSV: {error}")) from None


def _renamed(frame: pd.DataFrame, source: Source, file: str) -> pd.DataFrame:
    """Our column names; a header that lacks what is needed is an error that says what it has."""
    names = DELIVERY_CSV
    if source.columns is not None:
        wrong = [name for name in source.columns if name not in (*NEEDED, *OPTIONAL)]
        if wrong:
            hint = did_you_mean(wrong[0], (*NEEDED, *OPTIONAL))
            raise UserError(Problem(file, f"sources.yaml: columns: no column '{wrong[0]}'{hint}"))
        names = {theirs: ours for ours, theirs in source.columns.items()}
    there = list(frame.columns)
    frame = frame.rename(columns=names)
    missing = [name for name in NEEDED if name not in frame.columns]
    if not {"over", "ball"} & set(frame.columns):
        missing.append("over (or ball)")
    if missing:
        message = f"wrong header: nothing for {', '.join(missing)}; it has {', '.join(there)}"
        raise UserError(Problem(file, message, 1, 1))
    frame = frame[[name for name in (*NEEDED, *OPTIONAL) if name in frame.columns]].copy()
    frame["file"], frame["line"] = file, np.arange(2, len(frame) + 2)
    return frame


def _numbered(frame: pd.DataFrame, problems: list[tuple[str, Problem]]) -> pd.DataFrame:
    """Counts as whole numbers; blank means 0. Each value that is none is named with its line."""
    for name in RUNS:
        frame[name] = _whole(frame, name, problems) if name in frame.columns else 0
    for name in ("non_boundary", "delivered"):
        default = "1" if name == "delivered" else "0"
        values = frame[name].replace("", default) if name in frame.columns else default
        words = {"true": "1", "false": "0"}
        frame[name] = pd.Series(values, frame.index).str.lower().replace(words).eq("1")
    frame["innings"] = _whole(frame, "innings", problems)
    if "over" in frame.columns:
        frame["over"] = _whole(frame, "over", problems)
    else:
        frame["over"] = _whole(frame, "ball", problems, first_part=True) + 1
    if "extras" in frame.columns:
        parts = frame[list(RUNS[1:])].sum(axis=1)
        recorded = _whole(frame, "extras", problems)
        _report(frame, parts != recorded, "the kinds of extras don't add up to extras", problems)
    for name in ("dismissal", "other_dismissal"):
        if name in frame.columns:
            unknown = ~frame[name].isin([*KINDS, ""])
            _report(frame, unknown, "unknown kind of dismissal '{" + name + "}'", problems)
    dates = pd.to_datetime(frame["date"], format="%Y-%m-%d", errors="coerce")
    _report(frame, dates.isna(), "'{date}' is no date; expected YYYY-MM-DD", problems)
    return frame


def _whole(
    frame: pd.DataFrame, name: str, problems: list[tuple[str, Problem]], first_part: bool = False
) -> pd.Series:
    text = frame[name].astype(str).str.strip().replace("", "0")
    if first_part:
        text = text.str.split(".").str[0]
    valid = text.str.fullmatch(r"\d{1,3}(\.0)?")
    _report(frame, ~valid, "'{" + name + "}' is no count for " + name, problems)
    return text.where(valid, "0").str.removesuffix(".0").astype(int)


def _report(
    frame: pd.DataFrame, wrong: pd.Series, message: str, problems: list[tuple[str, Problem]]
) -> None:
    for row in frame[wrong].to_dict("records"):
        problem = Problem(row["file"], message.format(**row), row["line"], 1)
        problems.append((row["match_id"], problem))


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

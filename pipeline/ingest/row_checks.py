"""Rows of text into counts and dates; each value that is none is named with its line."""

from __future__ import annotations

import pandas as pd

from pipeline.errors import Problem
from pipeline.ingest.laws import KINDS
from pipeline.ingest.row_files import NEEDED, RUNS


def numbered(frame: pd.DataFrame, problems: list[tuple[str, Problem]]) -> pd.DataFrame:
    """Counts as whole numbers; blank means 0. Each value that is none is named with its line."""
    _check_present(frame, problems)
    for name in RUNS:
        frame[name] = _whole(frame, name, problems) if name in frame.columns else 0
    for name in ("non_boundary", "delivered", "super_over"):
        frame[name] = _flag(frame, name, "1" if name == "delivered" else "0", problems)
    for name in ("revision", "overs_limit"):
        if name in frame.columns:
            frame[name] = _whole(frame, name, problems)
    frame["innings"] = _whole(frame, "innings", problems)
    if "over" in frame.columns:
        frame["over"] = _whole(frame, "over", problems)
        _report(frame, frame["over"] < 1, "over {over}: the first over is 1", problems)
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
    text = frame["date"].astype(str)
    dates = pd.to_datetime(text, format="%Y-%m-%d", errors="coerce")
    wrong = dates.isna() | ~text.str.fullmatch(r"\d{4}-\d\d-\d\d")
    _report(frame, wrong, "'{date}' is no date; expected YYYY-MM-DD", problems)
    return frame


def _check_present(frame: pd.DataFrame, problems: list[tuple[str, Problem]]) -> None:
    """Blank runs are 0, but a blank innings is no innings 0, nor a blank name a player's."""
    for name in (*NEEDED, "over", "ball"):
        if name in frame.columns and name not in ("runs_batter", "date"):
            _report(frame, frame[name].str.strip() == "", f"{name} is blank", problems)
    for kind, player in (("dismissal", "player_out"), ("other_dismissal", "other_player_out")):
        if kind in frame.columns:
            nobody = (frame[kind] != "") & (frame[player] == "")
            _report(frame, nobody, f"a {kind}, but {player} is blank", problems)


def _flag(
    frame: pd.DataFrame, name: str, default: str, problems: list[tuple[str, Problem]]
) -> pd.Series:
    text = frame[name] if name in frame.columns else pd.Series(default, frame.index)
    words = {"": default, "true": "1", "false": "0"}
    text = text.str.strip().str.lower().replace(words).str.removesuffix(".0")
    _report(frame, ~text.isin(["0", "1"]), "'{" + name + "}' is neither 0 nor 1: " + name, problems)
    return text.eq("1")


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
        problem = Problem(row["file"], message.format_map(row), row["line"], 1)
        problems.append((row["match_id"], problem))

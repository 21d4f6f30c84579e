"""Rows of text into counts and dates; each kind of mistake is named with its first line."""

from __future__ import annotations

from dataclasses import dataclass, field

import pandas as pd

from pipeline.errors import Problem
from pipeline.ingest.laws import KINDS
from pipeline.ingest.limits import MOST_DELIVERIES, MOST_INNINGS, MOST_PEOPLE
from pipeline.ingest.row_names import NEEDED, OUTS, RUNS
from pipeline.text import listed

TOLD = 5  # the most matches that one line names
LONGEST = 60  # characters of a cell that a line repeats


@dataclass
class Bad:
    """What is wrong in a source's files, and the matches that are left out for it."""

    problems: list[Problem] = field(default_factory=list)
    matches: set[str] = field(default_factory=set)

    def rows(self, frame: pd.DataFrame, wrong: pd.Series, message: str) -> None:
        """One problem a file for the rows that are wrong; braces stand for the first's cells."""
        if not wrong.any():
            return
        found = frame[wrong]
        self.matches |= set(found["match_id"])
        for file, alike in found.groupby("file", sort=False):
            first = {str(name): _short(value) for name, value in alike.iloc[0].items()}
            told = message.format_map(first) + _like_it(alike)
            self.problems.append(Problem(str(file), told, int(alike["line"].iloc[0]), 1))


def _short(value: object) -> str:
    text = str(value)
    return text if len(text) <= LONGEST else f"{text[:LONGEST]}…"


def _like_it(alike: pd.DataFrame) -> str:
    """'; 3 more rows like it, in matches a and b'."""
    more = len(alike) - 1
    names = [_short(name) for name in alike["match_id"].unique() if name.strip()]
    if not more:
        return ""
    others = [f"{len(names) - TOLD:,} more"] if len(names) > TOLD else []
    of = f", in matches {listed([*names[:TOLD], *others])}" if len(names) > 1 else ""
    return f"; {more:,} more row{'s' if more > 1 else ''} like it{of}"


def numbered(frame: pd.DataFrame, bad: Bad) -> pd.DataFrame:
    """Counts as whole numbers; blank means 0. Values that are none are named with their line."""
    _check_present(frame, bad)
    for name in RUNS:
        frame[name] = _whole(frame, name, bad) if name in frame.columns else 0
    for name in ("non_boundary", "delivered", "super_over"):
        frame[name] = _flag(frame, name, "1" if name == "delivered" else "0", bad)
    for name in ("revision", "overs_limit"):
        if name in frame.columns:
            frame[name] = _whole(frame, name, bad)
    frame["innings"] = _whole(frame, "innings", bad)
    if "over" in frame.columns:
        frame["over"] = _whole(frame, "over", bad)
        bad.rows(frame, frame["over"] < 1, "over {over}: the first over is 1")
    else:
        frame["over"] = _whole(frame, "ball", bad, first_part=True) + 1
    if "extras" in frame.columns:
        parts = frame[list(RUNS[1:])].sum(axis=1)
        recorded = _whole(frame, "extras", bad)
        bad.rows(frame, parts != recorded, "the kinds of extras don't add up to extras")
    for name in OUTS:
        if name in frame.columns:
            unknown = ~frame[name].isin([*KINDS, ""])
            bad.rows(frame, unknown, "unknown kind of dismissal '{" + name + "}'")
    _check_dates(frame, bad)
    _check_sizes(frame, bad)
    return frame


def _check_dates(frame: pd.DataFrame, bad: Bad) -> None:
    text = frame["date"].astype(str)
    dates = pd.to_datetime(text, format="%Y-%m-%d", errors="coerce")
    shaped = text.str.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}") & ~text.str.startswith("0000")
    wrong = dates.isna() | ~shaped
    bad.rows(frame, wrong, "'{date}' is no date; expected YYYY-MM-DD")


def _check_sizes(frame: pd.DataFrame, bad: Bad) -> None:
    """No match is larger than our columns have room for."""
    beyond = ~frame["innings"].between(1, MOST_INNINGS)
    bad.rows(frame, beyond, f"innings {{innings}}: expected 1 to {MOST_INNINGS}")
    over = frame.groupby(["match_id", "innings", "over"])["line"].transform("size")
    bad.rows(
        frame, over > MOST_DELIVERIES, f"more than {MOST_DELIVERIES} deliveries in over {{over}}"
    )
    names = [n for n in ("match_id", "batting_team", "gender") if n in frame.columns]
    count = pd.Series(0, frame["match_id"].unique())
    for role in ("batter", "non_striker"):
        of_role = [name for name in (role, f"{role}_id") if name in frame.columns]
        people = frame[[*names, *of_role]].drop_duplicates()
        count = count.add(people.groupby("match_id").size(), fill_value=0)
    crowded = frame["match_id"].isin(count.index[count > MOST_PEOPLE])
    bad.rows(frame, crowded, f"more than {MOST_PEOPLE} people at the two ends in one match")


def _check_present(frame: pd.DataFrame, bad: Bad) -> None:
    """Blank runs are 0, but a blank innings is no innings 0, nor a blank name a player's."""
    for name in (*NEEDED, "over", "ball"):
        if name in frame.columns and name not in ("runs_batter", "date"):
            bad.rows(frame, frame[name].str.strip() == "", f"{name} is blank")
    for kind, player in OUTS.items():
        if kind in frame.columns:
            nobody = (frame[kind] != "") & (frame[player] == "")
            bad.rows(frame, nobody, f"a {kind}, but {player} is blank")


def _flag(frame: pd.DataFrame, name: str, default: str, bad: Bad) -> pd.Series:
    text = frame[name] if name in frame.columns else pd.Series(default, frame.index)
    words = {"": default, "true": "1", "false": "0"}
    text = text.str.strip().str.lower().replace(words).str.removesuffix(".0")
    bad.rows(frame, ~text.isin(["0", "1"]), "'{" + name + "}' is neither 0 nor 1: " + name)
    return text.eq("1")


def _whole(frame: pd.DataFrame, name: str, bad: Bad, first_part: bool = False) -> pd.Series:
    text = frame[name].astype(str).str.strip().replace("", "0")
    if first_part:
        text = text.str.split(".").str[0]
    valid = text.str.fullmatch(r"[0-9]{1,3}(\.0)?")
    bad.rows(frame, ~valid, "'{" + name + "}' is no count for " + name)
    return text.where(valid, "0").str.removesuffix(".0").astype(int)

"""Files with a row a delivery, read as text under our own column names."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pandas as pd

from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.ingest.info_csv import InfoFile, decoded, parse_info
from pipeline.ingest.members import list_members, read_members

if TYPE_CHECKING:
    from pipeline.config.project import Source

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
MATCH_TEXT = (
    *("competition", "match_type", "gender", "team_type", "venue", "city", "winner", "method"),
    *("toss_winner", "toss_decision"),
)
OPTIONAL = (
    *("over", "ball", "extras", *RUNS[1:], "non_boundary", "delivered", "super_over", *MATCH_TEXT),
    *("dismissal", "player_out", "other_dismissal", "other_player_out"),
    *("batter_id", "non_striker_id", "bowler_id", "player_out_id", "overs_limit", "revision"),
)


class Rows(NamedTuple):
    """All rows as text with the file and line of each, the info files by match, the bad files."""

    frame: pd.DataFrame
    infos: dict[str, InfoFile]
    problems: list[tuple[str, Problem]]


def load_rows(source: Source) -> Rows:
    """Every file of the source; one that can't be read is a problem, and its match is left out."""
    path = Path(source.path)
    if path.suffix == ".parquet":
        return Rows(_renamed(_read_parquet(path), source, str(path)), {}, [])
    frames: list[pd.DataFrame] = []
    infos: dict[str, InfoFile] = {}
    names, refused = list_members(path, ".csv")
    problems = [("", problem) for problem in refused]
    for name, data in read_members(path, names):
        file = f"{path}/{name}" if path.name != name else str(path)
        match = Path(name).stem.removesuffix("_info")
        try:
            if isinstance(data, str):
                raise UserError(Problem(file, data))
            if name.endswith("_info.csv"):
                infos[match] = parse_info(data, file)
            else:
                frames.append(_renamed(_read_csv(data, file), source, file))
        except UserError as error:
            problems += [(match, problem) for problem in error.problems]
    if not frames:
        empty = Problem(str(path), "no readable file with deliveries in it")
        raise UserError([*(problem for _, problem in problems), empty])
    return Rows(pd.concat(frames, ignore_index=True).fillna(""), infos, problems)


def _read_csv(data: bytes, file: str) -> pd.DataFrame:
    try:
        return pd.read_csv(io.StringIO(decoded(data, file)), dtype=str, keep_default_na=False)
    except (pd.errors.ParserError, pd.errors.EmptyDataError) as error:
        raise UserError(Problem(file, f"not a readable CSV: {error}")) from None


def _read_parquet(path: Path) -> pd.DataFrame:
    try:
        frame = pd.read_parquet(path)
    except (OSError, ValueError) as error:
        raise UserError(Problem(str(path), f"not a Parquet table: {error}")) from None
    return frame.astype(str).replace({"None": "", "nan": "", "<NA>": ""})


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
    for kind, player in (("dismissal", "player_out"), ("other_dismissal", "other_player_out")):
        if kind in frame.columns and player not in frame.columns:
            missing.append(f"{player} (which {kind} needs)")
    if missing:
        message = f"wrong header: nothing for {', '.join(missing)}; it has {', '.join(there)}"
        raise UserError(Problem(file, message, 1, 1))
    frame = frame[[name for name in (*NEEDED, *OPTIONAL) if name in frame.columns]].copy()
    frame["file"], frame["line"] = file, np.arange(2, len(frame) + 2)
    return frame

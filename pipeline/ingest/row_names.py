"""Our names of what a row holds, and which of a file's columns is each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import TYPE_CHECKING

from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.ingest.other_forms import not_apart
from pipeline.open_layouts.delivery_csv import COLUMNS, COLUMNS_UNUSED, FIELDERS

if TYPE_CHECKING:
    from pipeline.config.project import Source

NEEDED = (
    *("match_id", "date", "season", "innings", "batting_team", "bowling_team"),
    *("batter", "non_striker", "bowler", "runs_batter"),
)
RUNS = ("runs_batter", "wides", "noballs", "byes", "legbyes", "penalty")
MATCH_TEXT = (
    *("competition", "match_type", "gender", "team_type", "venue", "city", "winner", "method"),
    *("toss_winner", "toss_decision", "margin", "result"),
)
MATCH_NUMBERS = {"overs_limit": 999, "balls_per_over": 99, "revision": 999_999}
# What may be said of an innings: on its rows, or in a table beside them.
INNINGS_NUMBERS = {"target_runs": 9_999, "penalty_pre": 999, "penalty_post": 999}
INNINGS_FLAGS = ("declared", "forfeited", "super_over")
OF_INNINGS = (*INNINGS_NUMBERS, "target_overs", *INNINGS_FLAGS)
OPTIONAL = (
    *("over", "ball", "extras", *RUNS[1:], "non_boundary", "delivered", *OF_INNINGS, *MATCH_TEXT),
    *("dismissal", "player_out", "other_dismissal", "other_player_out"),
    *("batter_id", "non_striker_id", "bowler_id", "player_out_id", "other_player_out_id"),
    *MATCH_NUMBERS,
    *("delivery", "extra_kind"),
)
CONSTANTS = (*NEEDED, *OPTIONAL)  # what sources.yaml may say of all rows
OUTS = {"dismissal": "player_out", "other_dismissal": "other_player_out"}
MOST_COLUMNS = 1_000
TOLD = 40  # the most columns that a message lists


def picked(header: list[str], file: str, source: Source) -> dict[str, int]:
    """Our names -> places in the header.

    A name that sources.yaml maps is of that column alone, whatever else the file calls so. A header
    that lacks what is needed is an error that says what it has.
    """
    if len(header) > MOST_COLUMNS:
        message = f"{len(header):,} columns; the most is {MOST_COLUMNS:,}: is it the right file?"
        raise UserError(Problem(file, message, 1, 1))
    theirs = _named(header, source, file)
    _check_kinds({ours for ours, name in theirs.items() if name in header}, file)
    missing = _missing({ours for ours, name in theirs.items() if name in header}, source)
    if missing and (apart := not_apart(header, source.written.delimiter, source.layout == "table")):
        raise UserError(Problem(file, apart, 1, 1))
    if missing:
        told = [*header[:TOLD], *([f"{len(header) - TOLD} more"] if len(header) > TOLD else [])]
        message = f"wrong header: nothing for {', '.join(missing)}; it has {', '.join(told)}"
        raise UserError(Problem(file, message, 1, 1))
    there = {ours: name for ours, name in theirs.items() if name in header}
    twice = [name for name in there.values() if header.count(name) > 1]
    if twice:
        message = f"wrong header: column '{twice[0]}' stands twice; keep one of the two"
        raise UserError(Problem(file, message, 1, 1))
    return {ours: header.index(name) for ours, name in there.items()}


def strays(headers: Iterable[tuple[str, ...]], source: Source) -> Counter[str]:
    """Columns of files that are neither ours nor the layout's, by their names; of a table none."""
    if source.layout == "table":
        return Counter()
    known = {*NEEDED, *OPTIONAL, *COLUMNS.values(), *COLUMNS_UNUSED, ""}
    names = (name for header in headers for name in header)
    return Counter(name for name in names if name not in known and not name.startswith(FIELDERS))


def _named(header: list[str], source: Source, file: str) -> dict[str, str]:
    """Our names -> the names of the file's columns, whether they are there or not."""
    known = (*NEEDED, *OPTIONAL)
    if source.columns is None:
        given = {ours: name for ours, name in COLUMNS.items() if name in header}
    else:
        given = source.columns
        wrong = [name for name in given if name not in known]
        if wrong:
            hint = did_you_mean(wrong[0], known)
            raise UserError(Problem(file, f"sources.yaml: columns: no column '{wrong[0]}'{hint}"))
    return {ours: given.get(ours, ours) for ours in known}


def _check_kinds(there: set[str], file: str) -> None:
    """Extras are told by their kind, or in a column a kind; both might not agree."""
    kinds = [name for name in RUNS[1:] if name in there]
    if "extra_kind" in there and kinds:
        message = f"columns: extra_kind and {kinds[0]} say the same of a ball; take one of the two"
        raise UserError(Problem(file, message, 1, 1))


def _missing(there: set[str], source: Source) -> list[str]:
    """What is needed, or mapped, and not there."""
    mapped = source.columns or {}
    needed = dict.fromkeys([*NEEDED, *mapped])
    given = {*source.constants, *(["season"] if source.written.season else [])} - {"match_id"}
    missing = [
        f"{name} ('{mapped[name]}')" if mapped.get(name, name) != name else name
        for name in needed
        if name not in there and (name in mapped or name not in given)
    ]
    if not {"over", "ball"} & there:
        missing.append("over (or ball)")
    if "extra_kind" in there and "extras" not in there:
        missing.append("extras (which extra_kind needs)")
    missing += [
        f"{player} (which {kind} needs)"
        for kind, player in OUTS.items()
        if kind in there and player not in there
    ]
    return missing


def check_constants(source: Source) -> None:
    """Those of sources.yaml are of names that we have, and of balls an over there is a number."""
    for name, value in source.constants.items():
        place = f"sources.yaml: source '{source.id}': constants"
        if name not in CONSTANTS:
            hint = did_you_mean(name, CONSTANTS)
            raise UserError(Problem(source.path, f"{place}: nothing is called '{name}'{hint}"))
        if name == "balls_per_over" and value not in map(str, range(1, 100)):
            message = f"{place}: '{value}' is no count for {name}; expected 1 to 99"
            raise UserError(Problem(source.path, message))

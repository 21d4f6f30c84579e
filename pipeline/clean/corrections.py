"""corrections.csv: every fix with its reason, applied only where the data still say `old`.

What a line mends follows from the places it fills: match, innings, over and delivery (and who was
out, for one of its dismissals); match and innings; match; player; or venue.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from pipeline.clean.ball_cell import COUNTS, FELL, FLAGS, NAMES, read_ball
from pipeline.clean.ball_cell import MOST as MOST_COUNT
from pipeline.clean.identities import GENDERS
from pipeline.contracts.selection import Fix
from pipeline.csv_files import Row, once_each, read_sheet
from pipeline.errors import Problem, UserError, did_you_mean

PLACES = ("match", "innings", "over", "delivery", "player_out", "player", "venue")
NEEDED = (
    *("match", "innings", "over", "delivery", "field", "old", "new"),
    *("reason", "source", "by", "date"),
)
OPTIONAL = ("player", "venue", "player_out")
# The places a line may fill, and what such a line mends.
LEVELS = {
    ("match", "innings", "over", "delivery"): "delivery",
    ("match", "innings", "over", "delivery", "player_out"): "wicket",
    ("match", "innings"): "innings",
    ("match",): "match",
    ("player",): "player",
    ("venue",): "ground",
}
BALL = "delivery"  # the field of a delivery that is put in (old is blank) or taken out (new is)
FIELDS = {
    "delivery": (BALL, *NAMES),
    "wicket": FELL,
    "innings": ("target_runs", "target_overs", "penalty_pre", "penalty_post"),
    "match": (
        *("date", "season", "competition", "match_type", "gender", "team_type", "venue", "city"),
        *("toss_winner", "toss_decision", "winner", "margin", "method", "result"),
        *("overs_limit", "balls_per_over", "target"),
    ),
    "player": ("name", "batting_hand", "bowling_style", "tags"),
    "ground": ("ground", "city", "country", "region"),
}
WHOLE = {*COUNTS, *FLAGS, "target_runs", "penalty_pre", "penalty_post"} | {
    *("overs_limit", "balls_per_over", "target")
}
# The most that a count may be, as in the layouts of match files; of others, three digits.
MOST = {
    **dict.fromkeys(FLAGS, 1),
    **dict.fromkeys(COUNTS, MOST_COUNT),
    **{"target": 9999, "target_runs": 9999, "balls_per_over": 99},
}
NOT_BLANK = ("season", "match_type", "balls_per_over")
NUMBERS = ("innings", "over", "delivery")  # of the places
AS_OLD = "drop the line, or write as its old: "  # before a whole delivery, which no cut may take
DIGITS = 4  # of a number that places a line: no innings, over or delivery has more


@dataclass(frozen=True)
class Correction:
    """One line of the file; `place` holds the filled places only."""

    file: str
    line: int
    level: str
    place: dict[str, str]
    field: str
    old: str
    new: str
    reason: str
    source: str
    by: str
    date: str

    def problem(self, message: str) -> Problem:
        said, mend, value = message.partition(f"; {AS_OLD}")
        cure = f"{AS_OLD}{value}" if mend else ""
        return Problem(self.file, said, self.line, 1, cure=cure)

    def where(self) -> str:
        """'match m1, innings 1, over 3, delivery 2'."""
        return ", ".join(f"{name} {value}" for name, value in self.place.items())

    def record(self) -> Fix:
        """As written to quality.json and the briefs."""
        return Fix(
            level=self.level,
            place=self.place,
            field=self.field,
            old=self.old,
            new=self.new,
            reason=self.reason,
            source=self.source,
            by=self.by,
            date=date.fromisoformat(self.date),
        )


def read_corrections(path: str | None) -> list[Correction]:
    """Every line, or every mistake in the file at once."""
    found, problems = [], []
    for line, row in read_sheet(path, NEEDED, OPTIONAL):
        made, wrong = _correction(str(path), line, row)
        problems += [Problem(str(path), message, line, 1) for message in wrong]
        if made:
            found.append(made)
    if problems:
        raise UserError(once_each(problems))
    return found


def _correction(file: str, line: int, row: Row) -> tuple[Correction | None, list[str]]:
    place = {name: row[name] for name in PLACES if row[name]}
    level = LEVELS.get(tuple(place))
    if level is None:
        filled = ", ".join(place) or "nothing"
        message = "fill match, innings, over and delivery (and player_out); or match and innings; "
        return None, [f"the place is unclear ({filled}): {message}or match; or player; or venue"]
    wrong = []
    for name in NUMBERS:
        if name in place and not _is_count(place[name], 10**DIGITS - 1):
            wrong.append(f"{name} '{_short(place[name])}' is no number (the first is 1)")
    if row["field"] not in FIELDS[level]:
        wrong.append(
            f"no {level} field '{row['field']}'{did_you_mean(row['field'], FIELDS[level])}"
        )
    elif row["field"] == BALL:
        wrong += _of_a_ball(row["old"], row["new"])
    elif row["field"] in WHOLE and row["new"] and not _is_count(row["new"], _most(row["field"])):
        most = f"expected 0 to {_most(row['field'])}"
        wrong.append(f"new '{_short(row['new'])}' is no count for {row['field']}; {most}")
    elif row["field"] == "gender" and row["new"] not in (*GENDERS, ""):
        wrong.append(f"new '{_short(row['new'])}': expected female, male or unknown")
    elif row["field"] in NOT_BLANK and row["new"] in ("", "0"):
        wrong.append(f"new '{row['new']}': no match is without its {row['field']}")
    if row["old"] == row["new"]:
        wrong.append("old and new are the same; drop the line")
    wrong += [f"{name} is blank" for name in ("reason", "source", "by") if not row[name]]
    for name in ["date"] + (["new"] if row["field"] == "date" else []):
        try:
            date.fromisoformat(row[name])
        except ValueError:
            wrong.append(f"{name} '{row[name]}' is no date; write YYYY-MM-DD")
    if wrong:
        return None, wrong
    place |= {name: str(int(place[name])) for name in NUMBERS if name in place}
    rest = {name: row[name] for name in ("field", "old", "new", "reason", "source", "by", "date")}
    return Correction(file, line, level, place, **rest), []


def _of_a_ball(old: str, new: str) -> list[str]:
    """Of a delivery one of the two is blank, the other the whole of it."""
    if old and new:
        both = "leave old blank to put a delivery in, new to take one out; or name another field"
        return [f"old and new are both filled: {both}"]
    return read_ball(old or new)[1] if old or new else []


def _is_count(text: str, most: int) -> bool:
    return text.isascii() and text.isdecimal() and len(text) <= DIGITS and int(text) <= most


def _most(field: str) -> int:
    return MOST.get(field, 999)


def _short(text: str) -> str:
    return text if len(text) <= 20 else f"{text[:20]}…"


def apply(
    corrections: list[Correction],
    find: Callable[[Correction], dict[str, Any] | None],
    missing: Callable[[Correction], str],
    change: Callable[[dict[str, Any], Correction], None],
) -> None:
    """Set each field where the data still say `old`; other lines are errors.

    `find` gives the row that a line names (or None), `missing` says why there is none, and `change`
    sets the value.
    """
    problems = []
    for correction in corrections:
        row = find(correction)
        if row is None:
            problems.append(correction.problem(missing(correction)))
            continue
        says = shown(row[correction.field])
        if says != correction.old:
            message = f"{correction.where()}: {no_longer(correction, says)}"
            problems.append(correction.problem(message))
            continue
        change(row, correction)
    if problems:
        raise UserError(problems)


def no_longer(correction: Correction, says: str) -> str:
    """Where `old` does not hold: what the data say instead."""
    return (
        f"{correction.field} is '{says}' in the data, not '{correction.old}'; "
        "this fix no longer applies: mend its old, or drop the line"
    )


def shown(value: Any) -> str:
    """A value as the file writes it: blank for none, 1 and 0 for yes and no."""
    if value is None:
        return ""
    return str(int(value)) if isinstance(value, bool) else str(value)


def typed(field: str, text: str) -> Any:
    """The file's text as the table's value."""
    if field in FLAGS:
        return text == "1"
    if field in COUNTS or field.startswith("penalty_"):
        return int(text or 0)
    if field in WHOLE:
        return int(text) if text else None
    if field == "date":
        return date.fromisoformat(text)
    return text or None

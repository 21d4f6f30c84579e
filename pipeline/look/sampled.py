"""What a column's cells say of it: could it be one of ours, and how is it written."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from functools import cached_property

from pipeline.date_forms import ISO, LIKELY, day_of
from pipeline.look.trade_words import BLANK, CODES, heard

MOST = 1_000  # distinct cells that are asked
YES, MAY, NO = 1.0, 0.5, 0.0
FORMS = (ISO, *LIKELY)
COUNTS = {
    "runs_batter": 12,
    **dict.fromkeys(("wides", "noballs", "byes", "legbyes", "penalty", "extras"), 12),
    **{"runs_total": 20, "overs_limit": 999, "revision": 99, "over": 999, "delivery": 10**12},
}
FLAGS = ("super_over", "non_boundary")
NAMED = ("batter", "non_striker", "bowler", "player_out", "other_player_out")
FEW = {
    "batting_team": 200,
    "bowling_team": 200,
    "match_type": 30,
    "team_type": 10,
    "toss_decision": 6,
}
CODED = ("dismissal", "other_dismissal", "extra_kind", "gender")
EXTRAS = ("wides", "noballs", "byes", "legbyes", "penalty")
ENOUGH = 12  # rows of which it can be said how many have an extra
_SEASON = re.compile(r"(1[789]|20)\d\d([/-](\d\d)?\d\d)?")
_WHOLE = re.compile(r"[0-9]+(\.0+)?")


@dataclass(frozen=True)
class Column:
    """A column of the head: its name, and its cells as text in the order of the rows."""

    name: str
    cells: list[str]

    @cached_property
    def distinct(self) -> list[str]:
        """Cells that say something, each once, the most frequent first; not all of very many."""
        counts = Counter(cell.strip() for cell in self.cells)
        return [c for c, _ in counts.most_common(MOST) if c and c not in BLANK]

    @cached_property
    def blank_words(self) -> list[str]:
        """Words that stand for nothing."""
        return sorted({cell.strip() for cell in set(self.cells)} & BLANK)

    @cached_property
    def whole(self) -> bool:
        """Whether all that it says are whole numbers."""
        return all(_WHOLE.fullmatch(cell) for cell in self.distinct)

    @cached_property
    def decimals(self) -> bool:
        """Whether they are overs and balls: 0.1, 12.4."""
        return all(re.fullmatch(r"[0-9]{1,3}[.,][0-9]{1,2}", cell) for cell in self.distinct)


def said_by_cells(ours: str, column: Column) -> float:
    """YES where the cells speak for it, MAY where they could be, NO where they can't."""
    if not column.distinct:
        return MAY if ours not in ("match_id", "date", "innings", "over", "batter") else NO
    if ours in CODED:
        return _coded(ours, column)
    if ours in COUNTS:
        return _counts(ours, column)
    if ours == "date":
        return YES if date_forms(column) else NO
    if ours == "ball":
        return YES if column.decimals else NO
    if ours == "innings":
        known = all(heard(cell) in CODES["innings"] for cell in column.distinct if not column.whole)
        return YES if known and len(column.distinct) <= 10 else NO
    if ours in FLAGS:
        return YES if {c.lower() for c in column.distinct} <= {"0", "1", "true", "false"} else NO
    if ours == "match_id":
        return NO if date_forms(column) else MAY
    if ours in NAMED:
        return MAY if not column.whole and not date_forms(column) and not column.decimals else NO
    if ours in FEW:
        return MAY if not column.whole and len(column.distinct) <= FEW[ours] else NO
    if ours == "season":
        return YES if all(_SEASON.fullmatch(cell) for cell in column.distinct) else NO
    if ours.endswith("_id"):
        return MAY
    return NO if column.whole else MAY


def _coded(ours: str, column: Column) -> float:
    """Half of its words being the trade's is enough: codes of one's own stand beside them."""
    codes = CODES[ours]
    words = [codes.get(heard(cell)) for cell in column.distinct]
    known = [word for word in words if word]
    if column.whole or len(column.distinct) > 60 or not known:
        return NO
    longer = any(len(heard(cell)) > 2 and codes.get(heard(cell)) for cell in column.distinct)
    if 2 * len(known) >= len([word for word in words if word != ""]):
        return YES if longer else MAY
    return NO


def _counts(ours: str, column: Column) -> float:
    if not column.whole or (ours in EXTRAS and _mostly_some(column)):
        return NO
    return YES if max(int(float(cell)) for cell in column.distinct) <= COUNTS[ours] else NO


def _mostly_some(column: Column) -> bool:
    """Whether most rows say a number above nought: extras are few, the number of a ball is not."""
    some = sum(bool(cell.strip(" 0.")) for cell in column.cells)
    return len(column.cells) >= ENOUGH and 2 * some > len(column.cells)


SWAPPED = "YYYY-DD-MM"


def date_forms(column: Column) -> list[str]:
    """Forms in which every cell is a date of the game's time, the likeliest first.

    A year that stands first with one digit for a month or day is of none: as the usual form it
    wants two, and to swap them would be worse.
    """
    found = [form for form in FORMS if column.distinct and _all_days(column.distinct, form)]
    slashed = [cell.replace("-", "/") for cell in column.distinct]  # a form with any digits
    in_order = _all_days(slashed, "YYYY/MM/DD")
    return [form for form in found if form != SWAPPED or not in_order]


def _all_days(cells: list[str], form: str) -> bool:
    return all((day := day_of(cell, form)) and 1700 < day.year < 2200 for cell in cells)


def samples(column: Column, count: int = 3, longest: int = 24) -> str:
    """A few of its cells, as they stand."""
    cut = [c if len(c) <= longest else f"{c[:longest]}…" for c in column.distinct[:count]]
    return ", ".join(" ".join(c.split()) for c in cut) or "all blank"

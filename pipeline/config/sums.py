"""Sums of columns, of which a measure is made: what can be added, and the sum as it is written."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

from pipeline.errors import did_you_mean

# What a delivery can be summed over: the columns of the clean table, and what follows from them.
ADDENDS = {
    "runs_batter": "d.runs_batter",
    "runs_total": "d.runs_total",
    "runs_bowler": "d.runs_bowler",
    "extras": "d.runs_total - d.runs_batter",
    "wides": "d.wides",
    "noballs": "d.noballs",
    "legal": "d.legal::INT",
    "faced": "d.faced::INT",
    "four": "d.four::INT",
    "six": "d.six::INT",
    "dot": "(d.legal AND d.runs_total = 0)::INT",
    "wickets": "d.wickets",
    "bowler_wickets": "d.bowler_wickets",
    "innings": None,  # distinct innings of the match among the balls selected
    "matches": None,  # 1 for a match with any ball selected
    "decided": "m.winner IS NOT NULL",  # 1 for a match that one side won
    "won": "coalesce(m.winner = d.batting_team, false)",  # 1 where that was the side batting
    "streak": "d.streak",  # of a streaks beat's own rows
    "streak_in_phase": "d.streak_in_phase",
    "streak_expected": "d.streak_expected",  # in whole millionths, so that sums are exact
}
# What only a kind of beat's own rows have, so that no measure of measures.yaml can sum it.
OF_KINDS = {name for name in ADDENDS if name.startswith("streak")}
DECLARABLE = {name: sql for name, sql in ADDENDS.items() if name not in OF_KINDS}
MILLIONTHS = 1_000_000
LONGEST = 400  # characters of a sum
LARGEST = 1_000_000  # of a multiple
_NO_SUM = re.compile(r"[^A-Za-z0-9_+\-*()\s]|\d[A-Za-z_]")


def parse_sum(text: str) -> list[tuple[int, str]]:
    """'4*four + 6*six' as [(4, 'four'), (6, 'six')]; only whole multiples of known columns add."""
    if len(text) > LONGEST:
        raise ValueError(f"a sum of {len(text):,} characters; at most {LONGEST}")
    wrong = f"'{text}' is no sum of columns; write for example 4*four + 6*six"
    if _NO_SUM.search(text):
        raise ValueError(wrong)
    try:
        terms = list(_terms(ast.parse(text.strip(), mode="eval").body))
    except (SyntaxError, MemoryError):  # the latter of brackets that are nested too deep
        raise ValueError(wrong) from None
    if not all(terms):
        raise ValueError(wrong)
    return [term for term in terms if term]


def of_matches(numerator: str, denominator: str) -> bool:
    """Whether a measure counts whole matches: a share of them that was won, or decided."""
    below, above = ({name for _, name in parse_sum(text)} for text in (denominator, numerator))
    return below <= {"decided", "matches"} and above <= {"won", "decided"}


def _terms(node: ast.expr, sign: int = 1) -> Iterator[tuple[int, str] | None]:
    """Each term of a sum; none for what is no term."""
    match node:
        case ast.BinOp(left=left, op=ast.Add() | ast.Sub() as op, right=right):
            yield from _terms(left, sign)
            yield from _terms(right, -sign if isinstance(op, ast.Sub) else sign)
        case ast.BinOp(left=ast.Constant(value=factor), op=ast.Mult(), right=ast.Name(id=name)):
            yield (sign * _factor(factor), _known(name))
        case ast.Name(id=name):
            yield (sign, _known(name))
        case _:
            yield None


def _factor(value: object) -> int:
    if type(value) is not int or not 1 <= value <= LARGEST:
        raise ValueError(f"'{value}' is no multiple of a column; write 1 to {LARGEST:,}")
    return value


def _known(name: str) -> str:
    if name not in ADDENDS:
        raise ValueError(f"'{name}' is no column to sum{did_you_mean(name, ADDENDS)}")
    return name

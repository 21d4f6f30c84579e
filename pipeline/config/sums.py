"""Sums of columns, of which a measure is made: what can be added, and the sum as it is written."""

from __future__ import annotations

import ast

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


def parse_sum(text: str) -> list[tuple[int, str]]:
    """'4*four + 6*six' as [(4, 'four'), (6, 'six')]; only whole multiples of known columns add."""
    try:
        return _terms(ast.parse(text.strip(), mode="eval").body)
    except SyntaxError:
        raise ValueError(f"'{text}' is no sum of columns; write for example four + six") from None


def of_matches(numerator: str, denominator: str) -> bool:
    """Whether a measure counts whole matches: a share of them that was won, or decided."""
    below, above = ({name for _, name in parse_sum(text)} for text in (denominator, numerator))
    return below <= {"decided", "matches"} and above <= {"won", "decided"}


def _terms(node: ast.expr) -> list[tuple[int, str]]:
    match node:
        case ast.BinOp(left=left, op=ast.Add(), right=right):
            return _terms(left) + _terms(right)
        case ast.BinOp(left=left, op=ast.Sub(), right=right):
            return _terms(left) + [(-factor, name) for factor, name in _terms(right)]
        case ast.BinOp(
            left=ast.Constant(value=int(factor)), op=ast.Mult(), right=ast.Name(id=name)
        ):
            return [(factor, _known(name))]
        case ast.Name(id=name):
            return [(1, _known(name))]
    raise ValueError(
        f"'{ast.unparse(node)}' is no sum of columns; write for example 4*four + 6*six"
    )


def _known(name: str) -> str:
    if name not in ADDENDS:
        raise ValueError(f"'{name}' is no column to sum{did_you_mean(name, ADDENDS)}")
    return name

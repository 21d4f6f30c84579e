"""Cricket's own notation, shown and said: overs and balls, scores, bowling figures."""

from __future__ import annotations

from pipeline.wording import numbers


def overs_shown(balls: int, balls_per_over: int = 6) -> str:
    """45 balls of six-ball overs as '7.3': the figure after the point counts balls, not tenths."""
    whole, rest = divmod(balls, balls_per_over)
    return f"{whole}.{rest}" if rest else str(whole)


def overs_said(balls: int, balls_per_over: int = 6) -> str:
    """'seven overs and three balls', 'half an over', 'two and a half overs'."""
    whole, rest = divmod(balls, balls_per_over)
    if rest * 2 == balls_per_over:
        return f"{numbers.said(whole, 0)} and a half overs" if whole else "half an over"
    overs = numbers.with_unit(numbers.said(whole, 0), "overs")
    odd = numbers.with_unit(numbers.said(rest, 0), "balls")
    if not rest:
        return overs
    return f"{overs} and {odd}" if whole else odd


def score_said(runs: int, wickets: int) -> str:
    """'two hundred and forty for six'; ten wickets are 'all out'."""
    total = numbers.said(runs, 0)
    return f"{total} all out" if wickets == 10 else f"{total} for {_none(wickets)}"


def figures_said(wickets: int, runs: int) -> str:
    """A bowler's figures: 'four for thirty-two'."""
    return f"{_none(wickets)} for {numbers.said(runs, 0)}"


def _none(count: int) -> str:
    return numbers.said(count, 0) if count else "none"

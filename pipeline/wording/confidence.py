"""The confidence of a printed interval, and the looks that it allows for, in words."""

from __future__ import annotations

from collections.abc import Iterable

from pipeline.contracts.codes import Because
from pipeline.contracts.finding import Finding
from pipeline.contracts.parts import CONFIDENCE
from pipeline.wording import numbers

CLOSE = 1e-9
MANY: tuple[Because, ...] = ("lost_among_many", "held_lost_among_many")
LOST = "*"  # behind the interval of a row that its family's looks leave undecided


def level_shown(level: float) -> str:
    """'95%', '99.2%': to as many digits as tell it from a whole hundred."""
    decimals = 0
    while decimals < 3 and abs(level * 100 - float(numbers.rounded(level * 100, decimals))) > 0.04:
        decimals += 1
    shown = float(numbers.rounded(level * 100, decimals))
    return "over 99.9%" if shown >= 100 else f"{numbers.shown(shown, decimals)}%"


def interval_heading(level: float) -> str:
    """'95% interval'."""
    return f"{level_shown(level)} interval"


def widened(finding: Finding) -> bool:
    """Whether its interval allows for more looks than one."""
    return finding.effect is not None and finding.effect.level > CONFIDENCE + CLOSE


def lost(finding: Finding) -> bool:
    """Whether it can't be told for the count of looks alone."""
    return finding.because in MANY


def one_of_looks(finding: Finding) -> str:
    """'one of 64 looks', where their count is why it can't be told; else nothing."""
    if not lost(finding):
        return ""
    return f"one of {numbers.shown(finding.family_size, 0)} looks"


def one_of_looks_said(finding: Finding) -> str:
    """The same in words: 'one of sixty-four numbers we tested'."""
    return f"one of {tested_with(finding)} we tested" if lost(finding) else ""


def tested_with(finding: Finding) -> str:
    """How many were tested together: 'five main numbers' of the headlines, 'sixty-four numbers'."""
    main = "main " if finding.adjusted_by == "holm" else ""
    return f"{numbers.said(finding.family_size, 0)} {main}numbers"


def looks_note(findings: Iterable[Finding]) -> str:
    """'* one of 64 looks', of the rows that are marked so; else nothing."""
    sizes = {one.family_size for one in findings if lost(one)}
    if not sizes:
        return ""
    return f"{LOST} one of {' or '.join(numbers.shown(size, 0) for size in sorted(sizes))} looks"


def heading_of(findings: Iterable[Finding]) -> str:
    """What stands above the intervals of these rows."""
    return "interval" if any(map(widened, findings)) else interval_heading(CONFIDENCE)


def levels_note(findings: Iterable[Finding]) -> list[str]:
    """Under a table whose intervals are not all of 95 %; else nothing."""
    levels = [one.effect.level for one in findings if one.effect and widened(one)]
    if not levels:
        return []
    return [
        f"Intervals are of {level_shown(CONFIDENCE)}; one that would leave no change out, or lie "
        "inside the margin, is widened for the number of looks, here up to "
        f"{level_shown(max(levels))}."
    ]

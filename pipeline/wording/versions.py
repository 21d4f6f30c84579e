"""How often a headline's question was asked before, in other windows or against another control."""

from __future__ import annotations

from collections.abc import Mapping

from pipeline.contracts.findings import Family
from pipeline.contracts.ledger import Version
from pipeline.text import listed
from pipeline.wording import numbers


def versions_said(versions: Mapping[str, Version], names: Mapping[str, str]) -> list[str]:
    """'economy: the fourth version of this question; two other pairs of windows were tried'.

    `names` are those of all headlines by id; where there is but one it needs no name.
    """
    alike: dict[tuple[int, int], list[str]] = {}
    for name, called in names.items():
        if version := versions.get(name):
            alike.setdefault((version.number, version.windows), []).append(called)
    said = []
    for (number, windows), those in alike.items():
        nth = f"the {numbers.ordinal(number)} version of"
        told = f"{nth} this question" if len(those) == 1 else f"each {nth} its question"
        head = "" if len(names) == 1 else f"{listed(those)}: "
        said.append(f"{head}{told}{_tried(windows)}")
    return said


def _tried(windows: int) -> str:
    if not windows:
        return ""
    pairs = "pair of windows was" if windows == 1 else "pairs of windows were"
    return f"; {numbers.said(windows, 0)} other {pairs} tried"


def _count(looks: int) -> str:
    return "counts" if looks == 1 else "count"


def earlier_lines(family: Family, kept: int, versions: Mapping[str, Version]) -> list[str]:
    """Of the method: what is counted of earlier builds; `kept` are the lines of before."""
    lines = []
    if family.earlier:
        looks = numbers.counted(family.earlier, "earlier look")
        lines.append(
            f"With today’s headlines {_count(family.earlier)} {looks} at this topic: each was a "
            "headline of another build and is none now. It keeps the p that it had then, and is "
            "among the looks that a headline is one of. What was only expected is counted with a "
            "table, whose rate is a share of its calls, and a row that is looked at no more calls "
            "nothing: so it is not kept in that count."
        )
    elif kept:
        lines.append(
            "Earlier builds of this topic had other headlines or expectations "
            f"({numbers.counted(kept, 'line')} of its ledger); none of them is counted with "
            "whether the headlines here have changed."
        )
    if versions:
        lines.append(
            "A version of a question asks the same measure of the same balls, in other windows, "
            "against another control, or with other unknown balls left out."
        )
    return lines

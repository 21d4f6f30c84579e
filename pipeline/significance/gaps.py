"""Did one group change more than another: the difference of two changes (a gap, or a control)."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd

from pipeline.significance.arrays import Pair, pair
from pipeline.significance.change import SEED, compare
from pipeline.significance.effects import finding_of, numbers_of
from pipeline.significance.methods.permutation import permute_gap
from pipeline.significance.methods.ratio import change, gap, welch

View = dict[str, Any]
WINDOWS = ("before", "after")
TOLD = ("change", "change_low", "change_high", "difference", "difference_low", "difference_high")


def gap_findings(first: Pair, second: Pair, measure: View, statistics: View) -> list[View]:
    """How much more the second group changed than the first, a finding a cell.

    Both pairs are of the same cells and the same matches. The sides are the two groups' own
    changes: `value` in units, `change` as a fraction, each with its interval.
    """
    changes = [compare(group, measure, statistics) for group in (first, second)]
    groups = (first.a, first.b, second.a, second.b)
    with np.errstate(all="ignore"):
        logs, units = gap(*groups), gap(*groups, log=False)
        rng = np.random.default_rng(SEED)
        checked = permute_gap(
            (first.a, second.a), (first.b, second.b), first.blocks, statistics["permutations"], rng
        )
        numbers = numbers_of(logs, units, measure, checked)
    found = []
    for cell, (one, other) in enumerate(zip(*changes, strict=True)):
        finding = finding_of(cell, _as_side(one), _as_side(other), numbers, measure)
        notes = [note for part in (one, other) for note in part["notes"]]
        unique = {note["code"]: note for note in notes if note["code"] != "check_disagrees"}
        found.append({**finding, "notes": list(unique.values())})
    return found


def _as_side(finding: View) -> View:
    """One group's change as a side of the gap; counts are those of its thinner window."""
    a, b = finding["a"], finding["b"]
    fewer = {key: min(a[key], b[key]) for key in ("matches", "balls", "numerator", "denominator")}
    return {
        "value": finding["difference"],
        "low": finding["difference_low"],
        "high": finding["difference_high"],
        **{key: finding[key] for key in ("change", "change_low", "change_high")},
        **fewer,
        "largest": max(a["largest"], b["largest"]),
        "refused": finding["refused"],
    }


def control_checks(
    rows: pd.DataFrame, cells: list[str], pairs: dict[str, str], measure: View, statistics: View
) -> dict[str, View]:
    """Each cell's change beyond its control's, by cell id; none where either can't be told.

    Groups of the same matches are left out together; another competition's are independent.
    """
    told = [cell for cell in cells if cell in pairs]
    sides = tuple(f"control {window}" for window in WINDOWS)
    own = rows[rows["window"].isin(WINDOWS)]
    other = rows[rows["window"].isin(sides)]
    if not told or own.empty or other.empty:
        return {}
    mine, theirs = _aligned(own, other, told, [pairs[cell] for cell in told])
    with np.errstate(all="ignore"):
        if mine.shared:
            logs, units = (_joint(mine, theirs, log) for log in (True, False))
        else:
            logs, units = (
                welch(change(theirs.a, theirs.b, log), change(mine.a, mine.b, log))
                for log in (True, False)
            )
        numbers = numbers_of(logs, units, measure, None)
    changes = [compare(each, measure, statistics) for each in (theirs, mine)]
    found = {}
    for cell, name in enumerate(told):
        one, two = (_as_side(change[cell]) for change in changes)
        finding = finding_of(cell, one, two, numbers, measure)
        if not finding["refused"]:
            kept = {key: finding[key] for key in (*TOLD, "p", "df")}
            found[name] = {**kept, "own": one, "verdict": None, "p_adjusted": None}
    return found


def _joint(mine: Pair, theirs: Pair, log: bool):
    return gap(theirs.a, theirs.b, mine.a, mine.b, log)


def _aligned(
    own: pd.DataFrame, other: pd.DataFrame, told: list[str], twins: list[str]
) -> tuple[Pair, Pair]:
    """Both as pairs over the same rows of matches where they share any; `shared` says so."""
    other = other.assign(window=other["window"].str.removeprefix("control "))
    together = bool(set(own["match_id"]) & set(other["match_id"]))
    if not together:
        return pair(own, told, WINDOWS), pair(other, twins, WINDOWS)
    named = pd.concat(
        [own.assign(cell="own " + own["cell"]), other.assign(cell="twin " + other["cell"])]
    )
    mine = pair(named, [f"own {cell}" for cell in told], WINDOWS)
    theirs = pair(named, [f"twin {cell}" for cell in twins], WINDOWS)
    return replace(mine, shared=True), replace(theirs, shared=True)

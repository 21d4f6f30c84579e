"""What each kind of beat makes of its tallies: one function a kind, findings out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pandas as pd

from pipeline.significance import notes
from pipeline.significance.arrays import pair
from pipeline.significance.change import compare
from pipeline.significance.gaps import control_checks, gap_findings
from pipeline.significance.kinds.mix import mix_findings, mix_moved
from pipeline.significance.kinds.players import player_findings
from pipeline.significance.kinds.turning_point import turning_finding
from pipeline.significance.on_the_field import felt
from pipeline.significance.question import WINDOWS, Asked
from pipeline.significance.second_verdict import drift_checks

View = dict[str, Any]
FELT = ("change", "groups")
WHOLE = {"id": "all", "values": {}, "known": True}


def findings_of(asked: Asked) -> list[View]:
    """The findings of any beat: those of its kind, with the notes that every kind shares."""
    found = KINDS.get(asked.beat["kind"], _windows)(asked)
    shortened = asked.compared[asked.compared["cell"] == "all"].drop_duplicates("match_id")
    counts = len(shortened), int(shortened["reduced"].fillna(False).sum())
    for finding in found:
        if finding["cell"] != "all":
            finding["notes"] += notes.unknown_left_out(asked.unknown)
        finding["notes"] += notes.reduced(*counts, asked.measure["an_innings"])
    return found


def _named(asked: Asked, cell: View, about: str, result: View, **more: Any) -> View:
    """A result with what it is of; every finding has the same keys."""
    return {
        "id": finding_id(asked.beat["id"], asked.name, cell["id"]),
        "beat": asked.beat["id"],
        "measure": asked.name,
        "about": about,
        "sides": list(asked.sides),
        "cell": cell["id"],
        "values": cell["values"],
        "felt": _felt(asked, cell["values"], result) if about in FELT else None,
        "drift": None,
        "control": None,
        "shrunk": None,
        "turn": None,
        "shares": None,
        **result,
        **more,
    }


def _felt(asked: Asked, values: View, result: View) -> View | None:
    windows = asked.selection["windows"]
    view = {**asked.view, "seasons_after": len(windows["after"]) if windows else 0}
    return felt(asked.beat, values, result, asked.measure, view)


def finding_id(beat: str, measure: str, cell: str) -> str:
    """'kinds.economy.spin-death'; the whole beat's finding has no cell."""
    return f"{beat}.{measure}" if cell == "all" else f"{beat}.{measure}.{cell}"


def _compare(asked: Asked, cells: list[View]) -> list[View]:
    whole = pair(asked.compared, [cell["id"] for cell in cells], asked.sides)
    return compare(whole, asked.measure, asked.view["statistics"])


def _drift(
    asked: Asked, cells: list[str], against: list[str] | None = None, per: float | None = None
) -> list[View]:
    event = asked.view["event"]
    return drift_checks(asked.every, cells, asked.selection, event, against, per)


def _windows(asked: Asked) -> list[View]:
    """before_after, phases, share, and a trend's two windows: a change a cell, with its drift."""
    cells = [WHOLE] if asked.beat["kind"] == "trend" else asked.cells
    names = [cell["id"] for cell in cells]
    per = asked.measure["per"] if asked.beat["kind"] == "trend" else None
    results, drifts = _compare(asked, cells), _drift(asked, names, per=per)
    controls = _controls(asked, names)
    found = [
        _named(
            asked,
            cell,
            "change",
            result,
            drift=drift,
            control=controls.get(cell["id"]),
        )
        for cell, result, drift in zip(cells, results, drifts, strict=True)
    ]
    if asked.beat.get("by") and not asked.measure["by_match"]:
        found[0]["notes"] += mix_moved(_finest(asked), asked.measure)
    return found


def _controls(asked: Asked, cells: list[str]) -> dict[str, View]:
    if asked.control.empty:
        return {}
    about = asked.about["control"]
    rows = pd.concat([asked.compared, asked.control])
    statistics = asked.view["statistics"]
    found = control_checks(rows, cells, about["pairs"], asked.measure, statistics)
    return {cell: {"name": about["name"], **check} for cell, check in found.items()}


def _groups(asked: Asked) -> list[View]:
    results = _compare(asked, asked.cells)
    return [
        _named(asked, cell, "groups", result)
        for cell, result in zip(asked.cells, results, strict=True)
    ]


def _gap(asked: Asked) -> list[View]:
    """The gap of each cell, then each group's own change."""
    (cut,) = asked.beat["between"]
    first, second = asked.beat["between"][cut]
    by_value = {tuple(cell["values"].values()): cell for cell in asked.cells}
    rest = [values[1:] for values in by_value if values[:1] == (first,)]
    told = [values for values in rest if (second, *values) in by_value]
    ones, others = ([by_value[(group, *values)] for values in told] for group in (first, second))
    names = [[cell["id"] for cell in cells] for cells in (ones, others)]
    pairs = [pair(asked.compared, chosen, WINDOWS) for chosen in names]
    results = gap_findings(*pairs, asked.measure, asked.view["statistics"])
    drifts = _drift(asked, names[1], names[0])
    gaps = []
    for cell, result, drift in zip(ones, results, drifts, strict=True):
        values = {name: value for name, value in cell["values"].items() if name != cut}
        identity = cell["id"].removeprefix(f"{ones[0]['id']}-") if values else "all"
        of = {"id": identity, "values": values}
        gaps.append(_named(asked, of, "gap", result, drift=drift, sides=[first, second]))
    groups = [cell for cell in asked.cells if cell["id"] != "all"]
    changes = zip(
        groups, _compare(asked, groups), _drift(asked, [c["id"] for c in groups]), strict=True
    )
    return gaps + [_named(asked, cell, "change", result, drift=d) for cell, result, d in changes]


def _mix(asked: Asked) -> list[View]:
    """The whole change, its two parts, and each group's own change with its share of the balls."""
    (whole,) = _compare(asked, [WHOLE])
    groups = [cell for cell in asked.cells if cell["id"] != "all"]
    finest = _finest(asked)
    parts = mix_findings(
        pair(asked.compared, ["all"], WINDOWS), finest, asked.measure, asked.view["statistics"]
    )
    found = [_named(asked, WHOLE, "change", whole, drift=_drift(asked, ["all"])[0])]
    for name, result in parts.items():
        found.append(_named(asked, {"id": name, "values": {}}, name, result))
    shares = [part.x.sum(0) / part.x.sum() for part in (finest.a, finest.b)]
    for at, (cell, result) in enumerate(zip(groups, _compare(asked, groups), strict=True)):
        of = [float(share[at]) for share in shares]
        found.append(_named(asked, cell, "change", result, shares=of))
    return found


def _finest(asked: Asked):
    """The pair of the cells that divide the whole without rest."""
    return pair(asked.compared, [c["id"] for c in asked.cells if c["id"] != "all"], WINDOWS)


def _turning(asked: Asked) -> list[View]:
    event, statistics = asked.view["event"], asked.view["statistics"]
    result = turning_finding(asked.every, asked.beat["every"], event, asked.measure, statistics)
    return [_named(asked, WHOLE, "turn", result)]


def _players(asked: Asked) -> list[View]:
    """Everyone's change, then each player's with enough in both windows."""
    found = [_named(asked, WHOLE, "change", _compare(asked, [WHOLE])[0])]
    if asked.cells:
        statistics = asked.view["statistics"]
        batting = asked.beat["role"] == "batter"
        kinds = [
            "batters" if batting else asked.people[cell["person"]]["kind"] for cell in asked.cells
        ]
        results = player_findings(asked.compared, asked.cells, kinds, asked.measure, statistics)
        told = zip(asked.cells, results, strict=True)
        found += [_named(asked, cell, "player", result) for cell, result in told]
    for finding in found[1:]:
        finding["notes"].append({"code": "survivors_only", **asked.threshold})
    return found


KINDS: dict[str, Callable[[Asked], list[View]]] = {
    "gap": _gap,
    "groups": _groups,
    "mix": _mix,
    "turning_point": _turning,
    "players": _players,
}

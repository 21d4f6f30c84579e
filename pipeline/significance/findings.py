"""A topic's tallies into its findings: the only place that numbers come from."""

from __future__ import annotations

from typing import Any

import pandas as pd

from pipeline.significance.beyond import drift_checks, judge_drift, rivals
from pipeline.significance.compare import compare, describe
from pipeline.significance.frames import by_season, pair
from pipeline.significance.verdicts import judge

View = dict[str, Any]


def find(view: View, selection: dict[str, Any], tallies: pd.DataFrame) -> dict[str, Any]:
    """Everything the charts and the brief may say, signed and unrounded."""
    findings: list[dict[str, Any]] = []
    series: dict[str, list[dict[str, Any]]] = {}
    samples: dict[str, dict[str, int]] = {}
    for beat in view["beats"]:
        for name in beat["measures"]:
            measure = view["measures"][name]
            rows = tallies[(tallies["beat"] == beat["id"]) & (tallies["measure"] == name)]
            compared = _compared(rows, beat)
            samples[f"{beat['id']}.{name}"] = _sample(compared)
            base = {"beat": beat["id"], "measure": name}
            if beat["kind"] == "trend":
                series[f"{beat['id']}.{name}"] = _series(rows, selection, measure, view)
                compared = _as_windows(rows, selection["windows"])
            if not compared.empty:
                made = _comparisons(base, beat, compared, selection, measure, view)
                findings += _with_drift(made, beat, rows, selection, view)
    _mark_windows(findings, selection)
    family = judge(findings, view["headlines"], view["statistics"], view["file"])
    judge_drift(findings, view["headlines"], view["statistics"]["alpha"])
    return {
        "data": selection["data"],
        "corrections": selection["corrections"],
        "seasons": selection["seasons"],
        "season_ends": selection["season_ends"],
        "windows": selection["windows"],
        "rivals": _rivals(view, selection),
        "headlines": view["headlines"],
        "family": family,
        "findings": findings,
        "series": series,
        "samples": samples,
        "queries": {beat: part["query"] for beat, part in selection["beats"].items()},
    }


def _compared(rows: pd.DataFrame, beat: View) -> pd.DataFrame:
    """The rows of both sides; a group may well be called 'outside', a window is not."""
    return rows if beat["kind"] in ("groups", "trend") else rows[rows["window"] != "outside"]


def _with_drift(
    made: list[dict[str, Any]], beat: View, rows: pd.DataFrame, selection: View, view: View
) -> list[dict[str, Any]]:
    """Before/after findings with what the seasons say; groups have no second question."""
    if beat["kind"] == "groups":
        return [{**finding, "drift": None} for finding in made]
    cells = [finding["cell"] for finding in made]
    checks = drift_checks(rows, cells, selection, view["event"])
    return [{**finding, "drift": check} for finding, check in zip(made, checks, strict=True)]


def _rivals(view: View, selection: View) -> list[str]:
    if not selection["windows"]:
        return []
    return rivals(view["also"], selection["windows"], selection["season_ends"])


def _sample(rows: pd.DataFrame) -> dict[str, int]:
    """Matches and valid balls a beat's chart stands on, each match once."""
    whole = rows[rows["cell"] == "all"]
    return {"matches": int(whole["match_id"].nunique()), "balls": int(whole["balls"].sum())}


def finding_id(beat: str, measure: str, cell: str) -> str:
    """'kinds.economy.spin-death'; the whole beat's finding has no cell."""
    return f"{beat}.{measure}" if cell == "all" else f"{beat}.{measure}.{cell}"


def _comparisons(
    base: View, beat: View, rows: pd.DataFrame, selection: View, measure: View, view: View
) -> list[dict[str, Any]]:
    cells = [cell for cell in selection["beats"][beat["id"]]["cells"] if cell["known"]]
    names = [cell["id"] for cell in cells]
    sides = _sides(beat)
    results = compare(pair(rows, names, sides), measure, view["statistics"])
    unknown = _unknown_share(rows, selection["beats"][beat["id"]]["cells"])
    found = []
    for cell, result in zip(cells, results, strict=True):
        if unknown and cell["id"] != "all":
            result["notes"].append({"code": "unknown_left_out", "share": unknown})
        identity = finding_id(base["beat"], base["measure"], cell["id"])
        felt = _balls(beat, cell["values"], result, view["format"])
        labels = {
            "balls_an_innings": felt,
            "sides": list(sides),
            "cell": cell["id"],
            "values": cell["values"],
        }
        found.append({"id": identity, **base, **labels, **result})
    return found


def _balls(beat: View, values: View, result: View, form: View) -> dict[str, float] | None:
    """A change of a share of the balls as balls of a full innings, where its length is known."""
    if beat["kind"] != "share" or result["refused"]:
        return None
    balls = innings_balls(beat["where"], values, form)
    if balls is None:
        return None
    ends = {"value": "difference", "low": "difference_low", "high": "difference_high"}
    return {end: result[name] / 100 * balls for end, name in ends.items()}


def innings_balls(where: View, values: View, form: View) -> int | None:
    """Valid balls of a full innings that a beat's filters and a row's phase leave; else None."""
    phases = [values["phase"]] if "phase" in values else where.get("phase") or []
    if any(phase not in form["phases"] for phase in phases) or not form["overs"]:
        return None
    within = {o for phase in phases for o in _overs(form["phases"][phase]["overs"])}
    overs = within or set(_overs((1, form["overs"])))
    if where.get("overs"):
        overs &= set(_overs(where["overs"]))
    return len(overs) * form["balls_per_over"]


def _overs(ends: Any) -> range:
    return range(ends[0], ends[1] + 1)


def _sides(beat: View) -> tuple[str, str]:
    if beat["kind"] == "groups":
        ((_, values),) = beat["between"].items()
        return values[0], values[1]
    return "before", "after"


def _unknown_share(rows: pd.DataFrame, cells: list[dict[str, Any]]) -> float:
    """Share of the beat's balls that fall in cells of unknown kind, hand or arm."""
    total = rows.loc[rows["cell"] == "all", "balls"].sum()
    unknown = [cell["id"] for cell in cells if not cell["known"]]
    return float(rows.loc[rows["cell"].isin(unknown), "balls"].sum() / total) if total else 0.0


def _series(rows: pd.DataFrame, selection: View, measure: View, view: View) -> list[dict[str, Any]]:
    seasons = selection["seasons"]
    sums, balls = by_season(rows, seasons)
    values = describe(sums, balls, measure, view["statistics"]["least_matches"])
    return [{"season": label, **value} for label, value in zip(seasons, values, strict=True)]


def _as_windows(rows: pd.DataFrame, windows: View | None) -> pd.DataFrame:
    """A trend's rows as a before/after comparison; none when the topic has no event."""
    if windows is None:
        return rows.iloc[:0]
    side = dict.fromkeys(windows["before"], "before")
    side |= dict.fromkeys(windows["after"], "after")
    kept = rows[rows["season"].isin(side)]
    return kept.assign(window=kept["season"].map(side))


def _mark_windows(findings: list[dict[str, Any]], selection: View) -> None:
    windows = selection["windows"]
    if windows and windows["transition"]:
        for finding in findings:
            if finding["sides"] == ["before", "after"]:
                note = {"code": "transition_season", "season": windows["transition"]}
                finding["notes"].append(note)

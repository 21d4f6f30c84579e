"""A topic's tallies into its findings: the only place that numbers come from."""

from __future__ import annotations

from typing import Any

import pandas as pd

from pipeline.significance import notes, of_beats
from pipeline.significance.arrays import by_season
from pipeline.significance.effects import describe
from pipeline.significance.kinds.players import represented
from pipeline.significance.kinds.turning_point import period
from pipeline.significance.question import Asked
from pipeline.significance.second_verdict import judge_control, judge_drift, rivals
from pipeline.significance.verdicts import judge

View = dict[str, Any]


def find(view: View, selection: View, tallies: pd.DataFrame) -> View:
    """Everything the charts and the brief may say, signed and unrounded."""
    findings: list[View] = []
    series: dict[str, list[View]] = {}
    samples: dict[str, dict[str, int]] = {}
    lists: dict[str, View] = {}
    for beat in view["beats"]:
        for name in beat["measures"]:
            key = f"{beat['id']}.{name}"
            rows = tallies[(tallies["beat"] == beat["id"]) & (tallies["measure"] == name)]
            asked = Asked(beat, name, rows, view, selection)
            whole = beat["kind"] in ("trend", "turning_point")
            samples[key] = _sample(asked.every if whole else asked.compared)
            if whole:
                series[key] = _series(asked)
            if asked.compared.empty:
                continue
            findings += of_beats.findings_of(asked)
            if beat["kind"] == "players":
                lists[key] = {**asked.threshold, **represented(asked.cells, asked.people)}
    named = _rivals(view, selection)
    for finding in findings:
        if selection["windows"] and finding["about"] != "groups":
            finding["notes"] += notes.of_the_windows(selection, named)
    family = judge(findings, view["headlines"], view["statistics"], view["file"])
    judge_drift(findings, view["headlines"], view["statistics"]["alpha"])
    judge_control(findings, view["headlines"], view["statistics"]["alpha"])
    for finding in findings:
        finding["notes"] += notes.on_the_drift(finding)
    return {
        "data": selection["data"],
        "corrections": selection["corrections"],
        "seasons": selection["seasons"],
        "season_ends": selection["season_ends"],
        "windows": selection["windows"],
        "rivals": named,
        "headlines": view["headlines"],
        "family": family,
        "findings": findings,
        "series": series,
        "samples": samples,
        "lists": lists,
        "queries": _queries(selection),
    }


def _queries(selection: View) -> dict[str, str]:
    """The query of every beat, and of its control."""
    found = {}
    for beat, part in selection["beats"].items():
        found[beat] = part["query"]
        if "control" in part:
            found[f"{beat} control"] = part["control"]["query"]
    return found


def _rivals(view: View, selection: View) -> list[str]:
    if not selection["windows"]:
        return []
    return rivals(view["also"], selection["windows"], selection["season_ends"])


def _sample(rows: pd.DataFrame) -> dict[str, int]:
    """Matches and balls a beat's chart stands on, each match once."""
    whole = rows[rows["cell"] == "all"]
    return {"matches": int(whole["match_id"].nunique()), "balls": int(whole["balls"].sum())}


def _series(asked: Asked) -> list[View]:
    """Every season's (or quarter's) value with its interval, and its first and last day."""
    rows, labels = asked.every, asked.selection["seasons"]
    every = asked.beat.get("every", "season")
    if every != "season":
        rows = rows.assign(season=period(rows, every))
        labels = list(rows.groupby("season")["date"].min().sort_values(kind="stable").index)
    sums, balls = by_season(rows, labels)
    values = describe(sums, balls, asked.measure, asked.view["statistics"]["least_matches"])
    days = rows.groupby("season")["date"].agg(["min", "max"])
    ends = [
        [str(day) for day in days.loc[label]] if label in days.index else [None, None]
        for label in labels
    ]
    return [
        {"season": label, "first": first, "last": last, **value}
        for label, (first, last), value in zip(labels, ends, values, strict=True)
    ]

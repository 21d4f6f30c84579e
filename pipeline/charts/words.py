"""The words on a chart: headings, samples, credits, and the text for those who can't see it."""

from __future__ import annotations

from typing import Any

from pipeline.text import capitalised, span
from pipeline.wording import labels, numbers

View = dict[str, Any]
HUNDREDFOLD = 99.0  # a change of 9,900 per cent


def subtitle(view: View, beat: View, measure: View, windows: View | None) -> str:
    """What is measured, on which balls, in which windows."""
    unit = measure["unit"]
    name = capitalised(measure["label"])
    where = labels.where_phrase(beat["where"], view["format"])
    text = f"{name}{where}, {unit}"
    if beat["kind"] == "turning_point":
        text += f", by {beat['every']}"
    elif beat["kind"] not in ("groups", "trend") and windows:
        before, after = span(windows["before"]), span(windows["after"])
        text += f" · {before} against {after}"
    elif beat["kind"] == "trend":
        text += ", by season"
    return text


def foot(view: View, sample: dict[str, int]) -> tuple[str, str]:
    """(sample and credit, the notice that goes with the data)."""
    credit = "; ".join(source["credit"] for source in view["credits"])
    notices = [source["notice"] for source in view["credits"] if source["notice"]]
    counts = f"{numbers.matches(sample['matches'])}, {numbers.counted(sample['balls'], 'ball')}"
    return f"{counts} · {credit}", "; ".join(dict.fromkeys(notices))


def effect(finding: View) -> tuple[str, str]:
    """(the change, its 95 % interval): points for a share, else per cent.

    A change beyond a hundredfold, of a number that was next to nothing, is a count of times: its
    percentage would take the chart's whole width.
    """
    if finding["refused"]:
        return "", "too little to say"
    if finding["kind"] == "share":
        low, high = finding["difference_low"], finding["difference_high"]
        return numbers.points(finding["difference"]), numbers.between(low, high, 1)
    if finding["change"] > HUNDREDFOLD:
        return f"{numbers.shown(1 + finding['change'], 0)} times", "interval in the table"
    low, high = finding["change_low"] * 100, finding["change_high"] * 100
    return numbers.percent(finding["change"]), numbers.between(low, high, 1)


def describe_rows(findings: list[View], names: list[str], sides: tuple[str, str]) -> str:
    """Alternative text: each row's two values, change, interval and verdict."""
    rows = []
    for finding, name in zip(findings, names, strict=True):
        decimals = finding["decimals"]
        if finding["refused"]:
            rows.append(f"{name}: too little to say")
            continue
        change, interval = effect(finding)
        known = [
            f"{side} {numbers.shown(finding[key]['value'], decimals)}, "
            for key, side in zip(("a", "b"), sides, strict=True)
            if finding[key]["value"] is not None
        ]
        rows.append(f"{name}: {''.join(known)}{change} ({interval}), {finding['verdict']}")
    return "; ".join(rows)


def describe_series(series: list[View], decimals: int) -> str:
    """Alternative text of a trend: each season's value."""
    said = [
        f"{point['season']} {numbers.shown(point['value'], decimals)}"
        for point in series
        if point["value"] is not None
    ]
    return ", ".join(said)

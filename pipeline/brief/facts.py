"""Every sayable number with a stable id: 'kinds.economy.spin-middle.change'."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.sheets import csv_text
from pipeline.wording import numbers
from pipeline.wording.drift import second
from pipeline.wording.labels import slug

View = dict[str, Any]
COLUMNS = (
    *("id", "value", "low", "high", "unit", "display", "spoken", "interval"),
    *("finding", "beat", "measure", "definition", "headline", "verdict"),
)


def facts_of(view: View, findings: View) -> list[View]:
    """All facts of a topic, in the order of its findings."""
    made = list(_of_data(findings))
    for finding in findings["findings"]:
        measure = view["measures"][finding["measure"]]
        made += _of_finding(finding, measure, finding["id"] in findings["headlines"])
    for key, series in findings["series"].items():
        beat, name = key.split(".")
        made += _of_series(key, beat, view["measures"][name], name, series)
    return made


def _fact(identity: str, value: float, unit: str, display: str, spoken: str, **more: Any) -> View:
    fact = {"id": identity, "value": value, "unit": unit, "display": display, "spoken": spoken}
    return {**dict.fromkeys(COLUMNS), **fact, "headline": False, **more}


def _of_data(findings: View) -> Iterator[View]:
    for name, unit in (("matches", "matches"), ("balls", "valid balls")):
        value = findings["data"][name]
        definition = f"{unit} in the topic's data"
        shown, said = numbers.shown(value, 0), numbers.said(value, 0)
        yield _fact(f"data.{name}", value, unit, shown, said, definition=definition)


def _of_finding(finding: View, measure: View, headline: bool) -> Iterator[View]:
    common = {
        "finding": finding["id"],
        "beat": finding["beat"],
        "measure": finding["measure"],
        "definition": measure["defined"],
        "headline": headline,
        "verdict": finding["verdict"],
    }
    for side, name in zip(("a", "b"), finding["sides"], strict=True):
        if finding[side]["value"] is not None:
            yield _value(f"{finding['id']}.{slug(name)}", finding[side], measure, common)
    if finding["refused"]:
        return
    yield _difference(finding, measure, common)
    if finding["kind"] != "share":
        ends = (finding["change_low"], finding["change_high"])
        yield _percent(f"{finding['id']}.change", finding["change"], ends, common)
    if finding["balls_an_innings"]:
        yield _balls(finding, common)
    drift = finding["drift"]
    if second(finding) and drift["p"] is not None:  # told only where something changed
        of = " of the share itself" if finding["kind"] == "share" else ""
        ends = (drift["step_low"], drift["step_high"])
        yield _percent(f"{finding['id']}.drift", drift["per_season"], None, common, of)
        yield _percent(f"{finding['id']}.step", drift["step"], ends, common, of)


def _percent(
    identity: str,
    value: float,
    ends: tuple[float, float] | None,
    common: View,
    of: str = "",
) -> View:
    """A fraction as per cent: a change, a season's drift, or the step on top of it."""
    low, high = ends or (None, None)
    half = (high - low) / 2 if ends else 0.001
    said = numbers.said_percent(value, half)
    way = "up" if value > 0 else "down"
    said += of
    unit = f"per cent{of}" if ends else f"per cent{of} a season"
    return _fact(
        identity,
        value,
        unit,
        numbers.percent(value),
        f"{said} {way}" if ends else f"{said} a season {way}",
        low=low,
        high=high,
        interval=numbers.between(low * 100, high * 100, 1) if ends else None,
        **common,
    )


def _balls(finding: View, common: View) -> View:
    """A change of a share as balls of a full innings."""
    value, low, high = (finding["balls_an_innings"][end] for end in ("value", "low", "high"))
    said = numbers.with_unit(numbers.said(abs(value), 1), "balls an innings")
    return _fact(
        f"{finding['id']}.balls",
        value,
        "balls an innings",
        numbers.shown(value, 1, signed=True),
        f"{said} {'more' if value > 0 else 'fewer'}",
        low=low,
        high=high,
        interval=numbers.between(low, high, 1),
        **common,
    )


def _value(identity: str, side: View, measure: View, common: View) -> View:
    decimals = measure["decimals"]
    interval = None
    if side["low"] is not None:
        ends = (numbers.shown(side[end], decimals) for end in ("low", "high"))
        interval = " to ".join(ends)
    return _fact(
        identity,
        side["value"],
        measure["unit"],
        numbers.shown(side["value"], decimals),
        numbers.with_unit(numbers.said(side["value"], decimals), measure["unit"]),
        low=side["low"],
        high=side["high"],
        interval=interval,
        **common,
    )


def _difference(finding: View, measure: View, common: View) -> View:
    share = finding["kind"] == "share"
    decimals = max(1, measure["decimals"]) if share else measure["decimals"]
    value, low, high = (finding[f"difference{end}"] for end in ("", "_low", "_high"))
    shown = numbers.points(value, decimals) if share else numbers.shown(value, decimals, True)
    unit = "percentage points" if share else measure["unit"]
    said = numbers.with_unit(numbers.said(abs(value), decimals), unit)
    way = "up" if value > 0 else "down"
    level = numbers.rounded(value, decimals) == 0
    return _fact(
        f"{finding['id']}.difference",
        value,
        unit,
        shown,
        "level, to that rounding" if level else f"{said} {way}",
        low=low,
        high=high,
        interval=numbers.between(low, high, decimals),
        **common,
    )


def _of_series(key: str, beat: str, measure: View, name: str, series: list[View]) -> Iterator[View]:
    common = {"beat": beat, "measure": name, "definition": measure["defined"]}
    for point in series:
        if point["value"] is not None:
            yield _value(f"{key}.{slug(point['season'])}", point, measure, common)


def to_csv(facts: list[View]) -> str:
    """The facts as a table; empty where there is nothing to say."""
    return csv_text(facts, COLUMNS)

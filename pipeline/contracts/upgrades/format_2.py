"""Files of format 2: windows, drifts and series were of seasons where nothing else was asked."""

from __future__ import annotations

from typing import Any

from pipeline.contracts.upgrades.timing import timing_of_seasons

Plain = dict[str, Any]
BECAUSE = {
    "few_seasons_before": "few_periods_before",
    "few_seasons_after": "few_periods_after",
    "empty_season": "empty_period",
}
COUNTS = {"seasons_before": "periods_before", "seasons_after": "periods_after"}


def findings_of_format_2(found: Any) -> Plain:
    """Today's fields."""
    kept = {name: value for name, value in found.items() if name != "windows"}
    series = {key: [_point(one) for one in points] for key, points in found["series"].items()}
    return {
        **kept,
        "timing": timing_of_seasons(found["seasons"], found["windows"]),
        "series": series,
        "findings": [finding_of_format_2(one) for one in found["findings"]],
    }


def selection_of_format_2(found: Any) -> Plain:
    """Today's fields."""
    kept = {name: value for name, value in found.items() if name != "windows"}
    new = found["newcomers"]
    return {
        **kept,
        "timing": timing_of_seasons(found["seasons"], found["windows"]),
        "newcomers": {"": new} if new else {},
    }


def merged_of_format_2(found: Any) -> Plain:
    """Settings as today's: a point of a series was a season where nothing else was asked for.

    Metrics did not need to know which findings are headlines.
    """
    made = {stage: _asked(seen) for stage, seen in found.items()}
    headlines = made["significance"]["headlines"]
    return {**made, "metrics": {"headlines": headlines, **made["metrics"]}}


def _asked(seen: Any) -> Any:
    """What a stage saw, with the points of its beats, and of those of the topic's own words."""
    if not isinstance(seen, dict):
        return seen
    made = {name: _asked(value) if name == "words" else value for name, value in seen.items()}
    if isinstance(seen.get("beats"), list):
        made["beats"] = [_of_its_period(beat) for beat in seen["beats"]]
    return made


def _of_its_period(beat: Any) -> Any:
    if isinstance(beat, dict) and beat.get("every") == "season":
        return {**beat, "every": None}
    return beat


def finding_of_format_2(finding: Plain) -> Plain:
    """One finding's drift and its cautions."""
    made = {**finding, "notes": [_note(note) for note in finding["notes"]]}
    if drift := made.get("drift"):
        made["drift"] = _drift(drift)
    return made


def _point(point: Plain) -> Plain:
    return _renamed(point, {"season": "label"})


def _drift(drift: Plain) -> Plain:
    made = _renamed(drift, COUNTS)
    made["because"] = BECAUSE.get(made["because"], made["because"])
    if made["test"]:
        made["test"] = _renamed(made["test"], {"per_season": "slope"})
    return made


def _note(note: Plain) -> Plain:
    match note["code"]:
        case "rival_event":
            return {"code": note["code"], "rivals": [{"name": name} for name in note["names"]]}
        case "transition_season":
            return {"code": note["code"], "seasons": [note["season"]]}
        case "drift_not_testable":
            because = BECAUSE.get(note["because"], note["because"])
            return {**_renamed(note, COUNTS), "because": because}
    return note


def _renamed(fields: Plain, names: dict[str, str]) -> Plain:
    """The same with other names of fields, in their places."""
    return {names.get(name, name): value for name, value in fields.items()}

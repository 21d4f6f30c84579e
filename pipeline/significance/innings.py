"""A change of a share of the balls as balls of a full innings."""

from __future__ import annotations

from typing import Any

View = dict[str, Any]


def balls_of_change(beat: View, values: View, result: View, form: View) -> View | None:
    """The change and its interval in balls, where the length of the innings is known."""
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

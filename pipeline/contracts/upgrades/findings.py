"""Findings and selections: every finding had the same flat keys, empty where it had no use."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import msgspec
from scipy.special import stdtrit

from pipeline.contracts.comparison import Comparison

Flat = dict[str, Any]
NAMED = ("id", "beat", "measure", "about", "sides", "cell", "values", "refused", "margin", "kind")
JUDGED = ("notes", "verdict", "because", "p_adjusted", "adjusted_by", "family_size")
TESTS = ("se_log", "df", "p", "p_equal", "p_permutation")
DETECTABLE = ("detectable_change", "detectable_difference")
COUNTS = ("matches", "balls", "numerator", "denominator", "largest", "refused")
# What an answer has beside what all have, by what it is about.
OWN = {
    "change": ("felt", "drift", "control", "shares"),
    "groups": ("felt",),
    "gap": ("drift",),
    "mix": (),
    "rates": (),
    "turn": ("turn",),
    "player": ("shrunk",),
}
STEP = ("p", "df", "rank", "dates", "fit")
MANY = 1e9  # degrees of freedom where none were written: the normal law
DRIFT = ("verdict", "because", "seasons_before", "seasons_after", "first", "last")


def findings_of_format_0(found: Any, asks: Callable[[Flat], Comparison]) -> dict[str, Any]:
    """Today's fields. `asks` gives the question that a flat finding answers: it was not written."""
    data = dict(found["data"])
    fingerprint = data.pop("fingerprint")
    kept = ("corrections", "windows", "headlines", "series", "samples", "lists", "queries")
    return {
        "data": data,
        "fingerprint": fingerprint,
        **{name: found[name] for name in kept},
        "seasons": _seasons(found),
        "family": {**found["family"], "looks": [_look(look) for look in found["family"]["looks"]]},
        "findings": [_finding(flat, asks(flat)) for flat in found["findings"]],
    }


def selection_of_format_0(found: Any) -> dict[str, Any]:
    """Today's fields: seasons with their days and matches."""
    kept = ("data", "corrections", "windows", "newcomers", "beats")
    return {**{name: found[name] for name in kept}, "seasons": _seasons(found)}


def _seasons(found: Flat) -> list[Flat]:
    return [
        {"label": label, "first": first, "last": last, "matches": matches}
        for label, first, last, matches in found["season_ends"]
    ]


def _look(look: Flat) -> Flat:
    return {name.replace("can't tell", "cant_tell"): count for name, count in look.items()}


def _finding(flat: Flat, asks: Comparison) -> Flat:
    about = flat["about"]
    made = {name: flat[name] for name in (*NAMED, *JUDGED, *OWN[about])}
    made |= {"asks": msgspec.to_builtins(asks), "effect": _effect(flat)}
    for side in ("a", "b"):
        made[side] = _group_change(flat[side]) if about == "gap" else flat[side]
    for name, upgrade in (("drift", _drift), ("control", _control)):
        if made.get(name):
            made[name] = upgrade(made[name])
    return made


def _effect(flat: Flat) -> Flat | None:
    if flat["refused"]:
        return None
    spans = {"difference": _span(flat, "difference"), "relative": _span(flat, "change")}
    kept = {name: flat[name] for name in (*TESTS, *DETECTABLE)}
    return {**spans, **_error(flat, flat["df"]), **kept}


def _error(flat: Flat, df: float | None) -> Flat:
    """The error of the difference, which was not written: the one that makes its interval."""
    df_units = MANY if df is None else df
    width = flat["difference_high"] - flat["difference_low"]
    return {"se": width / 2 / float(stdtrit(df_units, 0.975)), "df_units": df_units}


def _span(flat: Flat, name: str) -> Flat | None:
    """The value of that name with its two ends; none where there was none."""
    ends = {"value": flat[name], "low": flat[f"{name}_low"], "high": flat[f"{name}_high"]}
    return None if flat[name] is None else ends


def _group_change(side: Flat) -> Flat:
    own = {"difference": side["value"]}
    own |= {f"difference_{end}": side[end] for end in ("low", "high")}
    spans = {"difference": _span(own, "difference"), "change": _span(side, "change")}
    return {**spans, **{name: side[name] for name in COUNTS}}


def _drift(flat: Flat) -> Flat:
    test = None
    if flat["p"] is not None:
        test = {name: flat[name] for name in STEP} | {"step": _span(flat, "step")}
        test |= {name: _slope(flat[name]) for name in ("per_season", "expected")}
        width = math.log1p(flat["step_high"]) - math.log1p(flat["step_low"])
        test["se"] = width / 2 / float(stdtrit(flat["df"], 0.975))
    kept = {name: flat[name] for name in DRIFT}
    return {**kept, "p_adjusted": flat.get("p_adjusted"), "test": test}


def _slope(value: float) -> Flat:
    """A drift had no interval."""
    return {"value": value, "low": None, "high": None}


def _control(flat: Flat) -> Flat:
    """Its interval was written, and nothing of what it was made of but p and df."""
    kept = {name: flat[name] for name in ("name", "verdict", "p_adjusted")}
    beyond = flat["verdict"] == "beyond the control"
    effect = {
        **{"difference": _span(flat, "difference"), "relative": _span(flat, "change")},
        **_error(flat, flat["df"]),
        **{"se_log": None, "df": flat["df"], "p": flat["p"], "p_equal": 1.0},
        **{"p_permutation": flat["p"], "detectable_change": None, "detectable_difference": 0.0},
    }
    because = "beyond_chance" if beyond else "within_chance"
    return {**kept, "because": because, "effect": effect}

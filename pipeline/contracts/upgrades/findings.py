"""Findings and selections: every finding had the same flat keys, empty where it had no use."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec

from pipeline.contracts.comparison import Comparison
from pipeline.contracts.upgrades.format_1 import finding_of_format_1
from pipeline.contracts.upgrades.format_2 import series_of_format_2

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
STEP = ("per_season", "expected", "p", "df", "rank", "dates", "fit")
DRIFT = ("verdict", "because", "seasons_before", "seasons_after", "first", "last")


def findings_of_format_0(found: Any, asks: Callable[[Flat], Comparison]) -> dict[str, Any]:
    """Today's fields. `asks` gives the question that a flat finding answers: it was not written."""
    data = dict(found["data"])
    fingerprint = data.pop("fingerprint")
    kept = ("corrections", "windows", "headlines", "samples", "lists", "queries")
    return {
        "data": data,
        "fingerprint": fingerprint,
        **{name: found[name] for name in kept},
        "series": series_of_format_2(found["series"]),
        "seasons": _seasons(found),
        "family": {**found["family"], "looks": [_look(look) for look in found["family"]["looks"]]},
        "findings": [finding_of_format_1(_finding(flat, asks(flat))) for flat in found["findings"]],
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
    return {**spans, **{name: flat[name] for name in (*TESTS, *DETECTABLE)}}


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
        test = {**{name: flat[name] for name in STEP}, "step": _span(flat, "step")}
    kept = {name: flat[name] for name in DRIFT}
    return {**kept, "p_adjusted": flat.get("p_adjusted"), "test": test}


def _control(flat: Flat) -> Flat:
    kept = {name: flat[name] for name in ("name", "p", "df", "verdict", "p_adjusted")}
    return {**kept, "difference": _span(flat, "difference"), "relative": _span(flat, "change")}

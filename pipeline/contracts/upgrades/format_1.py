"""Findings of format 1: intervals were all of 95 %, and their errors were not written."""

from __future__ import annotations

import math
from typing import Any

Plain = dict[str, Any]
MANY = 1e9  # degrees of freedom where none were written: the normal law


def findings_of_format_1(found: Any) -> Plain:
    """Today's fields."""
    return {**found, "findings": [finding_of_format_1(one) for one in found["findings"]]}


def finding_of_format_1(finding: Plain) -> Plain:
    """One finding's effect, its drift and what it was held against."""
    made = dict(finding)
    if effect := made["effect"]:
        interval = "newcombe" if _of_matches(finding) else "t"
        error = _error(effect["difference"], effect["df"])
        made["effect"] = {**effect, **error, "interval": interval}
    if (drift := made.get("drift")) and drift["test"]:
        made["drift"] = {**drift, "test": _test(drift["test"])}
    if control := made.get("control"):
        made["control"] = _control(control)
    return made


def _of_matches(finding: Plain) -> bool:
    """Whether its ends are Newcombe's, which was not marked: those of two shares of matches.

    Only such a share is counted against as many as there are matches.
    """
    sides = finding["a"], finding["b"]
    return (
        finding["kind"] == "share"
        and finding["about"] in ("change", "groups")
        and all(side["denominator"] == side["matches"] for side in sides)
    )


def _error(difference: Plain, df: float | None) -> Plain:
    """The error of a difference: the one that makes its interval."""
    df_units = MANY if df is None else df
    width = difference["high"] - difference["low"]
    return {"se": width / 2 / _times(df_units), "df_units": df_units}


def _test(test: Plain) -> Plain:
    """A drift had no interval."""
    slopes = {
        name: {"value": test[name], "low": None, "high": None}
        for name in ("per_season", "expected")
    }
    step = test["step"]
    width = math.log1p(step["high"]) - math.log1p(step["low"])
    return {**test, **slopes, "se": width / 2 / _times(test["df"])}


def _control(control: Plain) -> Plain:
    """Its interval was written, and nothing of what it was made of but p and df."""
    beyond = control["verdict"] == "beyond the control"
    effect = {
        **{name: control[name] for name in ("difference", "relative", "p", "df")},
        **_error(control["difference"], control["df"]),
        **{"se_log": None, "p_equal": 1.0, "p_permutation": control["p"]},
        **{"detectable_change": None, "detectable_difference": 0.0},
    }
    kept = {name: control[name] for name in ("name", "verdict", "p_adjusted")}
    because = "beyond_chance" if beyond else "within_chance"
    return {**kept, "because": because, "effect": effect}


def _times(df: float) -> float:
    """Errors from the middle of a 95 % interval to its end."""
    from scipy.special import stdtrit  # a fifth of a second that stages need not wait for

    return float(stdtrit(df, 0.975))

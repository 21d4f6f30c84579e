"""A change on two scales with everything that is said of it; findings come out as plain values."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from pipeline.significance.methods import inference
from pipeline.significance.methods.ratio import Estimate, Sums, log_ratio, ratio
from pipeline.significance.methods.refusal import refusals

Numbers = dict[str, np.ndarray]
# What a proportion of matches may lack: none of six and six of six have no log.
OF_LOGS = ("change", "change_low", "change_high", "se_log", "df", "detectable_change")


def describe(
    sums: Sums, balls: np.ndarray, measure: dict[str, Any], least: int
) -> list[dict[str, Any]]:
    """Each cell's value with interval and counts; a reason in place of the interval if refused.

    `balls` are those of each match and cell. How many matches the uneven ones are worth is asked
    of the denominator, and of the balls where that is wickets: few and by chance, they would refuse
    half of all windows of ten matches, and the rest would cover less than they say. Of a proportion
    of matches (`by_match`) the interval is Wilson's.
    """
    sizes = balls if measure.get("per_wicket") else sums.x
    reasons = refusals(sums, least, sizes, measure.get("by_match", False))
    with np.errstate(all="ignore"):
        value = ratio(sums) * measure["per"]
        if measure.get("by_match"):
            ends = inference.wilson(sums.y.sum(0), sums.x.sum(0))
        else:
            ends = [np.exp(end) for end in log_ratio(sums).interval(0.95)]
        low, high = (end * measure["per"] for end in ends)
    return [
        {
            "value": number(value[cell]),
            "low": None if reason else number(low[cell]),
            "high": None if reason else number(high[cell]),
            "matches": int(sums.here[:, cell].sum()),
            "balls": int(balls[:, cell].sum()),
            "numerator": int(sums.y[:, cell].sum()),
            "denominator": int(sums.x[:, cell].sum()),
            "largest": _largest(sums.y[:, cell]),
            "refused": reason,
        }
        for cell, reason in enumerate(reasons)
    ]


def _largest(numerators: np.ndarray) -> float:
    """The share of the numerator that its largest match holds; nought of nothing."""
    total = float(np.abs(numerators).sum())
    return float(np.abs(numerators).max()) / total if total else 0.0


def number(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


def numbers_of(
    logs: Estimate, units: Estimate, measure: dict[str, Any], checked: np.ndarray | None
) -> Numbers:
    """What is told of a change: in units, as a fraction, p, whether inside the margin, what could
    have been seen. `checked` is the p of the shuffled matches, or None where there is none."""
    per = measure["per"]
    unit_ends, log_ends = units.interval(0.95), logs.interval(0.95)
    seen = inference.detectable(logs.se)
    p = logs.p_value()
    return {
        "difference": units.value * per,
        "difference_low": unit_ends[0] * per,
        "difference_high": unit_ends[1] * per,
        "change": np.expm1(logs.value),
        "change_low": np.expm1(log_ends[0]),
        "change_high": np.expm1(log_ends[1]),
        "se_log": logs.se,
        "df": logs.df,
        "p": p,
        "p_equal": equivalence(logs, units, measure),
        "p_permutation": p if checked is None else checked,
        "detectable_change": np.expm1(seen),
        "detectable_difference": inference.detectable(units.se) * per,
    }


def equivalence(logs: Estimate, units: Estimate, measure: dict[str, Any]) -> np.ndarray:
    """p that the change lies inside the margin: points of a share, per cent of a rate."""
    size = measure["margin"]["size"]
    if measure["margin"]["unit"] == "points":
        edge = size / measure["per"]
        return inference.tost(units, np.float64(-edge), np.float64(edge))
    share = size / 100
    return inference.tost(logs, np.log1p(-share), np.log1p(share))


def finding_of(
    cell: int, a: dict[str, Any], b: dict[str, Any], numbers: Numbers, measure: dict[str, Any]
) -> dict[str, Any]:
    """One cell's finding, its verdict still open; every number or none, and never half of them."""
    refused = a["refused"] or b["refused"]
    values = {name: None if refused else number(v[cell]) for name, v in numbers.items()}
    needed = [name for name in values if not (measure.get("by_match") and name in OF_LOGS)]
    if not refused and any(values[name] is None for name in needed):
        refused, values = "no_spread", dict.fromkeys(values)
    return {
        "a": a,
        "b": b,
        "refused": refused,
        **values,
        "margin": measure["margin"],
        "kind": measure["kind"],
        "notes": [],
    }

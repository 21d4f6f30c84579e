"""All cells of one measure of one beat compared at once; findings come out as plain values."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from pipeline.significance import inference
from pipeline.significance.frames import Pair
from pipeline.significance.ratio import Estimate, Sums, change, change_within, log_ratio, ratio
from pipeline.significance.refusal import refusals

SEED = 1  # of the robustness check only; no headline number depends on it
FEW_COUNTED = 30  # under 30 in the denominator is a caution by convention
DOMINATES = 0.25  # of a side's numerator in one match: look at that match first


def compare(pair: Pair, measure: dict[str, Any], statistics: dict[str, Any]) -> list[dict]:
    """One dict a cell: both sides, the change in units and in per cent, p, margin, notes."""
    least = statistics["least_matches"]
    sides = [
        describe(sums, balls, measure, least)
        for sums, balls in ((pair.a, pair.balls_a), (pair.b, pair.balls_b))
    ]
    step = change_within if pair.shared else change
    with np.errstate(all="ignore"):
        logs, units = step(pair.a, pair.b), step(pair.a, pair.b, log=False)
        equal = _equivalence(logs, units, measure)
        checked = _permuted(pair, statistics["permutations"])
        numbers = _numbers(logs, units, equal, checked, measure)
    return [
        _one(cell, sides[0][cell], sides[1][cell], numbers, measure, statistics)
        for cell in range(pair.a.y.shape[1])
    ]


def describe(
    sums: Sums, balls: np.ndarray, measure: dict[str, Any], least: int
) -> list[dict[str, Any]]:
    """Each cell's value with interval and counts; a reason in place of the interval if refused."""
    reasons = refusals(sums, least)
    with np.errstate(all="ignore"):
        value = ratio(sums) * measure["per"]
        low, high = (np.exp(end) * measure["per"] for end in log_ratio(sums).interval(0.95))
    return [
        {
            "value": _number(value[cell]),
            "low": None if reason else _number(low[cell]),
            "high": None if reason else _number(high[cell]),
            "matches": int(sums.here[:, cell].sum()),
            "balls": int(balls[cell]),
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


def _number(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


def _equivalence(logs: Estimate, units: Estimate, measure: dict[str, Any]) -> np.ndarray:
    """p that the change lies inside the margin: points of a share, per cent of a rate."""
    size = measure["margin"]["size"]
    if measure["margin"]["unit"] == "points":
        edge = size / measure["per"]
        return inference.tost(units, np.float64(-edge), np.float64(edge))
    share = size / 100
    return inference.tost(logs, np.log1p(-share), np.log1p(share))


def _permuted(pair: Pair, draws: int) -> np.ndarray:
    rng = np.random.default_rng(SEED)
    if pair.shared:
        return inference.permute_within(pair.a, pair.b, draws, rng)
    return inference.permute_windows(pair.a, pair.b, pair.blocks, draws, rng)


def _numbers(
    logs: Estimate,
    units: Estimate,
    equal: np.ndarray,
    checked: np.ndarray,
    measure: dict[str, Any],
) -> dict[str, np.ndarray]:
    per = measure["per"]
    unit_ends, log_ends = units.interval(0.95), logs.interval(0.95)
    seen = inference.detectable(logs.se)
    return {
        "difference": units.value * per,
        "difference_low": unit_ends[0] * per,
        "difference_high": unit_ends[1] * per,
        "change": np.expm1(logs.value),
        "change_low": np.expm1(log_ends[0]),
        "change_high": np.expm1(log_ends[1]),
        "se_log": logs.se,
        "df": logs.df,
        "p": logs.p_value(),
        "p_equal": equal,
        "p_permutation": checked,
        "detectable_change": np.expm1(seen),
        "detectable_difference": inference.detectable(units.se) * per,
    }


def _one(
    cell: int,
    a: dict[str, Any],
    b: dict[str, Any],
    numbers: dict[str, np.ndarray],
    measure: dict[str, Any],
    statistics: dict[str, Any],
) -> dict[str, Any]:
    refused = a["refused"] or b["refused"]
    values = {name: None if refused else _number(v[cell]) for name, v in numbers.items()}
    if not refused and any(value is None for value in values.values()):
        refused, values = "no_spread", dict.fromkeys(values)
    return {
        "a": a,
        "b": b,
        "refused": refused,
        **values,
        "margin": measure["margin"],
        "kind": measure["kind"],
        "notes": _notes(a, b, values, statistics),
    }


def _notes(
    a: dict[str, Any], b: dict[str, Any], values: dict[str, Any], statistics: dict[str, Any]
) -> list[dict[str, Any]]:
    """Cautions as codes with their numbers; the words for them are the brief's."""
    notes: list[dict[str, Any]] = []
    fewest = min(a["matches"], b["matches"])
    if statistics["least_matches"] <= fewest < statistics["few_matches"]:
        notes.append({"code": "few_matches", "matches": fewest})
    counted = min(a["denominator"], b["denominator"])
    if counted < FEW_COUNTED:
        notes.append({"code": "few_counted", "count": counted})
    largest = max(a["largest"], b["largest"])
    if largest >= DOMINATES and fewest >= statistics["least_matches"]:
        notes.append({"code": "one_match_dominates", "share": largest})
    if values["p"] is not None and _out(values, "difference") != _out(values, "change"):
        notes.append({"code": "scale_disagrees"})
    p, checked = values["p"], values["p_permutation"]
    if p is not None and (p < 0.05 < checked / 2 or checked < 0.05 < p / 2):
        notes.append({"code": "check_disagrees", "p": p, "p_permutation": checked})
    return notes


def _out(values: dict[str, Any], scale: str) -> bool:
    """Whether the interval on this scale leaves no change out."""
    return not values[f"{scale}_low"] <= 0 <= values[f"{scale}_high"]

"""The second verdict of before/after findings: beyond the drift, in line with it, not testable."""

from __future__ import annotations

import math
from datetime import date
from typing import Any

import numpy as np
import pandas as pd

from pipeline.significance.methods.drift import (
    LEAST_AFTER,
    LEAST_BEFORE,
    Seasons,
    fitted,
    of_gaps,
    of_rates,
    rank_among_dates,
    step_and_drift,
)
from pipeline.significance.methods.inference import benjamini_hochberg, holm

BEYOND, IN_LINE, NOT_TESTABLE = "beyond the drift", "in line with the drift", "not testable"
BEYOND_CONTROL, WITH_CONTROL = "beyond the control", "in line with the control"
View = dict[str, Any]
YEAR = 365.25  # days
TESTED = ("per_season", "expected", "step", "step_low", "step_high", "p", "df", "rank", "dates")


def drift_checks(
    rows: pd.DataFrame,
    cells: list[str],
    selection: View,
    event: View,
    against: list[str] | None = None,
    per: float | None = None,
) -> list[dict[str, Any]]:
    """What the seasons say of each cell's change; `rows` hold every season of the topic's data.

    With `against`, cells of the same length, it is of the gap: a cell's log rate over the other's.
    With `per`, the measure's scale, `fit` is the drift with its step at every season, to be drawn.
    `expected` is the change that the drift alone would have made between the windows' centres.
    """
    windows = selection["windows"]
    kept = _seasons(selection["season_ends"], windows["transition"], event["trend_from"])
    labels = [season["label"] for season in kept]
    after = np.array(
        [season["first"] >= date.fromisoformat(event["date"]) for season in kept], bool
    )
    counts = {"seasons_before": int((~after).sum()), "seasons_after": int(after.sum())}
    counts |= {"first": labels[0], "last": labels[-1]}
    few = _too_few(counts)
    if few:
        return [{**_untested(few), **counts} for _ in cells]
    time = np.array([season["middle"] for season in kept])
    time_from = time - time[0]
    seasons = of_rates(*_totals(rows, labels, cells), time_from)
    if against is not None:
        seasons = of_gaps(of_rates(*_totals(rows, labels, against), time_from), seasons)
    step, slope = step_and_drift(seasons, after)
    with np.errstate(all="ignore"):
        low, high = step.interval(0.95)
        p = step.p_value()
    rank, dates = rank_among_dates(seasons, after)
    apart = _apart(windows, dict(zip(labels, time, strict=True)))
    found = []
    for cell in range(len(cells)):
        values = [
            *(math.expm1(slope[cell]), math.expm1(slope[cell] * apart)),
            *(math.expm1(end[cell]) for end in (step.value, low, high)),
            *(p[cell], step.df[cell]),
        ]
        if not all(map(math.isfinite, values)):
            found.append({**_untested("empty_season"), **counts})
            continue
        numbers = dict(zip(TESTED, [*map(float, values), int(rank[cell]), dates], strict=True))
        line = _line(seasons, after, cell, labels, per) if per else None
        found.append({"verdict": None, "because": None, **numbers, **counts, "fit": line})
    return found


def _line(
    seasons: Seasons, after: np.ndarray, cell: int, labels: list[str], per: float
) -> list[tuple[str, float]]:
    one = Seasons(seasons.log[:, [cell]], seasons.weight[:, [cell]], seasons.time)
    values = np.exp(fitted(one, after)[:, 0]) * per
    return [(label, float(value)) for label, value in zip(labels, values, strict=True)]


def _untested(because: str) -> dict[str, Any]:
    return {"verdict": NOT_TESTABLE, "because": because, **dict.fromkeys((*TESTED, "fit"))}


def _too_few(counts: dict[str, Any]) -> str | None:
    if counts["seasons_before"] < LEAST_BEFORE:
        return "few_seasons_before"
    return "few_seasons_after" if counts["seasons_after"] < LEAST_AFTER else None


def _seasons(ends: list[list], transition: str | None, first: str | None) -> list[dict[str, Any]]:
    """Seasons from the first wanted on, without the one that the event fell inside."""
    labels = [label for label, *_ in ends]
    begin = labels.index(first) if first in labels else 0
    found = []
    for label, start, end, _ in ends[begin:]:
        if label != transition:
            days = [date.fromisoformat(start), date.fromisoformat(end)]
            middle = sum(day.toordinal() for day in days) / 2 / YEAR
            found.append({"label": label, "first": days[0], "middle": middle})
    return found


def _totals(
    rows: pd.DataFrame, labels: list[str], cells: list[str]
) -> tuple[np.ndarray, np.ndarray]:
    season = pd.Index(labels).get_indexer(rows["season"])
    cell = pd.Index(cells).get_indexer(rows["cell"])
    kept = (season >= 0) & (cell >= 0)
    y, x = np.zeros((len(labels), len(cells))), np.zeros((len(labels), len(cells)))
    np.add.at(y, (season[kept], cell[kept]), rows["y"].to_numpy()[kept])
    np.add.at(x, (season[kept], cell[kept]), rows["x"].to_numpy()[kept])
    return y, x


def _apart(windows: View, middle: dict[str, float]) -> float:
    """Years between the centres of the two windows."""
    before, after = (
        float(np.mean([middle[label] for label in windows[side]])) for side in ("before", "after")
    )
    return after - before


def judge_drift(findings: list[dict[str, Any]], headlines: list[str], alpha: float) -> None:
    """Set the second verdict of every finding whose drift could be tested."""
    tested = [f for f in findings if f.get("drift") and f["drift"]["p"] is not None]
    _judge([(f["id"], f["drift"]) for f in tested], headlines, alpha, (BEYOND, IN_LINE))
    for finding in tested:
        drift = finding["drift"]
        beyond = drift["verdict"] == BEYOND
        drift["because"] = "step_beyond_chance" if beyond else "step_within_chance"


def judge_control(findings: list[dict[str, Any]], headlines: list[str], alpha: float) -> None:
    """Set the verdict beside the control of every finding that has one."""
    tested = [(finding["id"], finding["control"]) for finding in findings if finding["control"]]
    _judge(tested, headlines, alpha, (BEYOND_CONTROL, WITH_CONTROL))


def _judge(
    tested: list[tuple[str, View]], headlines: list[str], alpha: float, words: tuple[str, str]
) -> None:
    """Headlines by Holm, the others by Benjamini and Hochberg, both at alpha."""
    for chosen, method in ((True, holm), (False, benjamini_hochberg)):
        family = [check for identity, check in tested if (identity in headlines) is chosen]
        adjusted = method(np.array([check["p"] for check in family]))
        for check, value in zip(family, adjusted, strict=True):
            check["p_adjusted"] = float(value)
            check["verdict"] = words[0] if value < alpha else words[1]


def rivals(also: list[View], windows: View, ends: list[list]) -> list[str]:
    """Other events between the first season before and the last season after."""
    spans = {label: (start, end) for label, start, end, _ in ends}
    first, last = spans[windows["before"][0]][0], spans[windows["after"][-1]][1]
    return [event["name"] for event in also if first <= event["date"] <= last]

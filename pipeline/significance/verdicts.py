"""The first verdict: did the number move? One family a topic, headlines by Holm, tables by BH."""

from __future__ import annotations

from typing import Any

import numpy as np

from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.significance.methods.inference import benjamini_hochberg, holm

CHANGED, HELD, CANT_TELL = "changed", "held", "can't tell"


def judge(
    findings: list[dict[str, Any]], headlines: list[str], statistics: dict[str, Any], file: str
) -> dict[str, Any]:
    """Adjust the p-values, set each finding's verdict, and return the family as written out.

    A refused look still counts in its family (with p = 1): what was looked at was looked at.
    """
    compared = [finding for finding in findings if "p" in finding]
    _check_headlines(compared, headlines, file)
    chosen = [finding for finding in compared if finding["id"] in headlines]
    others = [finding for finding in compared if finding["id"] not in headlines]
    _adjust(chosen, holm, "holm", statistics["alpha"])
    _adjust(others, benjamini_hochberg, "bh", statistics["table_rate"])
    return {
        "looked_at": len(compared),
        "headlines": len(chosen),
        "tables": len(others),
        "refused": sum(finding["refused"] is not None for finding in compared),
        "alpha": statistics["alpha"],
        "table_rate": statistics["table_rate"],
        "changed": sum(finding["verdict"] == CHANGED for finding in compared),
        "held": sum(finding["verdict"] == HELD for finding in compared),
        "cant_tell": sum(finding["verdict"] == CANT_TELL for finding in compared),
        "looks": _looks(compared, headlines),
    }


def _looks(findings: list[dict[str, Any]], headlines: list[str]) -> list[dict[str, Any]]:
    """The family written out: of every beat and measure, how many looks and what they came to."""
    looks: dict[tuple[str, str], dict[str, Any]] = {}
    for finding in findings:
        key = finding["beat"], finding["measure"]
        look = looks.setdefault(
            key,
            {
                **{"beat": key[0], "measure": key[1], "looks": 0, "headlines": 0},
                **dict.fromkeys((CHANGED, HELD, CANT_TELL), 0),
            },
        )
        look["looks"] += 1
        look["headlines"] += finding["id"] in headlines
        look[finding["verdict"]] += 1
    return list(looks.values())


def _check_headlines(findings: list[dict[str, Any]], headlines: list[str], file: str) -> None:
    there = [finding["id"] for finding in findings]
    wrong = [name for name in headlines if name not in there]
    if wrong:
        raise UserError(
            Problem(file, f"no finding '{name}' to be a headline{did_you_mean(name, there)}")
            for name in wrong
        )


def _adjust(findings: list[dict[str, Any]], method: Any, name: str, level: float) -> None:
    p = np.array([1.0 if f["refused"] else f["p"] for f in findings])
    for finding, adjusted in zip(findings, method(p), strict=True):
        finding["p_adjusted"] = None if finding["refused"] else float(adjusted)
        finding["adjusted_by"] = name
        finding["family_size"] = len(findings)
        finding["verdict"], finding["because"] = _verdict(finding, float(adjusted), level)


def _verdict(finding: dict[str, Any], adjusted: float, level: float) -> tuple[str, str]:
    """(verdict, the reason as a code). A change surely inside the margin counts as none."""
    if finding["refused"]:
        return CANT_TELL, "refused"
    if finding["p_equal"] < 0.05:
        return HELD, "moved_within_margin" if adjusted < level else "inside_margin"
    if adjusted < level:
        return CHANGED, "beyond_chance"
    return CANT_TELL, "lost_among_many" if finding["p"] < 0.05 else "interval_too_wide"

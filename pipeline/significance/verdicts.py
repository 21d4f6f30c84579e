"""The first verdict: did the number move? One family a topic, headlines by Holm, tables by BH."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from pipeline.contracts.codes import Adjustment, Because, Verdict
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Family, Look
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.significance.methods.inference import benjamini_hochberg, holm
from pipeline.significance.methods.ratio import Floats
from pipeline.topic_places import dotted

if TYPE_CHECKING:
    from pipeline.config.project import Statistics

SURE = 0.05  # of the two one-sided tests that a change lies inside the margin


def judge(
    findings: list[Finding], headlines: list[str], statistics: Statistics, file: str
) -> Family:
    """Adjust the p-values, set each finding's verdict, and return the family as written out.

    A refused look still counts in its family (with p = 1): what was looked at was looked at.
    """
    _check_headlines(findings, headlines, file)
    chosen = [finding for finding in findings if finding.id in headlines]
    others = [finding for finding in findings if finding.id not in headlines]
    _adjust(chosen, holm, "holm", statistics.alpha)
    _adjust(others, benjamini_hochberg, "bh", statistics.table_rate)
    return Family(
        looked_at=len(findings),
        headlines=len(chosen),
        tables=len(others),
        refused=sum(finding.refused is not None for finding in findings),
        alpha=statistics.alpha,
        table_rate=statistics.table_rate,
        changed=_count(findings, "changed"),
        held=_count(findings, "held"),
        cant_tell=_count(findings, "can't tell"),
        looks=_looks(findings, headlines),
    )


def _count(findings: list[Finding], verdict: Verdict) -> int:
    return sum(finding.verdict == verdict for finding in findings)


def _looks(findings: list[Finding], headlines: list[str]) -> list[Look]:
    """The family written out: of every beat and measure, how many looks and what they came to."""
    groups: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        groups.setdefault((finding.beat, finding.measure), []).append(finding)
    return [
        Look(
            beat=beat,
            measure=measure,
            looks=len(mine),
            headlines=sum(finding.id in headlines for finding in mine),
            changed=_count(mine, "changed"),
            held=_count(mine, "held"),
            cant_tell=_count(mine, "can't tell"),
        )
        for (beat, measure), mine in groups.items()
    ]


def _check_headlines(findings: list[Finding], headlines: list[str], file: str) -> None:
    there = [finding.id for finding in findings]
    wrong = [name for name in headlines if name not in there]
    if wrong:
        raise UserError(
            Problem(
                file,
                f"no finding '{name}' to be a headline{did_you_mean(name, there)}",
                where=dotted(("headlines", headlines.index(name))),
            )
            for name in wrong
        )


def _adjust(
    findings: list[Finding], method: Callable[[Floats], Floats], name: Adjustment, level: float
) -> None:
    p = np.array([finding.effect.p if finding.effect else 1.0 for finding in findings])
    for finding, adjusted in zip(findings, method(p), strict=True):
        finding.p_adjusted = float(adjusted) if finding.effect else None
        finding.adjusted_by = name
        finding.family_size = len(findings)
        finding.verdict, finding.because = verdict(finding, float(adjusted), level)


def verdict(finding: Finding, adjusted: float, level: float) -> tuple[Verdict, Because]:
    """(verdict, the reason as a code). A change surely inside the margin counts as none."""
    effect = finding.effect
    if effect is None:
        return "can't tell", "refused"
    if effect.p_equal < SURE:
        return "held", "moved_within_margin" if adjusted < level else "inside_margin"
    if adjusted < level:
        return "changed", "beyond_chance"
    return "can't tell", "lost_among_many" if effect.p < 0.05 else "interval_too_wide"

"""The first verdict: did the number move? One family a topic, headlines by Holm, tables by BH.

A case of the table below is one look: the p of its change, the p of its lying inside the margin,
and what its family leaves of both. No other module decides any of this again.

| interval at its level | verdict | because |
| --- | --- | --- |
| leaves no change out, and leaves the margin | changed | beyond_chance |
| inside the margin, and its change stands among so many | held | moved_within_margin |
| inside the margin otherwise | held | inside_margin |
| neither, and at 95 % it would lie inside the margin | can't tell | held_lost_among_many |
| neither, and at 95 % it would leave no change out, and the margin | can't tell | lost_among_many |
| neither, and at 95 % its matches alone would leave no change out | can't tell | usual_between_* |
| neither, nor at 95 % | can't tell | interval_too_wide |
| there is none | can't tell | refused |

A change stands that its family leaves, and that the interval leaves none out of. An interval inside
the margin may leave none out though its change is lost: it held, and that it moved is not said.
What is usual is so between periods, or between grounds, batters, bowlers or sides (`level.py`).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, get_args

import numpy as np

from pipeline.contracts.codes import Adjustment, Because, Unit, Verdict
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Family, Look
from pipeline.contracts.parts import Effect
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.significance.earlier import NONE, Counted
from pipeline.significance.methods.inference import benjamini_hochberg, holm
from pipeline.significance.methods.levels import Asked, Printed, holm_steps, picked_share, printed
from pipeline.significance.methods.ratio import Floats
from pipeline.topic_places import dotted

if TYPE_CHECKING:
    from pipeline.config.project import Statistics

Same = list[Finding]  # the findings of one look, in the order of the beats


def judge(
    findings: list[Finding],
    headlines: list[str],
    statistics: Statistics,
    file: str,
    earlier: Counted = NONE,
) -> Family:
    """Adjust the p-values, set each finding's verdict and level, and return the family.

    Headlines of `earlier` builds are counted with those of today, each with the p that it had.

    Findings that answer one question are one look, a headline if any of them is one. A refused look
    still counts in its family (with p = 1): what was looked at was looked at.
    """
    _check_headlines(findings, headlines, file)
    chosen, others = divided(findings, headlines, lambda finding: finding.asks.look)
    for look in chosen + others:
        for each in look[1:]:
            each.again = look[0].id
    alpha, rate = statistics.alpha, statistics.table_rate
    _judge(chosen, holm, "holm", lambda p: holm_steps(p, alpha), alpha, earlier)
    _judge(others, benjamini_hochberg, "bh", lambda p: picked_share(p, rate, alpha), alpha, NONE)
    first = [look[0] for look in chosen + others]
    return Family(
        looked_at=len(first),
        again=len(findings) - len(first),
        headlines=len(chosen),
        tables=len(others),
        refused=sum(finding.refused is not None for finding in first),
        alpha=alpha,
        table_rate=rate,
        changed=_count(first, "changed"),
        held=_count(first, "held"),
        cant_tell=_count(first, "can't tell"),
        looks=_looks(findings),
        earlier=len(earlier.looks),
    )


def divided(
    findings: list[Finding], headlines: list[str], question: Callable[[Finding], str]
) -> tuple[list[Same], list[Same]]:
    """(headlines, all others) as looks: the findings of one question together."""
    looks: dict[str, Same] = {}
    for finding in findings:
        looks.setdefault(question(finding), []).append(finding)
    is_headline = [any(each.id in headlines for each in look) for look in looks.values()]
    parted: tuple[list[Same], list[Same]] = ([], [])
    for look, first in zip(looks.values(), is_headline, strict=True):
        parted[0 if first else 1].append(look)
    return parted


def _count(findings: list[Finding], verdict: Verdict) -> int:
    return sum(finding.verdict == verdict for finding in findings)


def _looks(findings: list[Finding]) -> list[Look]:
    """The family written out: of every beat and measure, how many looks and what they came to."""
    groups: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        groups.setdefault((finding.beat, finding.measure), []).append(finding)
    return [_look(beat, measure, mine) for (beat, measure), mine in groups.items()]


def _look(beat: str, measure: str, mine: list[Finding]) -> Look:
    new = [finding for finding in mine if finding.again is None]
    return Look(
        beat=beat,
        measure=measure,
        looks=len(new),
        again=len(mine) - len(new),
        headlines=sum(finding.adjusted_by == "holm" for finding in new),
        changed=_count(new, "changed"),
        held=_count(new, "held"),
        cant_tell=_count(new, "can't tell"),
    )


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


def _judge(
    looks: list[Same],
    method: Callable[[Floats], Floats],
    name: Adjustment,
    asked: Callable[[Floats], Asked],
    alpha: float,
    earlier: Counted,
) -> None:
    """Both claims of every look in its family, and the level that its interval is printed at."""
    effects = [look[0].effect for look in looks]
    p = np.array([effect.p if effect else 1.0 for effect in effects])
    inside = np.array([effect.p_inside if effect else 1.0 for effect in effects])
    every = np.append(p, earlier.changes)
    change = asked(every).of_first(len(p))
    equal = asked(np.append(inside, earlier.helds)).of_first(len(p))
    told = printed(p, inside, change, equal, alpha)
    for at, (look, adjusted) in enumerate(zip(looks, method(every)[: len(p)], strict=True)):
        for finding in look:
            finding.p_adjusted = float(adjusted) if finding.effect else None
            finding.adjusted_by, finding.family_size = name, len(every)
            finding.asked_at = float(change.rate[at])
            finding.verdict, finding.because = verdict(finding, told, at, alpha)
            if finding.effect:
                finding.effect.level = 1 - float(told.rate[at])


def verdict(finding: Finding, told: Printed, at: int, alpha: float) -> tuple[Verdict, Because]:
    """(verdict, the reason as a code). A change surely inside the margin counts as none."""
    if finding.effect is None:
        return "can't tell", "refused"
    if told.inside[at]:
        return "held", "moved_within_margin" if told.moved[at] else "inside_margin"
    if told.moved[at]:
        return "changed", "beyond_chance"
    if finding.effect.p_inside < alpha:
        return "can't tell", "held_lost_among_many"
    if finding.effect.p < alpha:
        return "can't tell", "lost_among_many"
    return "can't tell", _too_wide(finding.effect, alpha)


def at_rate(effect: Effect, rate: float) -> Verdict:
    """The verdict of one comparison whose interval is printed at this error rate."""
    if effect.p_inside < rate:
        return "held"
    return "changed" if effect.p < rate else "can't tell"


def by_ends(low: float, high: float, edge: float) -> Verdict:
    """The same of a number that has an interval and no p; `edge` is the margin on its scale."""
    if -edge < low and high < edge:
        return "held"
    return "changed" if low > 0 or high < 0 else "can't tell"


def _too_wide(effect: Effect, alpha: float) -> Because:
    """Whether it is too wide for what its periods, or clusters, do anyway."""
    if effect.cluster is None or not effect.cluster.wider or effect.p_match >= alpha:
        return "interval_too_wide"
    periods = effect.cluster.of in get_args(Unit)
    return "usual_between_periods" if periods else "usual_between_clusters"

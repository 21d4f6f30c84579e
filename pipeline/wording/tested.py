"""How a number was tested: size, interval, p, and its place among the looks of the topic."""

from __future__ import annotations

from pipeline.contracts.codes import Adjustment, Because
from pipeline.contracts.finding import Finding, Mix, Rates, Turn
from pipeline.contracts.over_time import TurningDate
from pipeline.wording import numbers
from pipeline.wording.clusters import by_shown
from pipeline.wording.confidence import interval_heading
from pipeline.wording.labels import period_said
from pipeline.wording.scales import change_of

# What made a verdict.
JUDGED: dict[Because, str] = {
    "beyond_chance": "beyond chance",
    "moved_within_margin": "moved within margin",
    "inside_margin": "inside margin",
    "lost_among_many": "lost among many",
    "held_lost_among_many": "held, but lost among many",
    "usual_between_periods": "usual between periods",
    "usual_between_clusters": "usual between clusters",
    "interval_too_wide": "interval too wide",
    "refused": "refused",
}
METHODS: dict[Adjustment, str] = {"holm": "Holm", "bh": "Benjamini and Hochberg"}


def change_tested(finding: Finding) -> str:
    """A change, or a difference of groups."""
    change = change_of(finding)
    return (
        f"{change.shown()}, {interval_heading(finding.told.level)} {change.interval()}, "
        f"{numbers.p_shown(finding.told.p)}{by_shown(finding)}, {among_the_looks(finding)}"
        f"{shuffled(finding)}"
    )


def date_tested(finding: Finding, turn: TurningDate) -> str:
    """A date, which is the largest of many breaks that were tried."""
    left_out = len(turn.left_out)
    without = f"; {numbers.counted(left_out, turn.every)} left out: nothing to count against"
    return (
        f"largest of {numbers.counted(turn.dates, 'date')} (F {numbers.shown(turn.sup_f, 1)}), by "
        f"simulation {numbers.p_shown(finding.told.p)}, {among_the_looks(finding)}"
        f"{without if left_out else ''}"
    )


def dates_shown(turn: TurningDate) -> str:
    """The dates that are left in: 'after the 2016 season; the 95% set holds no other'."""
    if turn.low == turn.high:
        return f"{after(turn.low, turn)}; the 95% set holds no other"
    return f"95%: from {after(turn.low, turn)} to {after(turn.high, turn)}"


def after(label: str, turn: TurningDate) -> str:
    """'after the 2016 season', 'after 2016 Q3', 'after the year from Oct 2012'."""
    return f"after the {label} season" if turn.every == "season" else f"after {period_said(label)}"


def levels_are(turn: TurningDate) -> str:
    """What the levels on both sides of a date are of, and the step between them."""
    return (
        f"of a straight line with one step, midway between {period_said(turn.last)} and "
        f"{period_said(turn.next)}; the step "
        "is what stands there beside the trend"
    )


def among_the_looks(finding: Finding) -> str:
    """'p = 0.031 among 7 (Holm)'."""
    if finding.p_adjusted is None or finding.adjusted_by is None:
        raise ValueError(f"{finding.id} was not judged among its family")
    adjusted = numbers.p_shown(finding.p_adjusted)
    return f"{adjusted} among {finding.family_size} ({METHODS[finding.adjusted_by]})"


def shuffled(finding: Finding) -> str:
    """The robustness check beside the test; parts of a mix have none, a turn's p is its own."""
    if isinstance(finding, Mix | Rates | Turn):
        return ""
    return f"; whole matches shuffled {numbers.p_shown(finding.told.p_permutation)}"

"""How it was done, in plain words, with the numbers of this brief."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from pipeline.brief.coverage import known_line
from pipeline.contracts.finding import drift_of
from pipeline.contracts.findings import Family, Findings
from pipeline.contracts.parts import Drift
from pipeline.contracts.selection import Holdings
from pipeline.periods import overlap
from pipeline.text import capitalised, listed
from pipeline.wording import numbers
from pipeline.wording.labels import FROM, period_said
from pipeline.wording.windows import window_lines

if TYPE_CHECKING:
    from pipeline.config.views import BriefView, NamedEvent
    from pipeline.contracts.timing import Timing


def method_lines(view: BriefView, findings: Findings) -> list[str]:
    """One paragraph a step."""
    statistics, family = view.project.statistics, findings.family
    alpha = numbers.percent(family.alpha, 0, signed=False)
    rate = numbers.percent(family.table_rate, 0, signed=False)
    lines = [
        "Every number is one sum over balls divided by another, added up match by match. The match "
        "is the unit that varies: balls of one match share a pitch, a day and two sides, so they "
        "are not independent.",
        "Each 95% interval comes from leaving out one match at a time (the jackknife), on the log "
        "scale, so that changes are percentages; changes in units use the same method unlogged. "
        f"With fewer than {statistics.least_matches} matches on a side there is no interval and no "
        "verdict.",
        "Groups that share matches, such as pace and spin, are left out together, so that what "
        "the match did to both cancels.",
        f"{numbers.counted(family.looked_at, 'comparison')} were looked at{_again(family)}. The "
        f"{family.headlines} headline numbers are held to {alpha} between them (Holm), the "
        f"{family.tables} others to a {rate} share of false calls (Benjamini and Hochberg).",
        "A verdict never says more than the interval beside it. Changed: the interval leaves no "
        "change out. Held: all of it lies inside a margin fixed in advance. Can’t tell: neither. "
        "An interval that would carry a claim by itself was picked out of many for that, so it is "
        "widened for the number of looks, a headline’s to its step of Holm’s, a row’s to the share "
        "of rows that were picked (Benjamini and Yekutieli); the claim is made only if the wider "
        "interval still carries it. Where it does not, the row says “one of” so many “looks”.",
        "In each table, “could see” is the smallest true change that such data would call changed "
        "four times in five, at the level that the row is held to.",
        f"Beside each test, whole matches were shuffled {statistics.permutations:,} times; "
        "where that gives another answer, the row says so.",
    ]
    lines += _panel_lines(findings)
    lines += _names_lines(findings)
    for event, timing in _events(view, findings):
        if timing.windows:
            lines += window_lines(event, timing.windows)
    if view.event and findings.windows:
        lines += _drift_lines(findings)
    return lines + _data_lines(findings.data)


def _again(family: Family) -> str:
    """What several beats show is one comparison."""
    if not family.again:
        return ""
    return f" ({numbers.counted(family.again, 'row shows', 'rows show')} one of them again)"


def _panel_lines(findings: Findings) -> list[str]:
    """In which other ways the headlines were asked, where any was."""
    panels = [finding.panel for finding in findings.findings if finding.panel]
    if not panels:
        return []
    stretch = panels[0].stretch
    return [
        "Each headline that is a change between windows was asked again in other reasonable ways, "
        f"fixed before any number was seen: with windows a {stretch} longer or shorter; without "
        f"each {stretch}, ground and side in turn; without shortened chases, and without the one "
        "match that moves it most; with its error on the other scale. Each has its verdict by the "
        "same rule, at the confidence of the headline’s own interval. “The same” means the same "
        "verdict, and of a change the same way. These are not more looks: nothing is claimed of "
        "any of them."
    ]


def _names_lines(findings: Findings) -> list[str]:
    """What is claimed of single players, where there is a list of them."""
    if not findings.lists:
        return []
    alpha = numbers.percent(findings.family.alpha, 0, signed=False)
    return [
        "A list of players invites picking, so each change is drawn in towards the mean of the "
        "player’s kind, the more the less it stands on; “luck allowed for” is that, with its 95% "
        "interval. Two things are said of a name. Moved: the change is beyond chance among all the "
        "comparisons above, and its interval leaves no change out with luck allowed for too, "
        "whatever the others did. Stands clear, or apart: it is told from the mean of its kind, "
        f"moved or not, at {alpha} over the whole list (Benjamini and Hochberg). What separates "
        "players is called luck only where Cochran’s Q, with Welch’s allowance for spreads that "
        "are themselves estimates, finds no more, and less than half of a deviation is kept."
    ]


def _events(view: BriefView, findings: Findings) -> Iterator[tuple[NamedEvent, Timing]]:
    """The topic's event, and every other that a beat is about, with what it makes of time."""
    if view.event:
        yield view.event, findings.timing
    for about, event in view.others.items():
        yield event, findings.others[about]


def _drift_lines(findings: Findings) -> list[str]:
    """How the second question was asked, with this brief's periods."""
    drifts = [drift for finding in findings.findings if (drift := drift_of(finding))]
    asked = list(dict.fromkeys(_asked(drift) for drift in drifts))
    if not asked:
        return []
    first, *others = asked
    unit = drifts[0].unit
    lines = [
        f"Whatever the first answer, {first} are asked whether there is a step on top of the "
        f"drift: a weighted line through the log rates of the {unit}s, with a step at the event, "
        f"and t with {unit}s minus three degrees of freedom. Beyond the drift: the step’s "
        "interval, widened in the same way, leaves none out. In line with it: a step can’t be "
        "told from no step. That a number was rising or falling is said only where the drift’s "
        f"own interval leaves none out. It needs eight {unit}s before and three after. The step "
        f"is ranked among those at every date with three {unit}s on either side."
    ]
    lines += [f"Of another event {other} are asked the same." for other in others]
    return lines + _units_lines(findings, drifts[0])


def _asked(drift: Drift) -> str:
    """'the seasons 2009 to 2022 (8 before, 6 after)', 'the years begun from 1 Oct 2009 to ...'."""
    ends = f"{drift.first} to {drift.last}"
    if not drift.first:
        ends = "of the data, of which there are none"
    elif FROM in drift.last:
        begun = [label.partition(FROM)[2] for label in (drift.first, drift.last)]
        ends = f"begun from {' to '.join(begun)}"
    return f"the {drift.unit}s {ends} ({drift.periods_before} before, {drift.periods_after} after)"


def _units_lines(findings: Findings, drift: Drift) -> list[str]:
    """Why it is told by years where it is not by seasons, and what is in no line."""
    lines = []
    if drift.unit == "year" and overlap(findings.seasons):
        lines.append(
            "The seasons of these matches are played side by side, so drift and trend are told by "
            "the year, counted from the day of the event."
        )
    if drift.left_out:
        out = listed([period_said(label) for label in drift.left_out])
        lines.append(
            f"In no line, and drawn hollow: {out}, "
            "of which there is too little, or which the event or its settling in falls inside."
        )
    return lines


def _data_lines(data: Holdings) -> list[str]:
    """What is known of the balls, and what the files cannot say."""
    line = known_line(data)
    lines = [f"{capitalised(line)}. Rows that need what is unknown leave it out."] if line else []
    reduced = data.targets_reduced
    if reduced:
        count = numbers.counted(reduced, "match has", "matches have")
        lines.append(
            f"{count} a reduced target. Whether a first innings was shortened is not in the files, "
            "so it is not known."
        )
    return lines

"""How it was done, in plain words, with the numbers of this brief."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.brief.coverage import known_line
from pipeline.contracts.finding import drift_of
from pipeline.contracts.findings import Family, Findings
from pipeline.contracts.selection import Holdings, Windows
from pipeline.text import capitalised, listed
from pipeline.wording import numbers

if TYPE_CHECKING:
    from pipeline.config.views import BriefView, NamedEvent


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
    lines += _names_lines(findings)
    if findings.windows and view.event:
        lines.append(_windows_line(view.event, findings.windows))
        lines += _drift_lines(findings)
    return lines + _data_lines(findings.data)


def _again(family: Family) -> str:
    """What several beats show is one comparison."""
    if not family.again:
        return ""
    return f" ({numbers.counted(family.again, 'row shows', 'rows show')} one of them again)"


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


def _windows_line(event: NamedEvent, windows: Windows) -> str:
    before, after = listed(windows.before), listed(windows.after)
    date = event.date.isoformat()
    line = f"Before {event.name} ({date}) are the seasons {before}; after it, {after}."
    if windows.transition:
        line += f" It came during {windows.transition}, which is in neither."
    return line


def _drift_lines(findings: Findings) -> list[str]:
    """How the second question was asked, with this brief's seasons."""
    checks = [drift for finding in findings.findings if (drift := drift_of(finding))]
    if not checks:
        return []
    first = checks[0]
    return [
        f"Whatever the first answer, the seasons {first.first} to {first.last} "
        f"({first.seasons_before} before, {first.seasons_after} after) are asked whether "
        "there is a step on top of the drift: a weighted line through the log rates of the "
        "seasons, with a step at the event, and t with seasons minus three degrees of freedom. "
        "Beyond the drift: the step’s interval, widened in the same way, leaves none out. In line "
        "with it: a step can’t be told from no step. That a number was rising or falling is said "
        "only where the drift’s own interval leaves none out. It needs eight seasons before and "
        "three after. The step is ranked among those at every date with three seasons on either "
        "side."
    ]


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

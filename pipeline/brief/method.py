"""How it was done, in plain words, with the numbers of this brief."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.brief.coverage import known_line
from pipeline.brief.used_events import Used, used_events
from pipeline.contracts.codes import UnitBecause
from pipeline.contracts.finding import control_of, drift_of, yardstick_of
from pipeline.contracts.findings import Family, Findings
from pipeline.contracts.over_time import Drift
from pipeline.contracts.selection import Holdings
from pipeline.text import capitalised, listed
from pipeline.wording import numbers
from pipeline.wording.clusters import UNITS, swings
from pipeline.wording.composition import composition_of
from pipeline.wording.labels import FROM, period_said
from pipeline.wording.versions import earlier_lines
from pipeline.wording.windows import window_lines

if TYPE_CHECKING:
    from pipeline.config.views import BriefView


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
        *_level_lines(findings),
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
    lines += earlier_lines(family, len(findings.earlier), findings.versions)
    lines += _panel_lines(findings)
    lines += _names_lines(findings)
    lines += _composition_lines(findings)
    used = used_events(view, findings)
    for one in used:
        lines += window_lines(one.event, one.windows)
    lines += _drift_lines(findings, used)
    return lines + _data_lines(findings.data)


def _level_lines(findings: Findings) -> list[str]:
    """At which level the errors are, where any is of more than its matches."""
    effects = [one.effect for one in findings.findings if one.effect and one.effect.cluster]
    made_of = dict.fromkeys(effect.cluster.of for effect in effects if effect.cluster)
    groups = [f"{of}s" for of in made_of if of not in UNITS]
    lines = [
        f"A change is a question about {unit}s, so the same is done with whole {unit}s left "
        f"out, one spread for both windows and t with {unit}s minus two; the wider of the two "
        f"errors is used. What one {unit} does to all its matches then counts as luck, too. "
        "Shares of whole matches keep their own interval, of matches alone."
        for unit in made_of
        if unit in UNITS
    ]
    if groups:
        lines.append(
            f"A difference of groups is held in the same way against the {listed(groups)} that "
            "they are made of, with fewer than four in a group no number is given; two innings, "
            "phases, results or named grounds and sides against matches alone, and so is what is "
            "counted an innings or a match."
        )
    yardsticks = (yardstick_of(one) for one in findings.findings)
    for unit in dict.fromkeys(one.unit for one in yardsticks if one):
        lines.append(
            f"How far a number moves {swings(unit)} with no event is what is left of its "
            "scatter about the drift once the luck of matches is taken off (a standard deviation)."
        )
    return lines


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
    stretches = list(dict.fromkeys(panel.stretch for panel in panels))
    longer, without = " or ".join(stretches), " or ".join(f"{each}s" for each in stretches)
    return [
        "Each headline that is a change, or a gap of two, between windows was asked again in other "
        f"reasonable ways, fixed before any number was seen: with windows a {longer} longer or "
        f"shorter; without each {longer}, ground and side in turn; without shortened chases, and "
        "without the one match that moves it most; with its error on the other scale; like for "
        "like, and with what else changed held still, where there are such numbers. Each has its "
        "verdict by the same rule, at the confidence of the headline’s own interval. A way that "
        f"leaves too few {without} for an error by {without} is not among them. “The same” means "
        "the same verdict, and of a change the same way. These are not more looks: nothing is "
        "claimed of any of them. Groups of a mix, and lists of players, are not asked so."
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


def _composition_lines(findings: Findings) -> list[str]:
    """How it was asked what else changed, where it was."""
    if not any(composition_of(finding) for finding in findings.findings):
        return []
    return [
        "Of each headline that is a change it is asked what else changed: who batted, who bowled, "
        "where, which innings and so on, as shares of the balls, and what each of these mixes "
        "would have made of the number by itself (Das Gupta). Like for like, only pairs of sides "
        "that met both before and after are taken, at the same ground where that leaves matches "
        "enough, and each pair weighs the same in both. Held still, the sums of innings are fitted "
        "by both sides, innings, ground and window (quasi-Poisson; errors by match, or by batting "
        "side where that is wider). Where one of the two is told from the plain change, and is off "
        "by more than its own error or by half of what changed, that is said first of all."
    ]


def _drift_lines(findings: Findings, used: list[Used]) -> list[str]:
    """How the second question was asked, event by event, with this brief's periods."""
    lines: list[str] = []
    for one in used:
        drift = _first_drift(findings, one)
        if drift is None:
            continue
        whose = f" Around {one.event.name}," if len(used) > 1 else ""
        if lines:
            lines.append(f"{whose.strip()} {_asked(drift)} are asked the same.")
        else:
            lines.append(_how(drift, whose))
        lines += _unit_lines(one, drift)
    if lines and any(control_of(finding) for finding in findings.findings):
        lines.append(
            "Of a control it is asked whether it ran side by side with the number before the "
            "event. It did not where the slope of their gap is told from none; it did where all "
            "that the slope could make between the windows is inside the margin. The step of the "
            "gap is told beside its own drift."
        )
    return lines


def _first_drift(findings: Findings, used: Used) -> Drift | None:
    """Any drift of the event's beats: all are of the same periods."""
    drifts = (drift_of(one) for one in findings.findings if one.beat in used.beats)
    return next((drift for drift in drifts if drift), None)


def _how(drift: Drift, whose: str) -> str:
    unit = drift.unit
    return (
        f"Whatever the first answer,{whose} {_asked(drift)} are asked whether there is a step on "
        f"top of the drift: a weighted line through the log rates of the {unit}s, with a step at "
        f"the event, and t with {unit}s minus three degrees of freedom. Where one {unit} is like "
        "the next, as the residuals show, the errors are wider for it. Beyond the drift: the "
        "step’s interval, widened in the same way, leaves none out. In line with it: a step can’t "
        "be told from no step. That a number was rising or falling is said only where the drift’s "
        f"own interval leaves none out. It needs eight {unit}s before and three after. The step "
        f"is ranked among those at every date with three {unit}s on either side. A step is asked "
        "for again beside a slope that changes at the event, and beside a curve; where it is lost "
        f"there, that is said. A gradual turn over several {unit}s around the date can’t be told "
        "from a step."
    )


def _asked(drift: Drift) -> str:
    """'the seasons 2009 to 2022 (8 before, 6 after)', 'the years begun from 1 Oct 2009 to ...'."""
    ends = f"{drift.first} to {drift.last}"
    if not drift.first:
        ends = "of the data, of which there are none"
    elif FROM in drift.last:
        begun = [label.partition(FROM)[2] for label in (drift.first, drift.last)]
        ends = f"begun from {' to '.join(begun)}"
    return f"the {drift.unit}s {ends} ({drift.periods_before} before, {drift.periods_after} after)"


# Why drift and trend go by another period than the season.
WHY: dict[UnitBecause, str] = {
    "asked": "The topic asks for drift and trend by the {unit}",
    "seasons_overlap": "The seasons of these matches are played side by side, so drift and trend "
    "go by the {unit}",
    "season_cut": "The event falls inside a season, whose matches the windows take, so drift and "
    "trend go by the {unit}",
}


def _unit_lines(used: Used, drift: Drift) -> list[str]:
    """Why it is told by the period that it is, and which of them are in no drift."""
    lines, because = [], used.timing.because
    if because in WHY:
        since = ", counted from the day of the event" if drift.unit != "season" else ""
        anew = " and anew from the end of its settling in" if since and used.event.gap_after else ""
        lines.append(f"{WHY[because].format(unit=drift.unit)}{since}{anew}.")
    if drift.left_out:
        out = listed([period_said(label) for label in drift.left_out])
        lines.append(
            f"In no drift: {out}, of which the data hold too little, or which the event or its "
            "settling in falls inside. What is too little is drawn paler."
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

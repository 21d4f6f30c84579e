"""A topic's tallies into its findings: the only place that numbers come from."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pandas as pd

from pipeline.contracts.finding import Finding, Groups
from pipeline.contracts.findings import Findings, PlayersList, Point, Sample
from pipeline.contracts.selection import Selection
from pipeline.significance import notes
from pipeline.significance.arrays import by_season
from pipeline.significance.effects import describe
from pipeline.significance.of_kinds import LISTS, findings_of, judged
from pipeline.significance.points import period
from pipeline.significance.printed import print_at_levels
from pipeline.significance.question import Question
from pipeline.significance.second_family import judge_control, judge_drift
from pipeline.significance.second_verdict import rivals
from pipeline.significance.verdicts import judge

if TYPE_CHECKING:
    from pipeline.config.views import SignificanceView


def find(
    view: SignificanceView, selection: Selection, tallies: pd.DataFrame, fingerprint: str
) -> Findings:
    """Everything the charts and the brief may say, signed and unrounded.

    `fingerprint` says which tallies they are.
    """
    findings: list[Finding] = []
    series: dict[str, list[Point]] = {}
    samples: dict[str, Sample] = {}
    lists: dict[str, PlayersList] = {}
    for beat in view.beats:
        for name in beat.measures:
            key = f"{beat.id}.{name}"
            rows = tallies[(tallies["beat"] == beat.id) & (tallies["measure"] == name)]
            question = Question(beat, name, rows, view, selection)
            whole = beat.traits.compares == "series"
            samples[key] = _sample(question.every if whole else question.compared)
            if whole:
                series[key] = _series(question)
            if question.every.empty or (question.compared.empty and not whole):
                continue
            findings += findings_of(question)
            if beat.kind in LISTS:
                lists[key] = LISTS[beat.kind](question)
    _note_windows(findings, view, selection)
    alpha = view.statistics.alpha
    family = judge(findings, view.headlines, view.statistics, view.file)
    print_at_levels(findings, view.measures)
    judge_drift(findings, view.headlines, alpha)
    judge_control(findings, view.headlines, alpha)
    judged(findings, view.beats)
    for finding in findings:
        finding.notes += [*notes.on_the_scales(finding), *notes.on_the_drift(finding)]
    return Findings(
        data=selection.data,
        fingerprint=fingerprint,
        corrections=selection.corrections,
        seasons=selection.seasons,
        windows=selection.windows,
        headlines=view.headlines,
        family=family,
        findings=findings,
        series=series,
        samples=samples,
        lists=lists,
        queries=_queries(selection),
    )


def _note_windows(findings: list[Finding], view: SignificanceView, selection: Selection) -> None:
    """What holds of the topic's two windows, on all that is compared in time."""
    windows = selection.windows
    if windows is None:
        return
    named = rivals(view.also, windows, selection.seasons)
    for finding in findings:
        if not isinstance(finding, Groups):
            finding.notes += notes.of_the_windows(windows, selection.newcomers, named)


def _queries(selection: Selection) -> dict[str, str]:
    """The query of every beat, and of its control."""
    found = {}
    for beat, part in selection.beats.items():
        found[beat] = part.query
        if part.control:
            found[f"{beat} control"] = part.control.query
    return found


def _sample(rows: pd.DataFrame) -> Sample:
    """Matches and balls a beat's chart stands on, each match once."""
    whole = rows[rows["cell"] == "all"]
    return Sample(matches=int(whole["match_id"].nunique()), balls=int(whole["balls"].sum()))


def _series(question: Question) -> list[Point]:
    """Every season's (or quarter's) value with its interval, and its first and last day."""
    rows, labels = question.every, [season.label for season in question.selection.seasons]
    every = question.beat.point
    if every != "season":
        rows = rows.assign(season=period(rows, every))
        labels = list(rows.groupby("season")["date"].min().sort_values(kind="stable").index)
    sums, balls = by_season(rows, labels)
    values = describe(sums, balls, question.scale, question.statistics.least_matches)
    days = rows.groupby("season")["date"].agg(["min", "max"])
    ends: dict[str, tuple[date, date]] = {
        str(label): (first, last) for label, first, last in days.itertuples()
    }
    return [
        Point(
            label=label,
            first=ends[label][0] if label in ends else None,
            last=ends[label][1] if label in ends else None,
            value=side.value,
            low=side.low,
            high=side.high,
            matches=side.matches,
            balls=side.balls,
            numerator=side.numerator,
            denominator=side.denominator,
            largest=side.largest,
            refused=side.refused,
        )
        for label, side in zip(labels, values, strict=True)
    ]

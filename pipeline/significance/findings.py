"""A topic's tallies into its findings: the only place that numbers come from."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

import pandas as pd

from pipeline.contracts.finding import Finding, Groups
from pipeline.contracts.findings import Findings, PlayersList, Point, Sample
from pipeline.contracts.ledger import EarlierLook
from pipeline.contracts.selection import Selection
from pipeline.event_of import event_of
from pipeline.ledger.today import shown
from pipeline.significance import notes
from pipeline.significance.arrays import by_period
from pipeline.significance.asked_again import ask_again
from pipeline.significance.composition import compose
from pipeline.significance.earlier import NONE, counted, versions
from pipeline.significance.effects import describe
from pipeline.significance.of_kinds import LISTS, findings_of, judged
from pipeline.significance.printed import print_at_levels
from pipeline.significance.question import Question, question_of
from pipeline.significance.rivals import rivals
from pipeline.significance.second_family import judge_control, judge_drift
from pipeline.significance.verdicts import judge

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.views import SignificanceView


def find(
    view: SignificanceView,
    selection: Selection,
    tallies: pd.DataFrame,
    clusters: pd.DataFrame,
    fingerprint: str,
    mix: pd.DataFrame | None = None,
    ledger: Sequence[EarlierLook] = (),
) -> Findings:
    """Everything the charts and the brief may say, signed and unrounded.

    `clusters` are the sums of what groups are made of, `fingerprint` says which tallies they are;
    `mix` is what else the headlines' balls were of, and without it that is not asked; `ledger` is
    what earlier builds looked at.
    """
    findings: list[Finding] = []
    series: dict[str, list[Point]] = {}
    samples: dict[str, Sample] = {}
    lists: dict[str, PlayersList] = {}
    questions: dict[str, Question] = {}
    for beat in view.beats:
        for name in beat.measures:
            key = f"{beat.id}.{name}"
            question = questions[key] = question_of(beat, name, tallies, view, selection, clusters)
            whole = beat.traits.compares == "series"
            samples[key] = _sample(question.every if whole else question.compared)
            if whole:
                series[key] = _series(question)
            if question.every.empty or (question.compared.empty and not whole):
                continue
            findings += findings_of(question)
            if beat.kind in LISTS:
                lists[key] = LISTS[beat.kind](question)
    for beat in view.beats:
        _note_windows([one for one in findings if one.beat == beat.id], beat, view, selection)
    alpha = view.statistics.alpha
    asked = {finding.id: finding.asks for finding in findings}
    earlier = shown(asked, view.headlines, view.expects).before(ledger)
    with_these = (
        counted(earlier, findings, view.headlines) if view.statistics.count_earlier_looks else NONE
    )
    family = judge(findings, view.headlines, view.statistics, view.file, with_these)
    print_at_levels(findings, view.measures)
    judge_drift(findings, view.headlines, alpha, with_these)
    judge_control(findings, view.headlines, alpha, with_these)
    judged(findings, view.beats)
    if mix is not None:
        compose(findings, view, mix)
    ask_again(findings, view.headlines, questions)
    for finding in findings:
        finding.notes += [*notes.on_the_scales(finding), *notes.on_the_drift(finding)]
    return Findings(
        data=selection.data,
        fingerprint=fingerprint,
        corrections=selection.corrections,
        seasons=selection.seasons,
        timing=selection.timing,
        others=selection.others,
        headlines=view.headlines,
        family=family,
        findings=findings,
        series=series,
        samples=samples,
        lists=lists,
        queries=_queries(selection),
        expected=view.expects,
        earlier=earlier,
        versions=versions(earlier, findings, view.headlines),
    )


def _note_windows(
    findings: list[Finding], beat: AnyKind, view: SignificanceView, selection: Selection
) -> None:
    """What holds of the two windows of a beat's event, on all that it compares in time."""
    windows, event = selection.timing_of(beat.about).windows, event_of(view, beat)
    if windows is None or event is None:
        return
    others = [other for other in view.also if not beat.about or other.id != beat.about]
    if beat.about and view.own:
        others.append(view.own)
    named = rivals(others, event.date, windows)
    new = selection.newcomers.get(beat.about or "")
    for finding in findings:
        if not isinstance(finding, Groups):
            finding.notes += notes.of_the_windows(windows, new, named)


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
    """Every season's (or year's) value with its interval, and its first and last day."""
    rows = question.by_period(question.unit)
    there = {str(label) for label in rows["period"].unique()}
    whole = question.unit == "season"  # a season without a ball has its place all the same
    periods = [one for one in question.periods if whole or one.label in there]
    labels = [one.label for one in periods]
    sums, balls = by_period(rows, labels)
    values = describe(sums, balls, question.scale, question.statistics.least_matches)
    days = rows.groupby("period")["date"].agg(["min", "max"])
    ends: dict[str, tuple[date, date]] = {
        str(label): (first, last) for label, first, last in days.itertuples()
    }
    return [
        Point(
            label=one.label,
            part=one.part,
            first=ends[one.label][0] if one.label in ends else None,
            last=ends[one.label][1] if one.label in ends else None,
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
        for one, side in zip(periods, values, strict=True)
    ]

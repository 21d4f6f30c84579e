"""A fact made again from the clean tables: its beat's query, its finding, the fact."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

import pandas as pd

from pipeline.asked_fact import touching
from pipeline.brief.facts import facts_of
from pipeline.config import views
from pipeline.config.kinds import AnyBeat
from pipeline.config.load import Config
from pipeline.config.measure import Measure
from pipeline.config.views import Scale, SignificanceView
from pipeline.contracts.facts import Fact
from pipeline.contracts.files import as_written
from pipeline.contracts.finding import Finding, control_of, drift_of
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fix, Selection
from pipeline.editions.alike import alike
from pipeline.in_memory import numbers_of
from pipeline.significance.asked_again import ask_again
from pipeline.significance.composition import compose
from pipeline.significance.of_kinds import judged as judged_by_kind
from pipeline.significance.printed import print_at_levels, widen, widen_step
from pipeline.significance.question import question_of


@dataclass(frozen=True)
class Again:
    """The fact as made again, if it is; its measure, and the corrections that touch its matches."""

    fact: Fact | None
    corrections: list[Fix]
    measure: Measure | None

    def same_as(self, built: Fact) -> bool:
        """Value and ends, but for last digits that levels lose when written; what is shown."""
        now = self.fact
        return (
            now is not None
            and now.display == built.display
            and alike(_numbers(now), _numbers(built))
        )

    @property
    def value(self) -> float | int | None:
        return self.fact.value if self.fact else None


def _numbers(fact: Fact) -> list[float | int | None]:
    return [fact.value, fact.low, fact.high]


def made_again(config: Config, topic: str, fact: Fact, findings: Findings, data: Path) -> Again:
    """Run the query of the fact's beat and everything after it."""
    metrics, significance = views.metrics(config, topic), views.significance(config, topic)
    brief = views.brief(config, topic)
    beats = [beat for beat in metrics.beats if beat.id == fact.beat] or metrics.beats
    alone = {"beats": beats, "headlines": []}
    rows, selection, found, mix = numbers_of(
        metrics.model_copy(update={"beats": beats}), significance.model_copy(update=alone), data
    )
    if fact.id.startswith("family."):
        found.family = findings.family  # counted over all beats, not over one
    _judge_as(findings, found, significance.measures, beats)
    view = significance.model_copy(update={"beats": beats})
    compose(found.findings, view, mix)
    _ask_again(found, view, selection, rows)
    made = {each.id: each for each in facts_of(brief, as_written(found))}
    measure = brief.measures.get(fact.measure or "")
    return Again(made.get(fact.id), touching(fact.finding, findings, rows), measure)


def _judge_as(
    findings: Findings, found: Findings, scales: Mapping[str, Scale], beats: Iterable[AnyBeat]
) -> None:
    """Verdicts and levels are the topic's: alone, a beat would be a smaller family.

    So is what a kind makes of its verdicts: who moved, of which whole a part is told.
    """
    told = {finding.id: finding for finding in findings.findings}
    for finding in found.findings:
        if judged := told.get(finding.id):
            finding.verdict, finding.asked_at = judged.verdict, judged.asked_at
            _at_the_levels_of(judged, finding)
    print_at_levels(found.findings, scales)
    judged_by_kind(found.findings, beats)


def _ask_again(
    found: Findings, view: SignificanceView, selection: Selection, rows: pd.DataFrame
) -> None:
    """The topic's headlines in other ways, at the levels that they have there."""
    questions = {
        f"{beat.id}.{name}": question_of(beat, name, rows, view, selection)
        for beat in view.beats
        for name in beat.measures
    }
    ask_again(found.findings, view.headlines, questions)


def _at_the_levels_of(judged: Finding, finding: Finding) -> None:
    """Every interval at the confidence that it has in the topic."""
    if finding.effect and judged.effect:
        finding.effect.level = judged.effect.level
    drift, then = drift_of(finding), drift_of(judged)
    if drift and drift.test and then and then.test:
        widen_step(drift.test, then.test.level)
    control, beside = control_of(finding), control_of(judged)
    if control and beside:
        widen(control.effect, beside.effect.level)
        if control.step and beside.step:
            widen_step(control.step, beside.step.level)

"""What stands around the beats: the question with one number, the answer, and what is left open."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Change, Finding, Turn, drift_of
from pipeline.contracts.findings import Findings
from pipeline.event_of import event_of
from pipeline.voice.line import Line
from pipeline.voice.sentence import Told
from pipeline.wording import numbers, of_kinds, phrases
from pipeline.wording.answer import MOST_MATCHES, more_matches, nearest
from pipeline.wording.change import margin_said
from pipeline.wording.clusters import usual_said
from pipeline.wording.composition import is_unlike
from pipeline.wording.second_verdict import BEFORE, BEYOND, second

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import BriefView

PERIODS_BEFORE = 8  # that a drift is asked beside


def cold_open(view: BriefView, findings: Findings) -> list[Line]:
    """One question and one number: of a headline that can be told; else how much was asked.

    Without headlines nothing was asked of the data as a whole, and the question stands alone.
    """
    asked = Line((_question(view.words.title, view.words.question),))
    return [asked, _one_number(view, findings)] if findings.headlines else [asked]


def _question(title: str, question: str) -> str:
    """The title where it asks, else the topic's own first question, else all of its text."""
    if title.endswith("?"):
        return title
    asks = [each for each in re.split(r"(?<=[.!?])\s+", question) if each.endswith("?")]
    return asks[0] if asks else question


def _one_number(view: BriefView, findings: Findings) -> Line:
    """Of what changed, then of what held; what takes more words comes after both."""
    told = [each for each in headlines_of(findings) if each.verdict != "can't tell"]
    beats = {each.id: _beat_of(each, view) for each in told}

    def order(finding: Finding) -> tuple[bool, bool, bool]:
        held = finding.verdict == "held" and isinstance(finding, Change)
        plain = _moved(finding) or held
        return bool(beats[finding.id].about), not plain, finding.verdict != "changed"

    if finding := min(told, key=order, default=None):
        return Line((_told_first(finding, beats[finding.id], view),), (finding.id,))
    balls = (findings.data.compared or findings.data).balls
    return Line((Told("cold.open", balls=phrases.about_count(balls)),))


def _moved(finding: Finding) -> bool:
    """Whether it changed by a size that is all there is to say of it at first."""
    return finding.verdict == "changed" and not isinstance(finding, Turn) and not is_unlike(finding)


def _told_first(finding: Finding, beat: AnyBeat, view: BriefView) -> str:
    """Its values or its size; of another event, or where like for like it is another, all of it."""
    asked = (beat, view.measures[finding.measure], view.format)
    event = event_of(view, beat)
    if beat.about or is_unlike(finding):
        return of_kinds.alone(finding, *asked, event)
    if _moved(finding):
        return _from_to(finding, *asked, event)
    if isinstance(finding, Change):
        what = of_kinds.measured(finding, *asked)
        return Told("cold.held", what=what, margin=margin_said(finding))
    return of_kinds.said(finding, *asked, event)[0]


def _from_to(
    finding: Finding, beat: AnyBeat, measure: Measure, form: Format, event: NamedEvent | None
) -> str:
    """Both its values where it has them, which the answer does not say again; else its size."""
    said = of_kinds.said(finding, beat, measure, form, event)
    both = (each for each in said if isinstance(each, Told) and each.outcome.startswith("number."))
    return next(both, None) or of_kinds.in_short(finding, beat, measure, form, event)


def close(view: BriefView, findings: Findings) -> list[Line]:
    """What would settle what is open; where nothing soon would, what no matches can say at all."""
    told = [finding for finding in headlines_of(findings) if not finding.refused]
    open_ones = [finding for finding in told if finding.verdict == "can't tell"]
    lines = [
        *_more_matches(open_ones),
        *_more_periods(open_ones, view),
        *_longer_before(told, view),
    ]
    beyond = [finding for finding in told if _stepped(finding)]
    if not lines and beyond:
        shown = min(beyond, key=lambda finding: finding.verdict != "changed")
        what = of_kinds.named_open(shown, *_asked(shown, view))
        lines = [Line((Told("close.cause", what=what),), (shown.id,))]
    return (lines or _far(open_ones))[:2]


def _stepped(finding: Finding) -> bool:
    """Whether a step is told of it that no bend in the trend would undo."""
    drift = drift_of(finding)
    straight = drift is not None and drift.test is not None and not drift.test.lost_beside
    return straight and second(finding) == BEYOND


def _far(open_ones: Sequence[Finding]) -> list[Line]:
    """That it would take more matches than anybody will play soon, where that is so of each."""
    if not open_ones or not all(map(more_matches, open_ones)):
        return []
    count = numbers.said(MOST_MATCHES, 0)
    return [Line((Told("close.far", count=count),), tuple(each.id for each in open_ones))]


def _more_matches(open_ones: Sequence[Finding]) -> list[Line]:
    """How many more matches would show the nearest of them, where that is no dream."""
    found = nearest(open_ones)
    if found is None:
        return []
    fewest, finding = found
    count, size = phrases.about_count(fewest), margin_said(finding)
    outcome = "close.matches" if len(open_ones) > 1 else "close.matches.one"
    return [Line((Told(outcome, count=count, size=size),), (finding.id,))]


def _more_periods(open_ones: Sequence[Finding], view: BriefView) -> list[Line]:
    """Of what its periods or grounds do anyway more matches of the same tell nothing."""
    for finding in open_ones:
        if usual_said(finding) and finding.effect and finding.effect.cluster:
            of = f"{finding.effect.cluster.of}s"
            what = of_kinds.named_open(finding, *_asked(finding, view))
            return [Line((Told("close.periods", what=what, periods=of),), (finding.id,))]
    return []


def _longer_before(told: Sequence[Finding], view: BriefView) -> list[Line]:
    """How many periods before it there are, of those that a drift is asked beside."""
    for finding in told:
        drift = drift_of(finding)
        if drift and drift.test is None and drift.because == "few_periods_before":
            there = numbers.said(drift.periods_before, 0)
            wanted = numbers.with_unit(numbers.said(PERIODS_BEFORE, 0), f"{drift.unit}s")
            event = event_of(view, _beat_of(finding, view))
            before = f"before {event.name}" if event else BEFORE
            said = Told("close.before", wanted=wanted, before=before, there=there)
            return [Line((said,), (finding.id,))]
    return []


def headlines_of(findings: Findings) -> list[Finding]:
    """The headlines, in the topic's order."""
    by_id = {finding.id: finding for finding in findings.findings}
    return [by_id[name] for name in findings.headlines if name in by_id]


def _asked(finding: Finding, view: BriefView) -> tuple[AnyBeat, Measure, Format]:
    return _beat_of(finding, view), view.measures[finding.measure], view.format


def _beat_of(finding: Finding, view: BriefView) -> AnyBeat:
    return next(beat for beat in view.beats if beat.id == finding.beat)

"""The lines of a beat: what was chosen, put into sentences, each with what it is of."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Change, Finding, Gap, Groups, Turn
from pipeline.contracts.findings import Findings
from pipeline.episode.choice import BANDS, MOST, Chosen, of_beat, opened
from pipeline.episode.trimmed import trimmed
from pipeline.event_of import event_of
from pipeline.voice.line import Line
from pipeline.voice.sentence import Told
from pipeline.wording import another_event, composition, numbers, of_kinds, second_verdict
from pipeline.wording.clusters import usual_of
from pipeline.wording.linked import linked
from pipeline.wording.other_ways import either, panel_said
from pipeline.wording.scales import sign_of
from pipeline.wording.shared_words import shared_once
from pipeline.wording.subject import cell_subject
from pipeline.wording.yardstick import first_told, yardstick_said

PLAINER = {"drift.none.many": "drift.none", "drift.in_line.many": "drift.in_line.step"}
MANY = 4  # stretches that are counted, and not named

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.views import BriefView


def lines_of(beat: AnyBeat, view: BriefView, findings: Findings) -> dict[str, list[Line]]:
    """At most three lines, by the measure under which each stands."""
    said, first_of_all = of_beat(beat, view, findings), opened(beat, view, findings)
    lines: dict[str, list[Line]] = {
        name: [
            *(opening_lines(name, beat, view, findings) if name in first_of_all else []),
            *lines_said([one for one in said.alone if one.measure == name], beat, findings, view),
        ]
        for name in beat.measures
    }
    if said.together:
        lines[said.together[-1].measure].append(together(said, beat, view))
    first = _gauged(view, findings)
    if first and first.beat == beat.id and sum(map(len, lines.values())) < MOST:
        lines[first.measure] += _yardstick(first, beat, view)
    return lines


def opening_lines(name: str, beat: AnyBeat, view: BriefView, findings: Findings) -> list[Line]:
    """What the findings of a measure say as a whole, before any one of them."""
    own = [one for one in findings.findings if (one.beat, one.measure) == (beat.id, name)]
    listed = findings.lists.get(f"{beat.id}.{name}")
    about = tuple(finding.id for finding in own)
    said = of_kinds.opening(own, beat, view.format, listed)
    return [Line(tuple(said), about)] if said else []


def lines_said(
    alone: Sequence[Finding], beat: AnyBeat, findings: Findings, view: BriefView
) -> list[Line]:
    """A line for each of these findings of one measure; one that goes the other way says so."""
    lines: list[Line] = []
    before: Finding | None = None
    event = event_of(view, beat)
    for finding in alone:
        said = sentences_of(finding, beat, findings, view)
        link = linked(before, finding) if before else another_event.opened(beat, event)
        lines.append(Line((*([link] if link else []), *said), (finding.id,)))
        before = finding
    return lines


def together(said: Chosen, beat: AnyBeat, view: BriefView) -> Line:
    """One line that names all of which nobody can tell."""
    stretches = _stretches(said, beat, view)
    names = stretches or _named_together(said.together, beat, view)
    told = (*said.together, *said.others) if stretches else said.together
    about = tuple(finding.id for finding in told)
    event = another_event.opened(beat, event_of(view, beat)) if not said.alone else ""
    return Line((*([event] if event else []), Told("together", names=either(names))), about)


def _stretches(said: Chosen, beat: AnyBeat, view: BriefView) -> list[str]:
    """'the run rate in seven other stretches': of an innings' parts only those told are named."""
    rows, first = [*said.together, *said.others], said.together[0]
    if BANDS not in beat.cuts or len(rows) < MANY or not all(row.values for row in rows):
        return []
    told = any(one.measure == first.measure and one.values for one in said.alone)
    what = cell_subject({}, beat, view.measures[first.measure], view.format)
    count = f"{numbers.said(len(rows), 0)}{' other' if told else ''}"
    return [f"{what} in {count} stretches of overs"]


def _named_together(some: Sequence[Finding], beat: AnyBeat, view: BriefView) -> list[str]:
    """'pace’s economy at the death', 'spin’s at the death': what all share is said once."""
    form, first = view.format, some[0]
    named = [
        of_kinds.named_open(one, beat, view.measures[one.measure], form)
        + (" overall" if any(each.values for each in some) and one.cell == "all" else "")
        for one in some
    ]
    return shared_once(named, view.measures[first.measure].label)


def _gauged(view: BriefView, findings: Findings) -> Finding | None:
    """The first number of the episode with a yardstick, which is the one that it is told of.

    Not of one that its own swings leave open, which says as much.
    """
    told = [first_told(of_beat(beat, view, findings).alone) for beat in view.beats]
    return next((finding for finding in told if finding and not usual_of(finding)), None)


def _yardstick(finding: Finding, beat: AnyBeat, view: BriefView) -> list[Line]:
    """How far it moves with no event, which is said once an episode."""
    line = yardstick_said(finding, beat, view.measures[finding.measure], view.format)
    return [Line((line,), (finding.id,))] if line else []


def sentences_of(finding: Finding, beat: AnyBeat, findings: Findings, view: BriefView) -> list[str]:
    """What is said of it; of one that an earlier beat puts into words, what it came to, and where.

    The row that it repeats may not be among those: then it is told here, with that row's drift
    where it has none of its own.
    """
    first = None if finding.refused else first_of(finding, findings)
    told, measure = as_told(finding, findings), view.measures[finding.measure]
    event = event_of(view, beat)
    if first is None or not _is_said(first, findings, view):
        said = of_kinds.said(told, beat, measure, view.format, event)
        panel = panel_said(finding.panel, finding.verdict, measure, _shown(finding))
        kept = trimmed([part for part in (*said, panel) if part], finding, findings)
        return [_named(each, event) for each in kept]
    return [again_said(told, beat, view)]


def _shown(finding: Finding) -> str:
    """What its other ways are asked for: 'a fall'; of what held, or went nowhere, 'the same'."""
    if finding.verdict != "changed" or isinstance(finding, Turn):
        return "the same"
    if isinstance(finding, Gap | Groups):
        return "a gap the same way"
    way, other = ("a rise", "a fall") if sign_of(finding) > 0 else ("a fall", "a rise")
    turned = finding.panel.turned if finding.panel else []
    against = any(choice.verdict == "changed" for choice in turned)
    return way if against or not turned else f"{way}, and none showed {other}"


def _named(sentence: str, event: NamedEvent | None) -> str:
    """With the event by its name, where the sentence says what was before it."""
    if not isinstance(sentence, Told):
        return sentence
    if sentence.outcome in PLAINER:  # how many were tested for a step is for the table
        own = {name: words for name, words in sentence.slots.items() if name != "tested"}
        sentence = Told(PLAINER[sentence.outcome], **own)
    return sentence.naming(before=f"before {event.name}") if event else sentence


def again_said(finding: Finding, beat: AnyBeat, view: BriefView) -> str:
    """That it was told; of a change or of what held also which way, without its numbers.

    Not of what is another change like for like: which way it went is half of that.
    """
    measure = view.measures[finding.measure]
    told = {"what": of_kinds.measured(finding, beat, measure, view.format)}
    if composition.is_unlike(finding):
        return Told("again.told", **told)
    if isinstance(finding, Change) and finding.verdict == "changed":
        return Told("again.rose" if sign_of(finding) > 0 else "again.fell", **told)
    if isinstance(finding, Change) and finding.verdict == "held":
        return Told("again.held", **told)
    return Told("again.told", **told)


def every_line_of(
    finding: Finding, beat: AnyBeat, findings: Findings, view: BriefView
) -> re.Pattern[str]:
    """The end of a line that says it, with each sentence in any of its forms."""
    return Line(tuple(sentences_of(finding, beat, findings, view))).in_any_form()


def as_told(finding: Finding, findings: Findings) -> Finding:
    """With what another finding that answers its question was asked besides."""
    drifted = second_verdict.with_drift_of(finding, first_of(finding, findings))
    return composition.with_that_of(drifted, findings.findings)


def first_of(finding: Finding, findings: Findings) -> Finding | None:
    """The first finding that answers its question, where that is not itself."""
    return next((each for each in findings.findings if each.id == finding.again), None)


def _is_said(finding: Finding, findings: Findings, view: BriefView) -> bool:
    """Whether its own beat puts it into words."""
    beat = next(beat for beat in view.beats if beat.id == finding.beat)
    return finding.id in {each.id for each in of_beat(beat, view, findings).told}

"""The top sheet: headline cards, expected against found, the data line."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pipeline.brief import coverage
from pipeline.brief.used_events import Used, used_events
from pipeline.contracts.codes import DriftVerdict, Verdict
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Amount, Holdings
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.event_of import event_of
from pipeline.topic_places import dotted
from pipeline.wording import numbers, of_kinds
from pipeline.wording.composition import with_that_of
from pipeline.wording.confidence import one_of_looks
from pipeline.wording.credits import credited
from pipeline.wording.expected import found_of
from pipeline.wording.leads import Lead, lead_of
from pipeline.wording.refusals import refusal_said
from pipeline.wording.second_verdict import second
from pipeline.wording.versions import versions_said
from pipeline.wording.why_not import why_not
from pipeline.wording.windows import against, neither_said

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import BriefView


@dataclass(frozen=True, kw_only=True)
class Card:
    """One headline: what is said of it, then its two values, units, interval and verdict.

    `lead` is the size as it is said, `why` why it can't be told, `number` the exact figure; `under`
    is what is said once below all cards.
    """

    id: str
    name: str
    beat: str
    lead: Lead
    why: str
    number: str = "no number"
    fact: str | None = None
    sides: str = ""
    detail: str
    mark: str = ""
    under: tuple[str, ...] = ()
    verdict: Verdict
    among: str = ""
    second: DriftVerdict | None = None


@dataclass(frozen=True)
class Expected:
    """What people say, and what was found."""

    say: str
    word: str
    found: str


def card(
    finding: Finding,
    beat: AnyBeat,
    measure: Measure,
    form: Format,
    event: NamedEvent | None = None,
) -> Card:
    """A headline's card; of a refused one, why there is no number."""
    plain = Card(
        id=finding.id,
        name=of_kinds.headline_name(finding, beat, measure, form, event),
        beat=beat.id,
        lead=lead_of(finding, beat, form),
        why=why_not(finding),
        detail=refusal_said(finding) if finding.refused else "",
        verdict=finding.verdict,
    )
    if finding.refused:
        return plain
    shown = of_kinds.card(finding, beat, measure, form)
    return replace(
        plain,
        number=shown.number,
        fact=f"{finding.id}.{shown.fact}",
        sides=shown.sides,
        detail=shown.detail,
        among=one_of_looks(finding),
        mark=shown.mark,
        under=tuple(of_kinds.under_rows([finding], beat, measure)),
        second=second(finding),
    )


def expected(view: BriefView, by_id: dict[str, Finding]) -> list[Expected]:
    """What people say beside what was found; a finding that isn't there is the topic's mistake."""
    wrong = [
        Problem(
            view.file,
            f"no finding '{item.finding}'{did_you_mean(item.finding, by_id)}",
            where=dotted(("expected", at, "finding")),
        )
        for at, item in enumerate(view.expected)
        if item.finding not in by_id
    ]
    if wrong:
        raise UserError(wrong)
    rows, beats = [], {beat.id: beat for beat in view.beats}
    for item in view.expected:
        finding = with_that_of(by_id[item.finding], by_id.values())
        beat, measure = beats[finding.beat], view.measures[finding.measure]
        found = of_kinds.found(finding, beat, measure, view.format, event_of(view, beat))
        rows.append(Expected(item.say, found_of(item.means, finding), found))
    return rows


def data_line(view: BriefView, findings: Findings) -> str:
    """What is compared, and what is behind the trend; what is known of it; how many comparisons."""
    data, family = findings.data, findings.family
    grouped = any(beat.traits.compares == "groups" for beat in view.beats)
    parts = _amounts(data, used_events(view, findings), grouped)
    known = coverage.known_line(data)
    parts += [known] if known else []
    if findings.corrections:
        parts.append(numbers.counted(len(findings.corrections), "correction"))
    looked_at = numbers.counted(family.looked_at, "comparison")
    parts.append(f"{looked_at}, {numbers.counted(family.headlines, 'headline')} among them")
    if findings.versions:
        parts += versions_said(findings.versions, _names(view, findings))
    parts.append("; ".join(source.credit_line for source in credited(view.credits, data)))
    return " · ".join(parts)


def _names(view: BriefView, findings: Findings) -> dict[str, str]:
    """What each headline is called on its card, by its id."""
    by_id = {finding.id: finding for finding in findings.findings}
    beats = {beat.id: beat for beat in view.beats}
    return {
        name: of_kinds.headline_name(
            finding := by_id[name],
            beats[finding.beat],
            view.measures[finding.measure],
            view.format,
            event_of(view, beats[finding.beat]),
        )
        for name in findings.headlines
    }


def _amounts(data: Holdings, used: list[Used], grouped: bool) -> list[str]:
    """Matches, balls and dates: of what is compared, then of all that the trend is taken from.

    `grouped` says that groups are compared too, whose seasons are not those of the windows. Of an
    edition of 0.9 or before, the topic's data whole.
    """
    sides = _sides(used)
    compared, counted = data.compared, data.counted
    if compared is None or counted is None:
        return [*_amount(counted or data), *sides]
    matches, balls, days = _amount(compared)
    when = sides if sides and not grouped else [days, *(f"over time {side}" for side in sides)]
    lines = [f"compared: {matches}", balls, *when]
    if counted != compared:
        matches, balls, days = _amount(counted)
        lines += [f"behind the trend: {matches}", balls, days]
    return lines


def _sides(used: list[Used]) -> list[str]:
    """The windows of each event that is asked about, with what is in neither of them."""
    lines = []
    for one in used:
        whose = f"{one.event.name}: " if len(used) > 1 else ""
        left = neither_said(one.windows.neither)
        lines.append(f"{whose}{against(one.windows)}{f', {left}' if left else ''}")
    return lines


def _amount(held: Amount | Holdings) -> tuple[str, str, str]:
    return (
        numbers.matches(held.matches),
        numbers.counted(held.balls, "ball"),
        f"{held.first.isoformat()} to {held.last.isoformat()}",
    )

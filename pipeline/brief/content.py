"""What the template prints, ready to print: no number is made or rounded after this."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any

from msgspec import to_builtins

from pipeline.brief.background import Statement, background, caution
from pipeline.brief.beats import BeatPage, beat_page
from pipeline.brief.careful import careful
from pipeline.brief.method import method_lines
from pipeline.brief.openings import openings_apart
from pipeline.brief.plain_words import for_viewers, terms_said
from pipeline.brief.reading_ease import ease_said
from pipeline.brief.runsheet import RunSheet, run_sheet
from pipeline.brief.since_edition import SincePage
from pipeline.brief.spoken import Spoken, spoken
from pipeline.brief.top_sheet import Card, Expected, card, data_line, expected
from pipeline.contracts.editions import Citation
from pipeline.contracts.facts import ChartMade, Fact
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fix
from pipeline.event_of import event_of
from pipeline.slots.filled import Script
from pipeline.text import capitalised
from pipeline.wording import labels, numbers
from pipeline.wording.answer import answer_lines
from pipeline.wording.credits import credited
from pipeline.wording.headings import headings_of

if TYPE_CHECKING:
    from pipeline.config.glossary import Term
    from pipeline.config.measure import Measure
    from pipeline.config.project import Source
    from pipeline.config.views import BriefView

USUAL_CAUTIONS = (
    "These numbers describe play, not intent. An allegation about a person, an official or "
    "equipment needs its own sources, and legal advice before it is broadcast.",
    "Figures about named players are of public performance only. This is not betting advice.",
    "Check the licence of the data, and the rights to any footage, before publishing.",
)


@dataclass(frozen=True)
class IndexPart:
    """A page's facts in the index; the top sheet's have no beat."""

    beat: str | None
    anchor: str
    name: str
    facts: list[Fact]


@dataclass(frozen=True, kw_only=True)
class Content:
    """Everything the brief holds, in its order; rows that only a template reads are plain."""

    topic: str
    title: str
    question: str
    publisher: str
    language: str
    paper: str
    edition: str
    notices: list[str]
    answer: list[str]
    said: Spoken
    cards: list[Card]
    under: list[str]
    expected: list[Expected]
    cautions: list[str]
    run_sheet: RunSheet
    ease: str
    background: list[Statement]
    see_also: list[Citation]
    usual_cautions: Sequence[str]
    data_line: str
    fingerprint: str
    beats: list[BeatPage]
    notes: list[str]
    method: list[str]
    looks: list[dict[str, Any]]
    measures: list[dict[str, str]]
    glossary: list[Term]
    sources: list[Source]
    corrections: list[dict[str, Any]]
    facts: list[IndexPart]
    since: SincePage | None = None
    reading: Script | None = None  # the kept script, where there is one
    checked: list[str] = field(default_factory=list)  # a line a script or captions file

    @property
    def listed(self) -> list[Fact]:
        """The facts of the index, in its order."""
        return [fact for part in self.facts for fact in part.facts]


def context(
    view: BriefView,
    findings: Findings,
    charts: Sequence[ChartMade],
    facts: Sequence[Fact],
    see_also: list[Citation],
    edition: int | None = None,
) -> Content:
    """All but what changed since an edition, which is found by comparing these lines with its."""
    words = view.words
    by_id = {finding.id: finding for finding in findings.findings}
    beats = {beat.id: beat for beat in view.beats}
    chosen = [by_id[name] for name in view.headlines]
    headlines = [(each, beats[each.beat], view.measures[each.measure]) for each in chosen]
    told = careful(view, findings, caution(words.background))
    pages = [
        beat_page(position, beat, view, findings, charts, told.beats[beat.id])
        for position, beat in enumerate(view.beats, start=1)
    ]
    lines = answer_lines(headlines, view.format, partial(event_of, view), view.expected)
    said = spoken(view, findings, pages, lines)
    said = said._replace(pages=openings_apart(said.pages))
    pages = said.pages
    cards = [card(*one, view.format, event_of(view, one[1])) for one in headlines]
    whose = credited(view.credits, findings.data)
    answered = [line.text for line in said.around.answer]
    found = expected(view, by_id)
    return Content(
        topic=view.topic,
        title=words.title,
        question=words.question,
        publisher=view.project.title,
        language=view.project.language,
        paper=view.project.paper,
        edition=f"Edition {edition}" if edition else "Working copy",
        notices=list(dict.fromkeys(source.notice for source in whose if source.notice)),
        answer=answered,
        said=said,
        cards=cards,
        under=list(dict.fromkeys(line for each in cards for line in each.under)),
        expected=found,
        cautions=told.top,
        run_sheet=run_sheet(said, words.sponsor),
        ease=ease_said([(page.title, page.lines) for page in pages]),
        background=background(words.background),
        see_also=see_also,
        usual_cautions=USUAL_CAUTIONS,
        data_line=data_line(view, findings),
        fingerprint=findings.fingerprint,
        beats=pages,
        notes=words.notes,
        method=method_lines(view, findings),
        looks=_looks(view, findings),
        measures=[_definition(measure) for measure in view.measures.values()],
        glossary=terms_said(view.glossary, for_viewers(answered, cards, found, pages)),
        sources=whose,
        corrections=[_correction(fix) for fix in findings.corrections],
        facts=_index(facts, pages),
    )


def _index(facts: Sequence[Fact], pages: Sequence[BeatPage]) -> list[IndexPart]:
    """The facts that are said or shown in tables, by the page that has them."""
    top = [fact for fact in facts if fact.beat is None]
    parts = [IndexPart(None, "top", "Top sheet", top)]
    for page in pages:
        own = [fact for fact in facts if fact.beat == page.id and fact.is_listed]
        parts.append(IndexPart(page.id, f"beat-{page.id}", page.title, own))
    return [part for part in parts if part.facts]


def _correction(fix: Fix) -> dict[str, Any]:
    return {
        **to_builtins(fix),
        "where": ", ".join(f"{name} {value}" for name, value in fix.place.items()),
        "field": labels.field_label(fix.field),
        "old": fix.old or "blank",
        "new": fix.new or "blank",
    }


def _looks(view: BriefView, findings: Findings) -> list[dict[str, Any]]:
    """The family written out: what was looked at, and how many times."""
    titles = headings_of(view)
    return [
        {
            **to_builtins(look),
            "title": titles[look.beat],
            "name": capitalised(view.measures[look.measure].label),
        }
        for look in findings.family.looks
    ]


def _definition(measure: Measure) -> dict[str, str]:
    size = numbers.shown(measure.margin.size, 1).removesuffix(".0")
    unit = "points" if measure.margin.unit == "points" else "per cent"
    name = capitalised(measure.label)
    return {"name": name, "defined": measure.defined, "margin": f"{size} {unit}"}

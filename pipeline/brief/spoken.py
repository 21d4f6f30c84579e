"""What is said, from the pages: each line in its form, and the episode as it is kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from pipeline.brief.beats import BeatPage
from pipeline.contracts.episode import Episode, SpokenBeat, SpokenLine
from pipeline.contracts.findings import Findings
from pipeline.episode.argument import Argument, argument
from pipeline.episode.around_beats import close, cold_open
from pipeline.episode.choice import chosen
from pipeline.episode.following import Join, joins
from pipeline.episode.trimmed import said_once
from pipeline.voice.choosing import Voice
from pipeline.voice.line import Line
from pipeline.voice.sentence import Told

if TYPE_CHECKING:
    from pipeline.config.views import BriefView


class Around(NamedTuple):
    """What is said around the beats."""

    cold_open: list[Line]
    answer: list[Line]
    close: list[Line]


class Spoken(NamedTuple):
    """All that is said, each sentence in a form of its own, and another order of the beats."""

    around: Around
    pages: list[BeatPage]
    other_order: list[str]
    reason: str


def spoken(
    view: BriefView, findings: Findings, pages: Sequence[BeatPage], answer: list[Line]
) -> Spoken:
    """The pages with their openings and roles, and what stands around them."""
    argued = argument(view, findings, chosen(view, findings))
    joined = joins(view)
    opened = [
        replace(page, role=argued.roles[page.id], opening=_opening(page, joined, argued))
        for page in pages
    ]
    voice = Voice()
    around = Around(
        *(
            [line.voiced(voice) for line in lines]
            for lines in (cold_open(view, findings), answer, close(view, findings))
        )
    )
    made = _voiced(opened, voice)
    return Spoken(around, made, argued.other, _reason(made, argued))


def _opening(page: BeatPage, joined: Mapping[str, Join | None], argued: Argument) -> Line | None:
    """How it follows, and that it truly turns; none of a beat that says nothing."""
    join = joined[page.id]
    if not page.lines:
        return None
    said = [Told(join.name, **join.slots)] if join else []
    if page.id in argued.turning:
        said.append(Told("turn"))
    return Line(tuple(said), (page.id,)) if said else None


def _reason(pages: Sequence[BeatPage], argued: Argument) -> str:
    """Why another order is offered: where the answer comes, as it is."""
    if not argued.other:
        return ""
    by_id = {page.id: page for page in pages}
    first, second = (by_id[beat] for beat in argued.other[:2])
    if argued.by == "expectation":
        place = f"the answer is beat {second.position} of {second.count}"
        return f"“{first.title}” has what people say first, and {place}"
    place = f"is beat {first.position} of {first.count}"
    return f"“{first.title}” has the first clear answer, and {place}"


def _voiced(pages: Sequence[BeatPage], voice: Voice) -> list[BeatPage]:
    """The pages with each sentence in a form of its own."""
    made: list[BeatPage] = []
    heard: set[str] = set()
    for page in pages:
        voice.turn_page()
        opening = page.opening.voiced(voice) if page.opening else None
        parts = [
            replace(part, told=[line.voiced(voice) for line in said_once(part.told, heard)])
            for part in page.parts
        ]
        made.append(replace(page, opening=opening, parts=parts))
    return made


def episode_of(topic: str, said: Spoken) -> Episode:
    """The episode as it is kept beside the brief."""
    around = said.around
    return Episode(
        topic=topic,
        cold_open=list(map(_line, around.cold_open)),
        answer=list(map(_line, around.answer)),
        beats=[_beat(page) for page in said.pages],
        close=list(map(_line, around.close)),
        other_order=said.other_order,
        reason=said.reason,
    )


def _beat(page: BeatPage) -> SpokenBeat:
    return SpokenBeat(
        id=page.id,
        title=page.title,
        role=page.role,
        opening=page.opening.text if page.opening else "",
        lines=[_line(line) for part in page.parts for line in part.told],
        charts=[part.chart.chart for part in page.parts],
    )


def _line(line: Line) -> SpokenLine:
    return SpokenLine(text=line.text, findings=list(line.about))

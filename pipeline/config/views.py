"""What each stage may see of the configuration, and nothing else.

A stage works from its view alone, so the view's hash says exactly when the stage must run again: a
note for the presenter is in `brief` only, a margin from `significance` on.
"""

from __future__ import annotations

from datetime import date
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, model_validator

from pipeline.config.fields import Margin
from pipeline.config.kinds import AnyBeat
from pipeline.config.load import Config
from pipeline.config.measure import Measure
from pipeline.config.project import Archive as ArchiveSettings
from pipeline.config.project import Format, Project, Source, Statistics
from pipeline.config.sums import MILLIONTHS, of_matches, parse_sum
from pipeline.config.theme import Theme
from pipeline.config.topic import Data, Expectation, OtherEvent, Topic
from pipeline.config.topic_ids import finding_id, rows_asked_for
from pipeline.config.when import Gap, Window
from pipeline.contracts.codes import Unit
from pipeline.ledger.book import ledger_of
from pipeline.topic_places import dotted

Day = date  # a field of an event bears the type's name


class View(BaseModel):
    """A part of the configuration, as plain data by `plain`; values never change."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Sums(View):
    """The two sums over balls that a measure is made of."""

    numerator: str
    denominator: str


class Scale(View):
    """What the statistics need to know of a measure.

    `by_match`: it counts whole matches; `per_wicket`: against wickets; `an_innings`: against
    innings; `parts`: how many of its denominator make one of what that counts.
    """

    per: float
    kind: Literal["rate", "average", "share"]
    margin: Margin
    by_match: bool
    per_wicket: bool
    an_innings: bool
    parts: int = 1


class EventDates(View):
    """When it happened, and how much is compared on each side.

    `before_at` and `after_at` are where the windows stand in the topic's file; `told` is what a
    problem of another event than the topic's own begins with.
    `settled` is the first day after its settling in, from which the time after it counts.
    """

    before_at: str = "event.before"
    after_at: str = "event.after"
    told: str = ""
    date: date
    before: Window
    after: Window
    trend_from: str | None
    settled: Day
    gap_after: Gap | None = None
    period: Unit | None = None

    @model_validator(mode="before")
    @classmethod
    def _settled_at_once(cls, given: Any) -> Any:
        """In editions of before there was such a time, nothing was left out."""
        if isinstance(given, dict) and "settled" not in given and "date" in given:
            return {**given, "settled": given["date"]}
        return given


class NamedEvent(EventDates):
    name: str


class MetricsView(View):
    """`asked` are rows of one of a beat's two cuts alone that the topic names, by beat.

    `headlines` are ids of findings: of these it is asked what else changed.
    """

    file: str
    data: Data
    format: Format
    event: EventDates | None
    others: dict[str, EventDates] = {}
    beats: list[AnyBeat]
    lists: dict[str, list[str]]
    measures: dict[str, Sums]
    asked: dict[str, list[str]] = {}
    headlines: list[str] = []


class SignificanceView(View):
    """`own` is the topic's own event, a rival where some beat is about another.

    `ledger` is the file of what earlier builds looked at, which need not be there; `expects` are
    the findings that expectations name, which the ledger keeps too.
    """

    file: str
    ledger: str | None = None
    statistics: Statistics
    headlines: list[str]
    expects: list[str] = []
    event: EventDates | None
    others: dict[str, EventDates] = {}
    also: list[OtherEvent]
    own: OtherEvent | None = None
    beats: list[AnyBeat]
    format: Format
    measures: dict[str, Scale]


class ChartsView(View):
    topic: str
    event: NamedEvent | None
    others: dict[str, NamedEvent] = {}
    also: list[OtherEvent]
    beats: list[AnyBeat]
    measures: dict[str, Measure]
    format: Format
    credits: list[Source]
    theme: Theme
    frames: list[str]
    headlines: list[str]


class BriefView(ChartsView):
    file: str
    words: Topic
    expected: list[Expectation]
    project: Project


def plain(view: View) -> dict[str, Any]:
    """The view as it is hashed, and kept in editions."""
    return view.model_dump(mode="json")


def ingest(config: Config, source: str) -> dict[str, Any]:
    return ingest_source(config.sources[source])


def ingest_source(source: Source) -> dict[str, Any]:
    """What ingest sees of a source: not its titles, credits and licence."""
    return source.model_dump(
        mode="json", include={"id", "path", "layout", "on_error", "columns", "constants"}
    )


def clean(config: Config) -> dict[str, Any]:
    project = config.project
    return {
        "sources": list(config.sources),
        "players": project.players,
        "grounds": project.grounds,
        "people": project.people,
        "corrections": project.corrections,
        "match_types": sorted(
            {kind for form in config.formats.values() for kind in form.match_types}
        ),
        "publisher": project.title,
    }


def metrics(config: Config, name: str) -> MetricsView:
    topic = config.topics[name]
    used = measures_of(topic, config.measures)
    return MetricsView(
        file=str(config.topic_file(name)),
        data=topic.data,
        format=_unsaid(config.formats[topic.data.format]),
        event=_event(topic),
        others=_others(topic),
        beats=_questions(topic),
        lists=topic.lists,
        measures={
            key: Sums(numerator=measure.numerator, denominator=measure.denominator)
            for key, measure in used.items()
        },
        asked=rows_asked_for(topic, config.formats[topic.data.format]),
        headlines=[finding_id(topic, reference) for reference in topic.headlines],
    )


def significance(config: Config, name: str) -> SignificanceView:
    topic = config.topics[name]
    used = measures_of(topic, config.measures)
    return SignificanceView(
        file=str(config.topic_file(name)),
        ledger=str(ledger_of(config.folder, name)),
        statistics=config.project.statistics,
        headlines=[finding_id(topic, reference) for reference in topic.headlines],
        expects=list(dict.fromkeys(finding_id(topic, item.finding) for item in topic.expected)),
        event=_event(topic),
        others=_others(topic),
        also=topic.also,
        own=_as_other(topic),
        beats=_questions(topic),
        format=_unsaid(config.formats[topic.data.format]),
        measures={key: _scale(measure) for key, measure in used.items()},
    )


def charts(config: Config, name: str) -> ChartsView:
    return ChartsView(**_of_charts(config, name))


def brief(config: Config, name: str) -> BriefView:
    topic = config.topics[name]
    return BriefView(
        **_of_charts(config, name),
        file=str(config.topic_file(name)),
        words=topic,
        expected=[
            item.model_copy(update={"finding": finding_id(topic, item.finding)})
            for item in topic.expected
        ],
        # Which topics are built, and what editions keep, is nothing that a brief says.
        project=config.project.model_copy(update={"topics": "all", "archive": ArchiveSettings()}),
    )


def _of_charts(config: Config, name: str) -> dict[str, Any]:
    topic = config.topics[name]
    event = _event(topic)
    form = config.formats[topic.data.format]
    named = NamedEvent(**dict(event), name=topic.event.name) if event and topic.event else None
    names = {other.id: other.name for other in topic.also}
    return {
        "topic": name,
        "event": named,
        "others": {
            key: NamedEvent(**dict(other), name=names[key]) for key, other in _others(topic).items()
        },
        "also": topic.also,
        "beats": [
            asked.model_copy(update={"title": beat.title})
            for asked, beat in zip(_questions(topic), topic.beats, strict=True)
        ],
        "measures": measures_of(topic, config.measures),
        "format": form.model_copy(update={"said": {**form.said, **topic.said}}),
        "credits": _sources(config, topic),
        "theme": config.theme,
        "frames": list(topic.frames),
        "headlines": [finding_id(topic, reference) for reference in topic.headlines],
    }


def shelf(config: Config) -> dict[str, Any]:
    return {"topics": list(config.topics), "title": config.project.title}


def measures_of(topic: Topic, declared: dict[str, Measure]) -> dict[str, Measure]:
    """Every measure the topic uses, in the order of its beats: declared, or a beat's own."""
    found: dict[str, Measure] = {}
    for beat in topic.beats:
        found |= beat.makes or {name: declared[name] for name in beat.measures}
    return found


def _event(topic: Topic) -> EventDates | None:
    if topic.event is None:
        return None
    event = topic.event
    return EventDates(
        date=event.date,
        before=event.before,
        after=event.after,
        trend_from=event.trend_from,
        settled=_settled(event.date, event.gap_after),
        gap_after=event.gap_after,
        period=event.period,
    )


def _others(topic: Topic) -> dict[str, EventDates]:
    """The other events that some beat is about, with the topic's windows where they have none."""
    asked = {beat.about for beat in topic.beats}
    event = _event(topic)
    if event is None:
        return {}
    return {
        other.id: event.model_copy(
            update={
                "told": f"for '{other.name}': ",
                "trend_from": None,  # it is the topic's own event's
                **{
                    f"{side}_at": dotted(("also", position, side))
                    for side in ("before", "after")
                    if getattr(other, side)
                },
                "date": other.date,
                "before": other.before or event.before,
                "after": other.after or event.after,
                "settled": _settled(other.date, other.gap_after),
                "gap_after": other.gap_after,
            }
        )
        for position, other in enumerate(topic.also)
        if other.id is not None and other.id in asked
    }


def _settled(day: date, gap: Gap | None) -> date:
    return gap.after(day) if gap else day


def _as_other(topic: Topic) -> OtherEvent | None:
    """The topic's own event as the other events are, where some beat is about one of them."""
    if topic.event is None or not _others(topic):
        return None
    return OtherEvent(name=topic.event.name, date=topic.event.date)


def _unsaid(form: Format) -> Format:
    """Without what tags are called, which moves no number."""
    return form.model_copy(update={"said": {}})


def _questions(topic: Topic) -> list[AnyBeat]:
    """What the beats ask of the data, without their words; with the event's control in each."""
    control = topic.event.control if topic.event else None
    return [beat.question(control) for beat in topic.beats]


def _scale(measure: Measure) -> Scale:
    below = {name for _, name in parse_sum(measure.denominator)}
    return Scale(
        per=measure.per,
        kind=measure.kind,
        margin=measure.margin,
        by_match=of_matches(measure.numerator, measure.denominator),
        per_wicket=bool(below & {"wickets", "bowler_wickets"}),
        an_innings="innings" in below,
        parts=MILLIONTHS if "streak_expected" in below else 1,
    )


def _sources(config: Config, topic: Topic) -> list[Source]:
    """The topic's sources, each with the credit line that it gets."""
    chosen = topic.data.source or list(config.sources)
    sources = [config.sources[name] for name in chosen]
    return [source.model_copy(update={"credit": source.credit_line}) for source in sources]

"""What each stage may see of the configuration, and nothing else.

A stage works from its view alone, so the view's hash says exactly when the stage must run again: a
note for the presenter is in `brief` only, a margin from `significance` on.
"""

from __future__ import annotations

from typing import Any, Literal

from pipeline.config.event_views import (
    EventDates,
    NamedEvent,
    View,
    as_other,
    event_dates,
    other_events,
)
from pipeline.config.fields import Margin
from pipeline.config.glossary import Term
from pipeline.config.kinds import AnyBeat
from pipeline.config.load import Config
from pipeline.config.measure import Measure
from pipeline.config.project import Archive as ArchiveSettings
from pipeline.config.project import Format, Project, Source, Statistics
from pipeline.config.sums import MILLIONTHS, of_matches, parse_sum
from pipeline.config.theme import Theme
from pipeline.config.topic import Data, Expectation, OtherEvent, Topic
from pipeline.config.topic_ids import finding_id, rows_asked_for
from pipeline.config.written import Written
from pipeline.ledger.book import ledger_of


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
    glossary: list[Term] = []


def plain(view: View) -> dict[str, Any]:
    """The view as it is hashed, and kept in editions."""
    return view.model_dump(mode="json")


def ingest(config: Config, source: str) -> dict[str, Any]:
    return ingest_source(config.sources[source])


def ingest_source(source: Source) -> dict[str, Any]:
    """What ingest sees of a source: not its titles, credits and licence, nor who asks a server."""
    seen = {"id", "path", "layout", "on_error", "columns", "constants", "date_format"}
    # Editions of before have neither, and those of today say what they are where nobody gave them.
    given = {key for key in ("written", "query") if getattr(source, key) not in (None, Written())}
    return source.model_dump(mode="json", include=seen | given)


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
        event=event_dates(topic),
        others=other_events(topic),
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
        event=event_dates(topic),
        others=other_events(topic),
        also=topic.also,
        own=as_other(topic),
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
        glossary=config.glossary,
    )


def _of_charts(config: Config, name: str) -> dict[str, Any]:
    topic = config.topics[name]
    event = event_dates(topic)
    form = config.formats[topic.data.format]
    named = NamedEvent(**dict(event), name=topic.event.name) if event and topic.event else None
    names = {other.id: other.name for other in topic.also}
    return {
        "topic": name,
        "event": named,
        "others": {
            key: NamedEvent(**dict(other), name=names[key])
            for key, other in other_events(topic).items()
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

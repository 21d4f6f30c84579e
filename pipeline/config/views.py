"""What each stage may see of the configuration, and nothing else.

A stage works from its view alone, so the view's hash says exactly when the stage must run again: a
note for the presenter is in `brief` only, a margin from `significance` on.
"""

from __future__ import annotations

from typing import Any

from pipeline.config.beats import AnyKind
from pipeline.config.check import finding_id
from pipeline.config.fields import parse_sum
from pipeline.config.load import Config
from pipeline.config.project import Measure
from pipeline.config.shares import measures_of
from pipeline.config.topic import Topic

View = dict[str, Any]


def ingest(config: Config, source: str) -> View:
    return config.sources[source].model_dump(
        mode="json", include={"id", "path", "layout", "on_error", "columns", "constants"}
    )


def clean(config: Config) -> View:
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


def metrics(config: Config, name: str) -> View:
    topic = config.topics[name]
    form = config.formats[topic.data.format]
    used = measures_of(topic, config.measures)
    return {
        "file": str(config.topic_file(name)),
        "data": topic.data.model_dump(mode="json"),
        "format": form.model_dump(mode="json"),
        "event": _event(topic),
        "beats": [_question(topic, beat) for beat in topic.beats],
        "lists": topic.lists,
        "measures": {
            key: {"numerator": measure.numerator, "denominator": measure.denominator}
            for key, measure in used.items()
        },
    }


def significance(config: Config, name: str) -> View:
    topic = config.topics[name]
    return {
        "file": str(config.topic_file(name)),
        "statistics": config.project.statistics.model_dump(mode="json"),
        "headlines": [finding_id(topic, reference) for reference in topic.headlines],
        "event": _event(topic),
        "also": [other.model_dump(mode="json") for other in topic.also],
        "beats": [_question(topic, beat) for beat in topic.beats],
        "format": config.formats[topic.data.format].model_dump(mode="json"),
        "measures": {
            name: _scale(measure) for name, measure in measures_of(topic, config.measures).items()
        },
    }


def charts(config: Config, name: str) -> View:
    topic = config.topics[name]
    return {
        "topic": name,
        "event": _event(topic) | {"name": topic.event.name} if topic.event else None,
        "also": [other.model_dump(mode="json") for other in topic.also],
        "beats": [
            {**_question(topic, beat), "title": beat.title, "where": _filter(beat)}
            for beat in topic.beats
        ],
        "measures": _measures(config, topic),
        "format": config.formats[topic.data.format].model_dump(mode="json"),
        "credits": _sources(config, topic),
        "theme": config.theme.model_dump(mode="json") if config.theme else None,
        "frames": list(topic.frames),
        "headlines": [finding_id(topic, reference) for reference in topic.headlines],
    }


def brief(config: Config, name: str) -> View:
    topic = config.topics[name]
    return {
        **charts(config, name),
        "file": str(config.topic_file(name)),
        "words": topic.model_dump(mode="json"),
        "expected": [
            {**item.model_dump(mode="json"), "finding": finding_id(topic, item.finding)}
            for item in topic.expected
        ],
        "project": config.project.model_dump(mode="json", exclude={"topics", "archive"}),
    }


def _event(topic: Topic) -> View | None:
    if topic.event is None:
        return None
    event = topic.event
    return {
        "date": event.date.isoformat(),
        "before": event.before.model_dump(),
        "after": event.after.model_dump(),
        "trend_from": event.trend_from,
    }


def _question(topic: Topic, beat: AnyKind) -> View:
    """What a beat asks of the data, without its words; with the control it is held against."""
    asked = beat.model_dump(mode="json", exclude={"title", "note", "measure"})
    if "control" in asked and asked["control"] is None and topic.event and topic.event.control:
        asked["control"] = {**topic.event.control.model_dump(mode="json"), "inherited": True}
    return {**asked, "measures": list(beat.measure)}


def _filter(beat: AnyKind) -> View:
    """The keys of 'where' that are set."""
    return beat.where.given()


def _scale(measure: Measure) -> View:
    """What the statistics need to know of a measure."""
    below = {name for _, name in parse_sum(measure.denominator)}
    above = {name for _, name in parse_sum(measure.numerator)}
    return {
        **measure.model_dump(mode="json", include={"per", "kind", "margin"}),
        "by_match": below <= {"decided", "matches"} and above <= {"won", "decided"},
        "per_wicket": bool(below & {"wickets", "bowler_wickets"}),
        "an_innings": "innings" in below,
    }


def _measures(config: Config, topic: Topic) -> View:
    used = measures_of(topic, config.measures)
    return {name: measure.model_dump(mode="json") for name, measure in used.items()}


def _sources(config: Config, topic: Topic) -> list[View]:
    chosen = topic.data.source or list(config.sources)
    return [
        {**config.sources[name].model_dump(mode="json"), "credit": config.sources[name].credit_line}
        for name in chosen
    ]

"""The result of a match is an outcome of what is counted in it: what can't be asked by result."""

from __future__ import annotations

from collections.abc import Iterator

from pipeline.config.kinds import AnyBeat
from pipeline.config.measure import Measure
from pipeline.config.sums import parse_sum
from pipeline.config.topic import Topic
from pipeline.config.yaml_files import Document
from pipeline.errors import Problem
from pipeline.topic_places import Place

RESULT = "result"
BALLS = {"legal", "faced"}  # who gets how many of them is chosen; runs and wickets decide a match
RESULTS = {"won", "decided"}


def check_outcomes(
    document: Document, topic: Topic, declared: dict[str, Measure]
) -> Iterator[Problem]:
    """Winners against losers in what made them so; results counted among those chosen by result."""
    for position, beat in enumerate(topic.beats):
        measures = beat.makes or {name: declared[name] for name in beat.measures}
        counts = {name: _columns(measure) for name, measure in measures.items()}
        for place, message in _wrong(beat, counts):
            yield document.problem(("beats", position, *place), message)


def _wrong(beat: AnyBeat, counts: dict[str, set[str]]) -> Iterator[tuple[Place, str]]:
    for name, columns in counts.items():
        if columns & RESULTS and by_result(beat):
            message = (
                f"'{name}' counts results, and the beat's balls are told apart by result: a side "
                "that won has won; take another cut"
            )
            yield ("measure",), message
        elif _between_results(beat) and not columns <= BALLS:
            message = (
                f"'{name}' decides who wins, so between sides that won and lost it says only that "
                "winning is scoring more; compare other groups, or ask what winners did over time "
                "(by: result)"
            )
            yield ("between",), message


def by_result(beat: AnyBeat) -> bool:
    """Whether a beat divides, compares or filters by the result."""
    return RESULT in beat.touched() or bool(beat.groups and beat.groups[0] == RESULT)


def _between_results(beat: AnyBeat) -> bool:
    """Whether it holds one result's numbers against another's; a gap is of changes over time."""
    groups = beat.groups if beat.traits.compares == "groups" else None
    return bool(groups and groups[0] == RESULT)


def _columns(measure: Measure) -> set[str]:
    return {
        name for part in (measure.numerator, measure.denominator) for _, name in parse_sum(part)
    }

"""The topic file: a question, its data, its event, and the beats of the episode in order."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from pipeline.config.beats import AnyBeat, Control
from pipeline.config.fields import Line, Slug, Strict, WindowField
from pipeline.config.selection import FormatName, SourceName, Values, as_list


class Data(Strict):
    competition: Values | None = None
    format: FormatName
    gender: Literal["female", "male"] | None = None
    team_type: str | None = None
    source: (
        Annotated[
            list[SourceName], BeforeValidator(as_list, json_schema_input_type=str | list[str])
        ]
        | None
    ) = None


class Event(Strict):
    """What happened, when, and how much is compared on each side of it."""

    name: Line = Field(description="as it is said: 'the long grass'")
    date: date
    before: WindowField
    after: WindowField
    trend_from: Annotated[str, BeforeValidator(str)] | None = Field(
        None, description="first season of the trend that the step is held against; all when absent"
    )
    control: Control | None = Field(
        None, description="what the event did not touch; a beat may name its own"
    )


class OtherEvent(Strict):
    name: Line
    date: date


class Expectation(Strict):
    """What people say, and what it would mean for one finding."""

    say: Line
    finding: str = Field(description="a finding's id: beat.measure.cell, or the beat alone")
    means: Literal["rises", "falls", "holds"]


class Topic(Strict):
    """One episode's question and the beats that answer it."""

    title: Line
    question: Line
    data: Data
    event: Event | None = None
    also: list[OtherEvent] = []
    expected: list[Expectation] = []
    headlines: list[str] = Field(min_length=1, max_length=5, description="findings, by id")
    beats: list[AnyBeat] = Field(min_length=1)
    lists: dict[Slug, Values] = Field({}, description="players by name or id, used as a tag is")
    notes: list[Line] = Field([], description="for the presenter; printed on the run of the brief")

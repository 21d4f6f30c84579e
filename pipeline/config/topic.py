"""The topic file: a question, its data, its event, and the beats of the episode in order."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, model_validator

from pipeline.config.beats import AnyBeat, Control
from pipeline.config.fields import Line, Slug, Strict, WindowField
from pipeline.config.frames import SETS
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


class Background(Strict):
    """Something said that is not in the data: history, a quote, the text of a rule."""

    say: Line
    source: Line | None = Field(None, description="where it stands; without one it is marked")
    checked: date | None = Field(None, description="when it was checked against the source")
    by: Line | None = Field(None, description="who checked it")

    @model_validator(mode="after")
    def _checked_against_something(self) -> Background:
        if self.checked and not self.source:
            raise ValueError("'checked' needs the 'source' that it was checked against")
        return self


class Sponsor(Strict):
    """A slot of the run sheet, after a beat."""

    after: str = Field(description="a beat's id")
    seconds: int = Field(gt=0, le=600)
    say: Line | None = None


class Cited(Strict):
    """A fact of an archived episode."""

    fact: str = Field(pattern=r"^[a-z][a-z0-9_-]*/[1-9]\d*:\S+$", description="topic/edition:fact")
    say: Line | None = Field(None, description="what it is, in the presenter's words")


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
    background: list[Background] = []
    see_also: list[Cited] = Field([], description="facts of archived episodes")
    sponsor: list[Sponsor] = []
    lists: dict[Slug, Values] = Field({}, description="players by name or id, used as a tag is")
    frames: Annotated[
        list[Literal[SETS]], BeforeValidator(as_list, json_schema_input_type=str | list[str])
    ] = Field(["light"], min_length=1, description="frames for the video, of every chart")
    notes: list[Line] = Field([], description="for the presenter; printed on the run of the brief")

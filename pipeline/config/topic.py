"""The topic file: a question, its data, its event, and the beats of the episode in order."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from pipeline.config.fields import Line, Slug, Strict, Whole
from pipeline.config.frame_files import FrameSet
from pipeline.config.kinds import AnyBeat
from pipeline.config.kinds.base import Control
from pipeline.config.project import Said
from pipeline.config.selection import FormatName, SourceName, Values, as_list, each_once
from pipeline.config.when import GapField, Start, WindowField
from pipeline.contracts.codes import Means, Unit


class Data(Strict):
    competition: Values | None = Field(
        None, description="as the match files write it; all of them when absent"
    )
    format: FormatName = Field(description="a form of the game, by its name in formats.yaml")
    gender: Literal["female", "male"] | None = Field(
        None, description="needed to divide by side where the data hold both"
    )
    team_type: Values | None = Field(
        None, description="as the match files write it: 'international' or 'club'"
    )
    source: (
        Annotated[
            list[SourceName],
            BeforeValidator(as_list, json_schema_input_type=str | list[str]),
            AfterValidator(each_once),
        ]
        | None
    ) = Field(None, description="sources to take, by their id; all of them when absent")


class Event(Strict):
    """What happened, when, and how much is compared on each side of it."""

    name: Line = Field(description="as it is said: 'the long grass'")
    date: Annotated[date, Field(description="the first day on which it held")]
    before: WindowField = Field(description="what is compared of the time before the date")
    after: WindowField = Field(description="what is compared of the time from the date on")
    gap_after: GapField | None = Field(
        None, description="a settling-in time from the date on, which is left out; none when absent"
    )
    trend_from: Start | None = Field(
        None,
        description="season, or day, that the trend begins with which the step is held against; "
        "all when absent",
    )
    period: Unit | None = Field(
        None,
        description="what drift and trend are told by; when absent the season where seasons follow "
        "each other, else the year from the event's date",
    )
    control: Control | None = Field(
        None, description="what the event did not touch; a beat may name its own"
    )


class OtherEvent(Strict):
    """Another event, drawn and named as a rival; with an id a beat can be about it."""

    id: Slug | None = Field(None, description="by which a beat is about it: 'about: drinks'")
    name: Line = Field(description="as it is said: 'the longer drinks break'")
    date: Annotated[date, Field(description="the first day on which it held")]
    before: WindowField | None = Field(None, description="as the event's own; the same when absent")
    after: WindowField | None = Field(None, description="as the event's own; the same when absent")
    gap_after: GapField | None = Field(None, description="as the event's own; none when absent")


class Expectation(Strict):
    """What people say, and what it would mean for one finding."""

    say: Line = Field(description="what people say, as a sentence")
    finding: str = Field(description="a finding's id: beat.measure.cell, or the beat alone")
    means: Means = Field(
        description="what the finding does if they are right: it rises, falls or holds; of two "
        "groups, the second is higher, lower or alike; beside its drift it steps up, steps down or "
        "makes no step; before the event it drifts up or drifts down; who did it matters or makes "
        "no difference"
    )


class Background(Strict):
    """Something said that is not in the data: history, a quote, the text of a rule."""

    say: Line = Field(description="the sentence for the presenter")
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
    seconds: Whole = Field(gt=0, le=600, description="how long the slot is")
    say: Line | None = Field(None, description="what the run sheet calls it")


class Cited(Strict):
    """A fact of an archived episode."""

    fact: str = Field(
        pattern=r"^[a-z][a-z0-9_-]*/[1-9]\d*:\S+$",
        description="topic/edition:fact, as in long-grass/2:wickets",
    )
    say: Line | None = Field(None, description="what it is, in the presenter's words")


class Topic(Strict):
    """One episode's question and the beats that answer it."""

    # No part of what a stage sees: a topic says the same however its file was written.
    like: Slug | None = Field(
        None,
        exclude=True,
        description="another topic, by the name of its file: this file holds what differs from it",
    )
    title: Line = Field(description="the episode's title, at the head of the brief")
    question: Line = Field(description="the question that the brief answers, in a sentence or two")
    data: Data = Field(description="which matches")
    event: Event | None = Field(None, description="what happened; kinds with two windows need it")
    also: list[OtherEvent] = Field(
        [], description="other events: marked in trends, named as rivals inside the windows"
    )
    expected: list[Expectation] = Field(
        [], description="what people say, to be held against the numbers"
    )
    headlines: Annotated[list[str], AfterValidator(each_once)] = Field(
        [], max_length=5, description="findings that stand on the top sheet, by id; up to five"
    )
    beats: list[AnyBeat] = Field(min_length=1, description="the parts, in the order they are told")
    background: list[Background] = Field([], description="what is said that is not in the data")
    see_also: list[Cited] = Field([], description="facts of archived episodes")
    sponsor: list[Sponsor] = Field([], description="slots of the run sheet")
    lists: dict[Slug, Values] = Field({}, description="players by name or id, used as a tag is")
    said: Said = Field(
        {}, description="lists, tags and ids of players as they are said: 'opener: the openers'"
    )
    called: dict[Line, Annotated[list[Line], Field(min_length=1)]] = Field(
        {},
        description="other words that a script may have for a group, a ground, a player or what "
        "happened, by its name: 'north: [up the hill]'; the check of a script knows them",
    )
    frames: Annotated[
        list[FrameSet],
        BeforeValidator(as_list, json_schema_input_type=str | list[str]),
        AfterValidator(each_once),
    ] = Field(["light"], min_length=1, description="frames for the video, of every chart")
    notes: list[Line] = Field([], description="for the presenter; printed on the run of the brief")

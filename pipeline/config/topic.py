"""The topic file: a question, its data, its event, and the beats of the episode in order."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BeforeValidator,
    Field,
    ValidationInfo,
    field_validator,
    model_validator,
)

from pipeline.config.cuts import CUTS
from pipeline.config.fields import Line, OverRange, Slug, Strict, WindowField
from pipeline.errors import did_you_mean
from pipeline.wording.labels import slug


def _as_list(value: Any) -> Any:
    return value if isinstance(value, list) or value is None else [value]


def _strings(value: Any) -> Any:
    return [str(item) if isinstance(item, int) else item for item in _as_list(value)]


def _known(what: str, file: str) -> AfterValidator:
    """A name must be among those the other config files declare (`context[what]`)."""

    def check(name: str, info: ValidationInfo) -> str:
        names = (info.context or {}).get(what)
        if names is not None and name not in names:
            raise ValueError(f"no {what} '{name}' in {file}{did_you_mean(name, names)}")
        return name

    return AfterValidator(check)


def check_values(cut: str, values: list[str], info: ValidationInfo) -> list[str]:
    """Values of a closed cut must be in its set; open cuts are checked against the data later."""
    context = info.context or {}
    valid = context.get("phases", ()) if cut == "phase" else CUTS[cut].values
    for value in values:
        if valid and value not in valid:
            raise ValueError(f"'{value}' is no {CUTS[cut].name}{did_you_mean(value, valid)}")
    return values


def _check_cut(name: str) -> str:
    if name not in CUTS:
        raise ValueError(f"no cut '{name}'{did_you_mean(name, CUTS)}")
    return name


def _check_filter(values: list[str] | None, info: ValidationInfo) -> list[str] | None:
    return values if values is None else check_values(info.field_name or "", values, info)


CutName = Annotated[str, AfterValidator(_check_cut)]
CutNames = Annotated[
    list[CutName],
    BeforeValidator(_as_list, json_schema_input_type=str | list[str]),
    Field(max_length=2),
]
FormatName = Annotated[Slug, _known("format", "formats.yaml")]
MeasureName = Annotated[Slug, _known("measure", "measures.yaml")]
SourceName = Annotated[Slug, _known("source", "sources.yaml")]
Measures = Annotated[
    list[MeasureName],
    BeforeValidator(_as_list, json_schema_input_type=str | list[str]),
    Field(min_length=1),
]
Values = Annotated[
    list[str],
    BeforeValidator(_strings, json_schema_input_type=str | int | list[str | int]),
    Field(min_length=1),
]
Filter = Annotated[Values | None, AfterValidator(_check_filter)]


class Selection(Strict):
    """Which balls: every key narrows the choice; a list means any of its values."""

    overs: OverRange | None = None
    phase: Filter = None
    bowler_kind: Filter = None
    bowler_arm: Filter = None
    bowler_style: Filter = None
    batter_hand: Filter = None
    innings: Filter = None
    batting_team: Filter = None
    bowling_team: Filter = None
    season: Filter = None
    ground: Filter = None
    region: Filter = None
    country: Filter = None

    def chosen(self) -> dict[str, list[str]]:
        """The filters set, by cut, without the over range."""
        return {k: v for k, v in self.model_dump().items() if v is not None and k != "overs"}


class Data(Strict):
    competition: Values | None = None
    format: FormatName
    gender: Literal["female", "male"] | None = None
    team_type: str | None = None
    source: (
        Annotated[
            list[SourceName], BeforeValidator(_as_list, json_schema_input_type=str | list[str])
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


class OtherEvent(Strict):
    name: Line
    date: date


class Expectation(Strict):
    """What people say, and what it would mean for one finding."""

    say: Line
    finding: str = Field(description="a finding's id: beat.measure.cell, or the beat alone")
    means: Literal["rises", "falls", "holds"]


class AnyKind(Strict):
    """What every beat has."""

    id: Slug
    title: Line | None = Field(None, description="the beat's own heading; made when absent")
    where: Selection = Selection()
    note: Line | None = Field(None, description="for the presenter; printed on the beat's page")


class Beat(AnyKind):
    measure: Measures


class BeforeAfter(Beat):
    """How did a measure change across the event, overall and by up to two cuts?"""

    kind: Literal["before_after"]
    by: CutNames = []


class Groups(Beat):
    """Two groups compared, with no event: the second against the first."""

    kind: Literal["groups"]
    between: dict[CutName, Values] = Field(description="one cut and its two values")
    by: CutNames = []

    @field_validator("between")
    @classmethod
    def _values_are_known(
        cls, between: dict[str, list[str]], info: ValidationInfo
    ) -> dict[str, list[str]]:
        for cut, values in between.items():
            check_values(cut, values, info)
        return between

    @model_validator(mode="after")
    def _one_cut_two_values(self) -> Groups:
        if len(self.between) != 1 or len(next(iter(self.between.values()))) != 2:
            raise ValueError("'between' names one cut with two values: {region: [coast, inland]}")
        return self


class Trend(Beat):
    """The long series by season, with the events marked."""

    kind: Literal["trend"]


class Share(AnyKind):
    """Who bowls or faces how much of it, before and after, in share and in balls an innings."""

    kind: Literal["share"]
    of: dict[CutName, Values] = Field(description="one cut and its values: {bowler_arm: left}")
    by: CutNames = []

    @property
    def measure(self) -> list[str]:
        return [share_name(self.of)]

    @field_validator("of")
    @classmethod
    def _one_kind_of_player(
        cls, of: dict[str, list[str]], info: ValidationInfo
    ) -> dict[str, list[str]]:
        if len(of) != 1 or next(iter(of)) not in SHARED_OUT:
            raise ValueError(f"'of' names one of {', '.join(SHARED_OUT)}: {{bowler_arm: left}}")
        for cut, values in of.items():
            check_values(cut, values, info)
        return of


SHARED_OUT = ("bowler_kind", "bowler_arm", "bowler_style", "batter_hand")


def share_name(of: dict[str, Any]) -> str:
    """The measure that a share beat makes: {bowler_arm: [left]} is 'left-share'."""
    values = [value for listed in of.values() for value in _as_list(listed)]
    return f"{'-'.join(slug(str(value)) for value in values)}-share"


AnyBeat = Annotated[BeforeAfter | Groups | Trend | Share, Field(discriminator="kind")]


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
    notes: list[Line] = Field([], description="for the presenter; printed on the run of the brief")

"""The beats: the nine kinds of question that a part of the episode can ask."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import (
    BeforeValidator,
    Field,
    ValidationInfo,
    WithJsonSchema,
    field_validator,
    model_validator,
)

from pipeline.config.fields import (
    Bands,
    Least,
    Line,
    OverRange,
    Slug,
    Strict,
    parse_bands,
    parse_least,
)
from pipeline.config.selection import (
    CutName,
    CutNames,
    Measures,
    Selection,
    Values,
    as_list,
    check_values,
)
from pipeline.wording.labels import slug

# Kinds that compare two windows, and so need the topic's event.
TIMED = ("before_after", "gap", "phases", "share", "mix", "players")


class Control(Strict):
    """What the event did not touch: its change is taken off the change that is told."""

    name: Line = Field(description="as it is said: 'overs 1 to 10'")
    competition: Values | None = Field(None, description="another competition of the same format")
    where: Selection = Field(Selection(), description="filters laid over the beat's own")

    @model_validator(mode="after")
    def _says_what(self) -> Control:
        if not self.competition and not self.where.given():
            raise ValueError("a control names a competition, or balls with 'where'")
        return self


class AnyKind(Strict):
    """What every beat has."""

    id: Slug = Field(description="the beat's name, with which its findings' ids begin")
    title: Line | None = Field(None, description="the beat's own heading; made when absent")
    where: Selection = Field(Selection(), description="which balls; all of the topic's when absent")
    note: Line | None = Field(None, description="for the presenter; printed on the beat's page")


class Beat(AnyKind):
    measure: Measures = Field(description="one or more measures of measures.yaml")


class BeforeAfter(Beat):
    """How did a measure change across the event, overall and by up to two cuts?"""

    kind: Literal["before_after"] = Field(description="the kind of beat")
    by: CutNames = Field([], description="up to two cuts to divide by")
    control: Control | None = Field(None, description="instead of the event's own control")


class TwoGroups(Beat):
    """Two values of one cut, the second held against the first."""

    between: dict[CutName, Values] = Field(description="one cut and its two values")

    @field_validator("between")
    @classmethod
    def _values_are_known(
        cls, between: dict[str, list[str]], info: ValidationInfo
    ) -> dict[str, list[str]]:
        return _known_values(between, info)

    @model_validator(mode="after")
    def _one_cut_two_values(self) -> TwoGroups:
        if len(self.between) != 1 or len(next(iter(self.between.values()))) != 2:
            raise ValueError("'between' names one cut with two values: {region: [coast, inland]}")
        if next(iter(self.between)) in self.by:
            raise ValueError("'by' names another cut than 'between'")
        return self


class Gap(TwoGroups):
    """Did the second group change more than the first?"""

    kind: Literal["gap"] = Field(description="the kind of beat")
    by: Annotated[CutNames, Field(max_length=1)] = Field(
        [], description="one more cut to divide by"
    )


class Groups(TwoGroups):
    """Two groups compared, with no event: the second against the first."""

    kind: Literal["groups"] = Field(description="the kind of beat")
    by: CutNames = Field([], description="up to two cuts to divide by")


class Trend(Beat):
    """The long series by season, with the events marked."""

    kind: Literal["trend"] = Field(description="the kind of beat")
    blind: bool = Field(False, description="frames with the time axis and the event hidden, too")
    control: Control | None = Field(None, description="instead of the event's own control")


class TurningPoint(Beat):
    """When did it really change, without being told?"""

    kind: Literal["turning_point"] = Field(description="the kind of beat")
    every: Literal["season", "quarter"] = Field("season", description="a point of the series")
    blind: bool = Field(False, description="frames with the time axis and the event hidden, too")


class Phases(Beat):
    """A measure along the innings, over by over or in bands, before and after."""

    kind: Literal["phases"] = Field(description="the kind of beat")
    bands: Annotated[
        Bands | None,
        BeforeValidator(parse_bands),
        WithJsonSchema({"description": "5 overs | [1-6, 7-15, 16-20]"}),
    ] = Field(None, description="a tenth of the innings each when absent")
    control: Control | None = Field(None, description="instead of the event's own control")


class Share(AnyKind):
    """Who bowls or faces how much of it, before and after, in share and in balls an innings."""

    kind: Literal["share"] = Field(description="the kind of beat")
    of: dict[CutName, Values] = Field(description="one cut and its values: {bowler_arm: left}")
    by: CutNames = Field([], description="up to two cuts to divide by")
    control: Control | None = Field(None, description="instead of the event's own control")

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
        return _known_values(of, info)


class Mix(Beat):
    """How much of a change is who did what, and how much is the rates themselves?"""

    kind: Literal["mix"] = Field(description="the kind of beat")
    by: Annotated[CutNames, Field(min_length=1)] = Field(description="the groups of the mix")


class Players(Beat):
    """Named players with enough in both windows: who is told apart, and who is not."""

    kind: Literal["players"] = Field(description="the kind of beat")
    role: Literal["bowler", "batter"] = Field(description="whose numbers they are")
    at_least: Annotated[
        Least,
        BeforeValidator(parse_least),
        WithJsonSchema({"type": "string", "description": "300 balls | 20 matches"}),
    ] = Field(description="in each window")


AnyBeat = Annotated[
    BeforeAfter | Gap | Trend | TurningPoint | Phases | Share | Mix | Groups | Players,
    Field(discriminator="kind"),
]

SHARED_OUT = ("bowler_kind", "bowler_arm", "bowler_style", "batter_hand")


def share_name(of: dict[str, Any]) -> str:
    """The measure that a share beat makes: {bowler_arm: [left]} is 'left-share'."""
    values = [value for listed in of.values() for value in as_list(listed)]
    return f"{'-'.join(slug(str(value)) for value in values)}-share"


def _known_values(chosen: dict[str, list[str]], info: ValidationInfo) -> dict[str, list[str]]:
    for cut, values in chosen.items():
        check_values(cut, values, info)
    return chosen


def bands_of(bands: Bands | None, overs: int | None) -> list[OverRange]:
    """The over ranges of a phases beat: as given, or a tenth of the innings each."""
    if bands is None:
        assert overs is not None  # the topic's check made sure of it
        bands = max(1, overs // 10)
    if isinstance(bands, int):
        assert overs is not None
        return [(first, min(first + bands - 1, overs)) for first in range(1, overs + 1, bands)]
    return [tuple(band) for band in bands]

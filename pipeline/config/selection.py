"""Which balls: the names a topic may use, and the filters of a beat."""

from __future__ import annotations

from collections import Counter
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, Field, ValidationInfo

from pipeline.config.cuts import CUTS, DIVIDING
from pipeline.config.fields import OverRange, Slug, Strict
from pipeline.errors import did_you_mean


def as_list(value: Any) -> Any:
    return value if isinstance(value, list) or value is None else [value]


def _strings(value: Any) -> Any:
    """Whole numbers as text: seasons and places are written so."""
    return [str(item) if type(item) is int else item for item in as_list(value)]


def each_once(values: list[str]) -> list[str]:
    """The same; a name that stands twice would be counted, drawn and told twice."""
    for value, count in Counter(values).items():
        if count > 1:
            raise ValueError(f"'{value}' stands twice; name each once")
    return values


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
    valid = _phases(info) if cut == "phase" else CUTS[cut].values
    for value in values:
        if valid and value not in valid:
            raise ValueError(f"'{value}' is no value of '{cut}'{did_you_mean(value, valid)}")
    return values


def _phases(info: ValidationInfo) -> tuple[str, ...]:
    """The phases of the topic's format, which has some; none where the format isn't known."""
    phases: tuple[str, ...] | None = (info.context or {}).get("phases")
    if phases == ():
        raise ValueError("the format has no phases; declare them in formats.yaml, or use 'overs'")
    return phases or ()


def _check_cut(name: str, info: ValidationInfo) -> str:
    if name not in DIVIDING:
        raise ValueError(f"no cut '{name}'{did_you_mean(name, DIVIDING)}")
    if name == "phase":
        _phases(info)
    return name


def _check_filter(values: list[str] | None, info: ValidationInfo) -> list[str] | None:
    return values if values is None else check_values(info.field_name or "", values, info)


CutName = Annotated[str, AfterValidator(_check_cut)]
CutNames = Annotated[
    list[CutName],
    BeforeValidator(as_list, json_schema_input_type=str | list[str]),
    Field(max_length=2),
    AfterValidator(each_once),
]
FormatName = Annotated[Slug, _known("format", "formats.yaml")]
MeasureName = Annotated[Slug, _known("measure", "measures.yaml")]
SourceName = Annotated[Slug, _known("source", "sources.yaml")]
Measures = Annotated[
    list[MeasureName],
    BeforeValidator(as_list, json_schema_input_type=str | list[str]),
    Field(min_length=1),
    AfterValidator(each_once),
]
Values = Annotated[
    list[str],
    BeforeValidator(_strings, json_schema_input_type=str | int | list[str | int]),
    Field(min_length=1),
]
Filter = Annotated[Values | None, AfterValidator(_check_filter)]


class Selection(Strict):
    """Which balls: every key narrows the choice; a list means any of its values."""

    overs: OverRange | None = Field(None, description="from one over to another; the first is 1")
    phase: Filter = Field(None, description="phases of the format, by their names in formats.yaml")
    bowler_kind: Filter = Field(
        None, description="kind of bowler, from the bowling style of the players' sheet"
    )
    bowler_arm: Filter = Field(
        None, description="bowling arm, from the bowling style of the players' sheet"
    )
    bowler_style: Filter = Field(None, description="bowling style as the players' sheet has it")
    batter_hand: Filter = Field(None, description="batting hand, from the players' sheet")
    innings: Filter = Field(None, description="innings of the match")
    batting_team: Filter = Field(None, description="side that bats, as the match files write it")
    bowling_team: Filter = Field(None, description="side that bowls, as the match files write it")
    season: Filter = Field(None, description="season, as the match files write it")
    ground: Filter = Field(
        None,
        description="ground, by its name in the grounds' sheet, or as the match files write it",
    )
    region: Filter = Field(
        None, description="region of the grounds' sheet; a blank one is the country's area"
    )
    country: Filter = Field(None, description="country of the ground, from the grounds' sheet")
    competition: Filter = Field(None, description="competition, as the match files write it")
    home: Filter = Field(None, description="whose ground: the batting side's home, away, neutral")
    result: Filter = Field(None, description="for the batting side: won, lost, tied, undecided")
    batting_position: Filter = Field(None, description="place in the batting order, 1 to 11")
    batting_order: Filter = Field(None, description="top (1-3), middle (4-7), lower (8-11)")
    team: Filter = Field(None, description="matches of a side, whichever bats")
    bowler: Filter = Field(None, description="names or ids of bowlers")
    batter: Filter = Field(None, description="names or ids of batters")
    bowler_tag: Filter = Field(None, description="a tag of players.csv, or a list of this topic")
    batter_tag: Filter = Field(None, description="a tag of players.csv, or a list of this topic")

    def given(self) -> dict[str, object]:
        """The filters that are set."""
        return self.model_dump(mode="json", exclude_none=True)

    def chosen(self) -> dict[str, list[str]]:
        """The filters that are set, by cut; overs are not among them."""
        found = {cut: getattr(self, cut) for cut in type(self).model_fields if cut != "overs"}
        return {cut: list(values) for cut, values in found.items() if values}

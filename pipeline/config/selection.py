"""Which balls: the names a topic may use, and the filters of a beat."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, Field, ValidationInfo

from pipeline.config.cuts import CUTS, DIVIDING
from pipeline.config.fields import OverRange, Slug, Strict
from pipeline.errors import did_you_mean


def as_list(value: Any) -> Any:
    return value if isinstance(value, list) or value is None else [value]


def _strings(value: Any) -> Any:
    return [str(item) if isinstance(item, int) else item for item in as_list(value)]


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
            raise ValueError(f"'{value}' is no value of '{cut}'{did_you_mean(value, valid)}")
    return values


def _check_cut(name: str) -> str:
    if name not in DIVIDING:
        raise ValueError(f"no cut '{name}'{did_you_mean(name, DIVIDING)}")
    return name


def _check_filter(values: list[str] | None, info: ValidationInfo) -> list[str] | None:
    return values if values is None else check_values(info.field_name or "", values, info)


CutName = Annotated[str, AfterValidator(_check_cut)]
CutNames = Annotated[
    list[CutName],
    BeforeValidator(as_list, json_schema_input_type=str | list[str]),
    Field(max_length=2),
]
FormatName = Annotated[Slug, _known("format", "formats.yaml")]
MeasureName = Annotated[Slug, _known("measure", "measures.yaml")]
SourceName = Annotated[Slug, _known("source", "sources.yaml")]
Measures = Annotated[
    list[MeasureName],
    BeforeValidator(as_list, json_schema_input_type=str | list[str]),
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
    competition: Filter = None
    home: Filter = Field(None, description="whose ground: the batting side's home, away, neutral")
    result: Filter = Field(None, description="for the batting side: won, lost, tied, undecided")
    batting_position: Filter = None
    batting_order: Filter = Field(None, description="top (1-3), middle (4-7), lower (8-11)")
    team: Filter = Field(None, description="matches of a side, whichever bats")
    bowler: Filter = Field(None, description="names or ids of bowlers")
    batter: Filter = Field(None, description="names or ids of batters")
    bowler_tag: Filter = Field(None, description="a tag of players.csv, or a list of this topic")
    batter_tag: Filter = Field(None, description="a tag of players.csv, or a list of this topic")

    def given(self) -> dict[str, object]:
        """The filters that are set."""
        return self.model_dump(mode="json", exclude_none=True)

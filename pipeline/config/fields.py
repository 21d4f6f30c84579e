"""The small grammars inside config values: over ranges, bands, amounts, margins, sums."""

from __future__ import annotations

import itertools
import re
from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    WithJsonSchema,
)

from pipeline.config.sums import parse_sum

Slug = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_-]*$", max_length=60)]
Line = Annotated[str, StringConstraints(min_length=1, max_length=400, strip_whitespace=True)]
Whole = Annotated[int, Field(strict=True)]  # 1, never true or '1'


class Strict(BaseModel):
    """A config section: unknown keys are errors, values never change after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def parse_over_range(value: Any) -> Any:
    """'11-40' or '7' to (first, last), both 1-based and inclusive."""
    written = "-".join(map(str, value)) if _is_pair(value) else str(value).strip()
    found = re.fullmatch(r"(\d{1,3})(?:\s*[-–]\s*(\d{1,3}))?", written, re.ASCII)
    if not found:
        raise ValueError(f"'{value}' is no range of overs; write 11-40 (the first over is 1)")
    first, last = int(found[1]), int(found[2] or found[1])
    if first < 1 or last < first:
        raise ValueError(f"overs {value}: the first over is 1 and a range runs upward")
    return (first, last)


def _is_pair(value: Any) -> bool:
    """A range as data keep it."""
    return isinstance(value, (tuple, list)) and [type(end) for end in value] == [int, int]


OverRange = Annotated[
    tuple[int, int],
    BeforeValidator(parse_over_range),
    WithJsonSchema({"type": ["string", "integer"], "description": "overs, such as 11-40"}),
]


Bands = int | list[tuple[int, int]]


def parse_bands(value: Any) -> Any:
    """'5 overs' as 5; a list of over ranges as pairs, in order and without overlap."""
    if value is None or (type(value) is int and 1 <= value <= 99):
        return value
    if isinstance(value, list) and value:
        bands = [parse_over_range(item) for item in value]
        if any(later[0] <= earlier[1] for earlier, later in itertools.pairwise(bands)):
            raise ValueError("bands run upward and do not overlap: [1-6, 7-15, 16-20]")
        return bands
    if found := re.fullmatch(r"([1-9]\d?) overs?", str(value).strip(), re.ASCII):
        return int(found[1])
    raise ValueError(f"'{value}' is no set of bands; write '5 overs' or [1-6, 7-15, 16-20]")


class Least(Strict):
    """How much of a player there must be in each window."""

    count: Whole = Field(ge=1, le=999_999, description="how many")
    of: Literal["balls", "matches"] = Field(description="of what: balls or matches")


def parse_least(value: Any) -> Any:
    """'300 balls' or '20 matches'."""
    if isinstance(value, (Least, dict)):
        return value
    written = str(value).strip()
    found = re.fullmatch(r"([1-9]\d{0,5}) (ball|match)(?:e?s)?", written, re.ASCII)
    if not found:
        raise ValueError(f"'{value}' is no amount; write '300 balls' or '20 matches'")
    return Least(count=int(found[1]), of="balls" if found[2] == "ball" else "matches")


class Margin(Strict):
    """The change that counts as none, fixed in advance: per cent of the value, or points."""

    size: float = Field(gt=0, le=100, description="how large a change still counts as none")
    unit: Literal["percent", "points"] = Field(
        description="percent of the value, or points of a share"
    )


def parse_margin(value: Any) -> Any:
    """'5 %' of a rate or average, '0.6 points' of a share."""
    if isinstance(value, (Margin, dict)):
        return value
    written = str(value).strip()
    found = re.fullmatch(r"(\d{1,9}(?:\.\d{1,9})?)\s*(%|per cent|points?)", written, re.ASCII)
    if not found or not 0 < float(found[1]) <= 100:
        raise ValueError(
            f"'{value}' is no margin; write '5 %' for a rate, '0.6 points' for a share"
        )
    return Margin(size=float(found[1]), unit="points" if "point" in found[2] else "percent")


MarginField = Annotated[
    Margin,
    BeforeValidator(parse_margin),
    WithJsonSchema({"type": "string", "description": "5 % | 0.6 points"}),
]


def _checked_sum(value: Any) -> Any:
    if isinstance(value, str):
        parse_sum(value)
    return value


SumField = Annotated[str, BeforeValidator(_checked_sum)]

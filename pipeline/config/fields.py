"""The small grammars inside config values: windows, over ranges, margins, sums of columns."""

from __future__ import annotations

import itertools
import re
from datetime import date
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


class Strict(BaseModel):
    """A config section: unknown keys are errors, values never change after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Window(Strict):
    """A run of matches: so many seasons, or from one season or date to another (inclusive)."""

    seasons: int | None = Field(None, description="so many seasons next to the event")
    first: str | None = Field(None, description="first season, or first date")
    last: str | None = Field(
        None, description="last season, or last date; it belongs to the window"
    )

    @property
    def dated(self) -> bool:
        return self.first is not None and re.fullmatch(r"\d{4}-\d\d-\d\d", self.first) is not None

    def __str__(self) -> str:
        return f"{self.seasons} seasons" if self.seasons else f"{self.first} to {self.last}"


def parse_window(value: Any) -> Any:
    """'5 seasons', '2012 to 2016' (season labels) or '2012-04-01 to 2016-09-30' (dates)."""
    if isinstance(value, (Window, dict)):
        return value
    text = str(value).strip()
    if found := re.fullmatch(r"([1-9]\d?) seasons?", text):
        return Window(seasons=int(found[1]))
    if found := re.fullmatch(r"(\S+) to (\S+)", text):
        days = [part for part in found.groups() if re.fullmatch(r"\d{4}-\d\d-\d\d", part)]
        if len(days) == 1:
            raise ValueError(f"'{text}' mixes a date and a season; write both ends the same way")
        for day in days:
            date.fromisoformat(day)
        return Window(first=found[1], last=found[2])
    raise ValueError(
        f"'{text}' is no window; write '5 seasons', '2012 to 2016' or '2012-04-01 to 2016-09-30'"
    )


WindowField = Annotated[
    Window,
    BeforeValidator(parse_window),
    WithJsonSchema(
        {"type": "string", "description": "5 seasons | 2012 to 2016 | 2012-04-01 to 2016-09-30"}
    ),
]


def parse_over_range(value: Any) -> Any:
    """'11-40' or '7' to (first, last), both 1-based and inclusive."""
    if isinstance(value, (tuple, list)) and len(value) == 2:
        return tuple(value)
    found = re.fullmatch(r"(\d{1,3})(?:\s*[-–]\s*(\d{1,3}))?", str(value).strip())
    if not found:
        raise ValueError(f"'{value}' is no range of overs; write 11-40 (the first over is 1)")
    first, last = int(found[1]), int(found[2] or found[1])
    if first < 1 or last < first:
        raise ValueError(f"overs {value}: the first over is 1 and a range runs upward")
    return (first, last)


OverRange = Annotated[
    tuple[int, int],
    BeforeValidator(parse_over_range),
    WithJsonSchema({"type": ["string", "integer"], "description": "overs, such as 11-40"}),
]


Bands = int | list[tuple[int, int]]


def parse_bands(value: Any) -> Any:
    """'5 overs' as 5; a list of over ranges as pairs, in order and without overlap."""
    if value is None or isinstance(value, int):
        return value
    if isinstance(value, list):
        bands = [parse_over_range(item) for item in value]
        if any(later[0] <= earlier[1] for earlier, later in itertools.pairwise(bands)):
            raise ValueError("bands run upward and do not overlap: [1-6, 7-15, 16-20]")
        return bands
    if found := re.fullmatch(r"([1-9]\d?) overs?", str(value).strip()):
        return int(found[1])
    raise ValueError(f"'{value}' is no set of bands; write '5 overs' or [1-6, 7-15, 16-20]")


class Least(Strict):
    """How much of a player there must be in each window."""

    count: int = Field(description="how many")
    of: str = Field(description="of what: balls or matches")


def parse_least(value: Any) -> Any:
    """'300 balls' or '20 matches'."""
    if isinstance(value, (Least, dict)):
        return value
    found = re.fullmatch(r"([1-9]\d{0,5}) (ball|match)(?:e?s)?", str(value).strip())
    if not found:
        raise ValueError(f"'{value}' is no amount; write '300 balls' or '20 matches'")
    return Least(count=int(found[1]), of="balls" if found[2] == "ball" else "matches")


class Margin(Strict):
    """The change that counts as none, fixed in advance: per cent of the value, or points."""

    size: float = Field(description="how large a change still counts as none")
    unit: Literal["percent", "points"] = Field(
        description="percent of the value, or points of a share"
    )


def parse_margin(value: Any) -> Any:
    """'5 %' of a rate or average, '0.6 points' of a share."""
    if isinstance(value, (Margin, dict)):
        return value
    found = re.fullmatch(r"(\d+(?:\.\d+)?)\s*(%|per cent|points?)", str(value).strip())
    if not found or float(found[1]) <= 0:
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

"""When, as a topic's file writes it: windows, a settling-in time, the start of a trend."""

from __future__ import annotations

import re
from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema, model_validator

from pipeline.calendar import days_on, months_on
from pipeline.config.fields import Strict, Whole


class Window(Strict):
    """A run of matches: so many seasons or years, or from one season or date to another."""

    seasons: Whole | None = Field(
        None, ge=1, le=99, description="so many seasons next to the event"
    )
    years: Whole | None = Field(
        None, ge=1, le=99, description="so many years, counted from the event to the day"
    )
    first: str | None = Field(None, description="first season, or first date")
    last: str | None = Field(
        None, description="last season, or last date; it belongs to the window"
    )

    @model_validator(mode="after")
    def _counted_or_ends(self) -> Window:
        ends = [end for end in (self.first, self.last) if end is not None]
        counts = [count for count in (self.seasons, self.years) if count]
        if (len(counts), len(ends)) not in ((1, 0), (0, 2)):
            raise ValueError("a window is a number of seasons or years, or a first and a last one")
        for end in filter(is_day, ends):
            _check_day(end)
        if self.dated and (self.first or "") > (self.last or ""):
            raise ValueError(f"'{self}' ends before it begins")
        return self

    @property
    def dated(self) -> bool:
        """Whether its two ends are days."""
        return self.first is not None and is_day(self.first)

    @property
    def of_seasons(self) -> bool:
        """Whether it is made of whole seasons."""
        return not self.years and not self.dated

    def __str__(self) -> str:
        for count, unit in ((self.seasons, "season"), (self.years, "year")):
            if count:
                return f"{count} {unit}" if count == 1 else f"{count} {unit}s"
        return f"{self.first} to {self.last}"


def is_day(written: str) -> bool:
    """Whether a text has the form of a day, 2012-04-01."""
    return re.fullmatch(r"\d{4}-\d\d-\d\d", written, re.ASCII) is not None


def parse_window(value: Any) -> Any:
    """'5 seasons', '4 years', '2012 to 2016' (season labels), '2012-04-01 to 2016-09-30' (days)."""
    if isinstance(value, (Window, dict)):
        return value
    text = str(value).strip()
    if found := re.fullmatch(r"([1-9]\d?) (season|year)s?", text, re.ASCII):
        return Window(**{f"{found[2]}s": int(found[1])})
    if found := re.fullmatch(r"(\S+) to (\S+)", text):
        days = [part for part in found.groups() if is_day(part)]
        if len(days) == 1:
            raise ValueError(f"'{text}' mixes a date and a season; write both ends the same way")
        for day in days:
            _check_day(day)
        return Window(first=found[1], last=found[2])
    raise ValueError(
        f"'{text}' is no window; write '5 seasons', '4 years', '2012 to 2016' or "
        "'2012-04-01 to 2016-09-30'"
    )


def _check_day(written: str) -> None:
    try:
        date.fromisoformat(written)
    except ValueError:
        raise ValueError(f"'{written}' is no day of the calendar") from None


WindowField = Annotated[
    Window,
    BeforeValidator(parse_window),
    WithJsonSchema(
        {
            "type": "string",
            "description": "5 seasons | 4 years | 2012 to 2016 | 2012-04-01 to 2016-09-30",
        }
    ),
]


class Gap(Strict):
    """A stretch of time after the event."""

    count: Whole = Field(ge=1, le=999, description="how many")
    unit: Literal["days", "weeks", "months", "years"] = Field(description="of what")

    def __str__(self) -> str:
        return f"{self.count} {self.unit if self.count > 1 else self.unit.removesuffix('s')}"

    def after(self, day: date) -> date:
        """The day on which it is over."""
        if self.unit in ("days", "weeks"):
            return days_on(day, self.count * (7 if self.unit == "weeks" else 1))
        return months_on(day, self.count * (12 if self.unit == "years" else 1))


def parse_gap(value: Any) -> Any:
    """'6 months', '2 weeks', '1 year', '10 days'."""
    if value is None or isinstance(value, (Gap, dict)):
        return value
    written = str(value).strip()
    found = re.fullmatch(r"([1-9]\d{0,2}) (day|week|month|year)s?", written, re.ASCII)
    if not found:
        raise ValueError(f"'{value}' is no stretch of time; write '6 months', '2 weeks', '1 year'")
    return Gap(count=int(found[1]), unit=f"{found[2]}s")


GapField = Annotated[
    Gap,
    BeforeValidator(parse_gap),
    WithJsonSchema({"type": "string", "description": "6 months | 2 weeks | 1 year | 10 days"}),
]


def _checked_start(value: Any) -> Any:
    """A season's label, or a day of the calendar."""
    if isinstance(value, date):
        return value.isoformat()
    written = str(value) if type(value) is int else value  # 2012 is a number as YAML has it
    if isinstance(written, str) and is_day(written):
        _check_day(written)
    return written


Start = Annotated[str, BeforeValidator(_checked_start, json_schema_input_type=str | int)]

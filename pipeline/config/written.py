"""How a foreign table writes its cells, and what is asked of a database."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from pipeline.config.fields import Strict, Whole

TODO = "TODO"  # what a person has to decide, in a proposal
_DIRECTIVES = "dmYybBHMS"


def _date_format(text: str) -> str:
    """A format of strptime with a day, a month and a year, and nothing but digits and names."""
    found = re.findall(r"%(.?)", text)
    day, month, year = "d" in found, bool({"m", "b", "B"} & {*found}), bool({"Y", "y"} & {*found})
    if not (day and month and year and {*found} <= {*_DIRECTIVES}):
        raise ValueError(
            f"'{text}' is no form of a date; write it like %d/%m/%Y (%d day, %m month, %b its "
            "name, %Y year; %H, %M and %S are passed over)"
        )
    return text


DateFormat = Annotated[str, AfterValidator(_date_format), StringConstraints(max_length=40)]
Query = Annotated[str, StringConstraints(min_length=1, max_length=2_000, strip_whitespace=True)]
EnvironmentName = Annotated[str, StringConstraints(pattern=r"^[A-Z][A-Z0-9_]*$", max_length=60)]


class Written(Strict):
    """How a foreign table writes its cells, where it is not as ours are written."""

    delimiter: Literal["comma", "semicolon", "tab", "bar"] = Field(
        "comma", description="what stands between the cells of a CSV"
    )
    encoding: Literal["utf-8", "utf-16", "windows-1252"] = Field(
        "utf-8", description="how a CSV's letters are written; windows-1252 reads Latin-1 too"
    )
    date_format: DateFormat | None = Field(
        None, description="dates as '%d/%m/%Y' has them; YYYY-MM-DD when absent"
    )
    overs_from: Whole | None = Field(
        None,
        ge=0,
        le=1,
        description="number of the first over; when absent 1 in 'over', 0 in 'ball' (0.1)",
    )
    season: Literal["year"] | None = Field(
        None, description="'year': the season is the year of the date; for tables that have none"
    )
    blank: list[str] = Field([], description="words that mean an empty cell, such as NA")
    values: dict[str, dict[str, str]] = Field(
        {}, description="our column name -> the table's word -> ours: dismissal: {ct: caught}"
    )

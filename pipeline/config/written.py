"""How a foreign table writes its cells, and what is asked of a database."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from pipeline.config.fields import Strict, Whole

TODO = "TODO"  # what a person has to decide, in a proposal
Query = Annotated[str, StringConstraints(min_length=1, max_length=2_000, strip_whitespace=True)]


def _variable(name: str) -> str:
    """Not repeated where it is none: it may be the connection itself, with its password."""
    if not re.fullmatch(r"[A-Z][A-Z0-9_]{0,59}", name):
        raise ValueError(
            "no name of an environment variable, such as PEBBLE_DB; the connection itself stands "
            "in that variable, never in this file"
        )
    return name


EnvironmentName = Annotated[str, AfterValidator(_variable)]


class Written(Strict):
    """How a foreign table writes its cells, where it is not as ours are written."""

    delimiter: Literal["comma", "semicolon", "tab", "bar"] = Field(
        "comma", description="what stands between the cells of a CSV"
    )
    encoding: Literal["utf-8", "utf-16", "windows-1252"] = Field(
        "utf-8", description="how a CSV's letters are written; windows-1252 reads Latin-1 too"
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

"""What the tables of the layout `ball-tables` hold: the one contract of its reader and its page.

The names are those of `pipeline.tables`, without the columns that the Laws add.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import pyarrow as pa

from pipeline import tables
from pipeline.ingest.limits import MOST_DELIVERIES, MOST_INNINGS

Holds = Literal["text", "count", "flag", "day"]
FORMS = ("csv", "parquet")
NEEDED = "needed"


@dataclass(frozen=True)
class Column:
    """One column: what it holds, and what a blank cell or a missing column means.

    `blank` is that meaning in words, or NEEDED; `default` is what is read then, None for nothing.
    Counts are whole numbers from `least` to `most`, of a `unit`; a text with `words` is one of
    them, and one with a `form` (a regular expression) is as `formed` says.
    """

    name: str
    holds: Holds
    meaning: str
    blank: str = NEEDED
    default: int | bool | str | None = None
    least: int = 0
    most: int = 999
    unit: str = ""
    words: tuple[str, ...] = ()
    form: str = ""
    formed: str = ""

    @property
    def needed(self) -> bool:
        return self.blank == NEEDED

    @property
    def expected(self) -> str:
        """What a cell holds, in words."""
        if self.holds == "count":
            of = f" of {self.unit}" if self.unit else ""
            return f"whole number{of}, {self.least:,} to {self.most:,}"
        if self.words:
            return " or ".join(self.words)
        if self.form:
            return self.formed
        return {"text": "text", "flag": "1 or 0", "day": "day as YYYY-MM-DD"}[self.holds]


@dataclass(frozen=True)
class Table:
    """One table of the layout; `key` names the columns that no two rows share.

    `large` ones are checked for that where they are put together, not row by row.
    """

    name: str
    meaning: str
    columns: tuple[Column, ...]
    needed: bool
    key: tuple[str, ...]
    large: bool = False

    @property
    def names(self) -> list[str]:
        return [column.name for column in self.columns]

    def arrow(self, column: Column) -> pa.DataType:
        """The type in which a column is read: in the large tables each text once, with codes."""
        text = pa.dictionary(pa.int32(), pa.string()) if self.large else pa.string()
        return {"text": text, "count": pa.int32(), "flag": pa.bool_(), "day": pa.date32()}[
            column.holds
        ]

    def narrow(self) -> pa.Schema:
        """The same columns in the types of `pipeline.tables`, in which they are written."""
        whole = getattr(tables, self.name.upper())
        return pa.schema([whole.field(name) for name in self.names])


def _text(name: str, meaning: str, blank: str = NEEDED, default: str | None = None) -> Column:
    return Column(name, "text", meaning, blank, default)


def _runs(name: str, meaning: str) -> Column:
    return Column(name, "count", meaning, "none", 0, unit="runs")


MATCH_ID = _text("match_id", "the match, by one id in all tables")
INNINGS_NUMBER = Column(
    "innings", "count", "innings of the match, counted from 1", least=1, most=MOST_INNINGS
)
PLACE = (
    MATCH_ID,
    INNINGS_NUMBER,
    Column("over", "count", "over of the innings, counted from 1", least=1),
    Column(
        "delivery",
        "count",
        "delivery of the over, counted from 1; wides and no-balls count, the tenth is 10",
        least=1,
        most=MOST_DELIVERIES,
    ),
)

DELIVERIES = Table(
    "deliveries",
    "A row a delivery, with what the scorer writes of it. What the Laws make of it (valid, faced, "
    "charged to the bowler) is not in the table: it follows.",
    (
        *PLACE,
        _text("batter_id", "who faces"),
        _text("non_striker_id", "who is at the other end"),
        _text("bowler_id", "who bowls"),
        _text("batting_team", "side that bats"),
        _text("bowling_team", "side that bowls: the match's other one"),
        Column(
            "runs_batter", "count", "runs off the bat; 0 is written, never left blank", unit="runs"
        ),
        _runs("wides", "of a wide: its own and all that were run (Law 22)"),
        _runs("noballs", "of a no-ball: its own, not those off the bat (Law 21)"),
        _runs("byes", "byes (Law 23)"),
        _runs("legbyes", "leg byes (Law 23)"),
        _runs("penalty", "penalty runs on this delivery (Law 41.18)"),
        Column(
            "non_boundary",
            "flag",
            "1: four or six off the bat that were run, not hit over the boundary",
            "0",
            False,
        ),
        Column(
            "delivered",
            "flag",
            "0: a dismissal before the ball was bowled; no ball is counted",
            "1",
            True,
        ),
    ),
    needed=True,
    key=tuple(column.name for column in PLACE),
    large=True,
)

DISMISSALS = Table(
    "dismissals",
    "A row for everybody who is dismissed or retires, on the delivery that it goes with. Several "
    "on one delivery are several rows, in their order.",
    (
        *PLACE,
        _text("kind", "how, in the words of the Laws; the words are listed below"),
        _text("player_out_id", "who"),
    ),
    needed=False,
    key=(*(column.name for column in PLACE), "player_out_id"),
    large=True,
)

INNINGS = Table(
    "innings",
    "A row an innings, with what stands over it. Without the table an innings is what has "
    "deliveries; with it every innings has a row, and one without deliveries (forfeited, or none "
    "bowled) counts as well.",
    (
        MATCH_ID,
        INNINGS_NUMBER,
        _text("batting_team", "side that bats"),
        Column(
            name="target_runs",
            holds="count",
            meaning="what wins, for this innings",
            blank="not known",
            most=9999,
            unit="runs",
        ),
        Column(
            name="target_overs",
            holds="text",
            meaning="overs to get them in, in the notation of the trade: 40.2 is 40 overs and 2 "
            "balls; a part that no over has (40.7) is counted on the quality page",
            blank="not known",
            form=r"^\s*[0-9]{1,3}(\.[0-9]{1,2})?\s*$",
            formed="overs and balls, such as 40 or 40.2",
        ),
        _runs("penalty_pre", "penalty runs that the innings began with (Law 41.18)"),
        _runs("penalty_post", "penalty runs awarded to it after it ended (Law 41.18)"),
        Column("declared", "flag", "1: closed by its captain (Law 15.1)", "0", False),
        Column(
            name="forfeited",
            holds="flag",
            meaning="1: not begun, by its captain's choice (Law 15.2); deliveries of it are an "
            "error",
            blank="0",
            default=False,
        ),
        Column(
            name="miscounted_overs",
            holds="count",
            meaning="those that the scorer marks as miscounted (Law 17.5)",
            blank="none",
            default=0,
            unit="overs",
        ),
        Column(
            name="miscounted",
            holds="text",
            meaning="those overs, counted from 1",
            blank="none marked",
            form=r"^\s*[0-9]{1,4}(\s*;\s*[0-9]{1,4})*\s*$",
            formed="overs, as in 14;20",
        ),
    ),
    needed=False,
    key=("match_id", "innings"),
)

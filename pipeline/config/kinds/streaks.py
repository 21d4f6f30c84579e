"""streaks: how often an outcome came so many times in a row, and against what its rate makes."""

from __future__ import annotations

from typing import Any, ClassVar, Literal

from pydantic import Field, field_validator

from pipeline.config.fields import Margin, Whole
from pipeline.config.kinds.base import AnyKind, Control, Traits
from pipeline.config.measure import Measure
from pipeline.config.selection import CutNames
from pipeline.config.sums import ADDENDS, MILLIONTHS, parse_sum
from pipeline.sql import quoted

Outcome = Literal["dots", "boundaries", "sixes"]
# What can come in a row, as the columns that count it; how many are a run where nothing is said.
OUTCOMES = {"dots": "dot", "boundaries": "four + six", "sixes": "six"}
USUAL = {"dots": 6, "boundaries": 3, "sixes": 2}
# What is one for a whole innings: by anything finer a run would be torn.
WHOLE_INNINGS = (
    *("innings", "batting_team", "bowling_team", "season", "ground", "region", "country"),
    *("competition", "home", "result"),
)
FAVOURS: dict[str, Literal["batting", "bowling"]] = {
    "dots": "bowling",
    "boundaries": "batting",
    "sixes": "batting",
}
# In words, as they are said: two to twelve.
COUNTED = (
    *("none", "one", "two", "three", "four", "five", "six", "seven", "eight"),
    *("nine", "ten", "eleven", "twelve"),
)
MARGIN = Margin(size=5, unit="percent")

# `n` deliveries of a stretch are asked about, and the outcome came at `k` of them.
_STREAKS = """(
    SELECT * EXCLUDE (came, stretch, place, n, k),
        CASE WHEN place = n AND k >= {length} THEN round({millionths} * (n - k + 1) * list_product(
            [(k - i) / (n - i) for i in range({length})]
        ))::BIGINT ELSE 0 END AS streak_expected
    FROM (
        SELECT *, row_number() OVER so_far AS place,
            count(*) OVER whole AS n, count_if(came) OVER whole AS k,
            (count_if(came) OVER (by_innings ROWS {before} PRECEDING) = {length}
                AND NOT lag(came, {length}, false) OVER by_innings)::INT AS streak,
            (count_if(came) OVER (so_far ROWS {before} PRECEDING) = {length}
                AND NOT lag(came, {length}, false) OVER so_far)::INT AS streak_in_phase
        FROM (
            SELECT d.*, {outcome} AS came, {stretch} AS stretch
            FROM read_parquet({deliveries}) d
            JOIN read_parquet({matches}) m USING (match_id)
            WHERE {conditions}
        )
        WINDOW by_innings AS (PARTITION BY match_id, innings ORDER BY over, delivery),
            whole AS (PARTITION BY match_id, innings, stretch),
            so_far AS (whole ORDER BY over, delivery)
    )
)"""


class Streaks(AnyKind):
    """How often so many of an outcome came in a row, and against what its rate alone would make?"""

    traits: ClassVar[Traits] = Traits("windows", marginals=True, panel=True)

    kind: Literal["streaks"] = Field(description="the kind of beat")
    of: Outcome = Field(description="what comes in a row: dot balls, fours and sixes, or sixes")
    length: Whole | None = Field(
        None,
        ge=2,
        le=12,
        description="how many make a streak; 6 dots, 3 boundaries, 2 sixes if absent",
    )
    by: CutNames = Field([], description="up to two cuts that are one for a whole innings")
    control: Control | None = Field(None, description="instead of the event's own control")

    @classmethod
    def measures_written(cls, tree: dict[str, Any]) -> list[str]:
        of, length = tree.get("of"), tree.get("length")
        if not isinstance(of, str) or of not in OUTCOMES:
            return []
        named = length if isinstance(length, int) and 2 <= length <= 12 else USUAL[of]
        return [f"{COUNTED[named]}-{of}-{what}" for what in ("in-a-row", "against-rate")]

    @property
    def makes(self) -> dict[str, Measure]:
        came, against = self.measures
        return {came: _came(self.of, self.least), against: _against_rate(self.of, self.least)}

    @property
    def least(self) -> int:
        """How many in a row are a streak."""
        return self.length or USUAL[self.of]

    @property
    def cuts(self) -> list[str]:
        return list(self.by)

    @property
    def held_against(self) -> Control | None:
        return self.control

    def relation(self, tables: dict[str, str], conditions: list[str], phase: str) -> str:
        return streaks_from(tables, outcome_sql(self.of), conditions, self.least, phase)

    @field_validator("by")
    @classmethod
    def _whole_innings(cls, by: list[str]) -> list[str]:
        for cut in by:
            if cut not in WHOLE_INNINGS:
                raise ValueError(
                    f"'{cut}' would tear streaks apart; 'by' takes what is one for a whole innings "
                    f"({', '.join(WHOLE_INNINGS)}), and 'where' takes the rest"
                )
        return by


def _came(of: str, least: int) -> Measure:
    """Streaks an innings."""
    count = COUNTED[least]
    return Measure(
        label=f"count of {count} or more {_named(of)} in a row",
        said=f"the count of {count} or more {_named(of)} in a row",
        numerator="streak",
        denominator="innings",
        kind="rate",
        unit=f"streaks of {of} an innings",
        spoken="an innings",
        counted=f"streaks of {of}",
        decimals=2,
        rise_favours=FAVOURS[of],
        margin=MARGIN,
        defined=f"streaks of at least {count} {_named(of)}, a longer one counted once, for each "
        "innings: of the balls asked about, in order; a wide or a no-ball is one of them",
    )


def _against_rate(of: str, least: int) -> Measure:
    """Streaks for each one that the rate alone would make."""
    count = COUNTED[least]
    return Measure(
        label=f"streaks of {count} or more {_named(of)} against their rate",
        numerator="streak_in_phase",
        denominator="streak_expected",
        per=MILLIONTHS,
        kind="rate",
        unit="for each one expected",
        spoken="for each one expected",
        counted=f"streaks of {of}",
        decimals=2,
        rise_favours="neither",
        margin=MARGIN,
        defined=f"streaks of at least {count} {_named(of)} in a phase of an innings, for each one "
        "that as many of them in any order would make there (expected ones in millionths)",
    )


def _named(of: str) -> str:
    return {"dots": "dot balls", "boundaries": "fours and sixes"}.get(of, of)


def outcome_sql(of: str) -> str:
    """The condition of an outcome on a delivery `d`, by the columns that its measures sum."""
    return f"{' + '.join(ADDENDS[name] or '' for _, name in parse_sum(OUTCOMES[of]))} > 0"


def streaks_from(
    tables: dict[str, str], outcome: str, conditions: list[str], length: int, phase: str
) -> str:
    """The deliveries that are asked about, with what came in a row; they stand in for all of them.

    `outcome` is a condition on deliveries `d`; `conditions` are on `d` and matches `m`, and choose
    the deliveries; `phase` is an expression on `d`. Deliveries are taken in their order within
    their innings, and as if those that are not chosen had not been: of a bowler's balls, those of
    the other end break nothing, and from over 11 on a run has not begun before over 11. A wide or
    a no-ball is one of them, so that it breaks a run of dot balls; what was never delivered (Law
    17.3.1) is not.

    Three columns are added. `streak` is 1 at the delivery with which a run comes to `length`, else
    0: its sum is the runs of that many or more. `streak_in_phase` is the same of runs that end with
    their phase, and `streak_expected` stands at the last delivery of each phase of an innings: the
    number of those to expect when the outcome falls as often there as it did, in any order
    (significance/methods/runs.py), in whole millionths. It is asked phase by phase because phases
    with other rates gather an outcome by themselves. All belong to an innings as a whole, so a
    query may divide their sums by what is one for a whole innings, and by nothing finer.
    """
    return _STREAKS.format(
        deliveries=quoted(tables["deliveries"]),
        matches=quoted(tables["matches"]),
        outcome=outcome,
        stretch=phase,
        conditions="\n                AND ".join(["d.delivered", *conditions]),
        length=int(length),
        before=int(length) - 1,
        millionths=MILLIONTHS,
    )

"""Streaks: runs of an outcome in the deliveries of an innings, as columns that add up."""

from __future__ import annotations

from pipeline.config.sums import ADDENDS, parse_sum
from pipeline.metrics.clauses import rows_from
from pipeline.sql import quoted

# What can come in a row, as the columns that count it.
OUTCOMES = {"dots": "dot", "boundaries": "four + six", "sixes": "six"}
MILLIONTHS = 1_000_000  # expected numbers are summed as whole millionths

# `n` deliveries of the innings are asked about, and the outcome came at `k` of them.
_STREAKS = """(
    SELECT * EXCLUDE (came, streak_here, place, n, k), streak_here::INT AS streak,
        CASE WHEN place = n AND k >= {length} THEN round({millionths} * (n - k + 1) * list_product(
            [(k - i) / (n - i) for i in range({length})]
        ))::BIGINT ELSE 0 END AS streak_expected
    FROM (
        SELECT *, row_number() OVER so_far AS place,
            count(*) OVER whole AS n, count_if(came) OVER whole AS k,
            count_if(came) OVER (so_far ROWS {before} PRECEDING) = {length}
                AND NOT lag(came, {length}, false) OVER so_far AS streak_here
        FROM (
            SELECT d.*, {outcome} AS came
            FROM {deliveries} d
            JOIN read_parquet({matches}) m USING (match_id)
            WHERE {conditions}
        )
        WINDOW whole AS (PARTITION BY match_id, innings),
            so_far AS (whole ORDER BY over, delivery)
    )
)"""


def outcome_sql(of: str) -> str:
    """The condition of an outcome on a delivery `d`, by the columns that its measures sum."""
    return f"{' + '.join(ADDENDS[name] or '' for _, name in parse_sum(OUTCOMES[of]))} > 0"


def streaks_from(tables: dict[str, str], outcome: str, conditions: list[str], length: int) -> str:
    """The deliveries that are asked about, with what came in a row; it stands in for `rows_from`.

    `outcome` is a condition on deliveries `d`; `conditions` are on `d` and matches `m`, and choose
    the deliveries. These are taken in their order within their innings, and as if those that are
    not chosen had not been: of a bowler's balls, those of the other end break nothing, and from
    over 11 on a run has not begun before over 11. A wide or a no-ball is one of them, so that it
    breaks a run of dot balls; what was never delivered (17.3.1) is not.

    Two columns are added. `streak` is 1 at the delivery with which a run comes to `length`, else 0:
    its sum is the runs of that many or more. `streak_expected` stands at the last delivery of each
    innings, else 0: the number of them to expect when the outcome falls as often as it did, in any
    order (significance/methods/runs.py), in whole millionths. Both belong to an innings as a whole,
    so a query may divide their sums by what is one for a whole innings, and by nothing finer.
    """
    return _STREAKS.format(
        deliveries=rows_from(tables, outs_move=False),
        matches=quoted(tables["matches"]),
        outcome=outcome,
        conditions="\n                AND ".join(["d.delivered", *conditions]),
        length=int(length),
        before=int(length) - 1,
        millionths=MILLIONTHS,
    )

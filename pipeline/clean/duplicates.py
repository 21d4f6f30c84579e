"""One match in several sources: which copy is kept and why, and where the others say otherwise."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from typing import Any

import duckdb

from pipeline.clean.copies_by_ball import by_ball
from pipeline.contracts.quality import Copy, Differs, Duplicates

Row = dict[str, Any]
MOST = 200  # copies that differ which are told; the counts are whole
BLANK = ("", "unknown")
# What copies are compared by beside who plays; what only says where a copy is from is left out.
FIELDS = (
    *("date", "last_day", "season", "competition", "match_type", "gender", "team_type"),
    *("venue", "city", "toss_winner", "toss_decision", "winner", "margin", "method", "result"),
    *("overs_limit", "balls_per_over", "target", "super_overs"),
)
TWICE = "SELECT match_id FROM raw_matches GROUP BY match_id HAVING count(*) > 1"
COPIES = f"""
SELECT m.*, k.source AS kept_source
FROM raw_matches m JOIN kept k USING (match_id)
WHERE m.match_id IN ({TWICE}) ORDER BY m.match_id, m.source_order
"""
INNINGS = f"""
SELECT match_id, source, innings, count_if(legal) AS balls, sum(runs_total)::BIGINT AS runs,
    sum(wickets)::BIGINT AS wickets
FROM raw_deliveries WHERE match_id IN ({TWICE}) GROUP BY ALL ORDER BY ALL
"""

# What a layout may have of an innings beside its deliveries.
BESIDE = f"""
SELECT match_id, source, innings, penalty_pre + penalty_post AS penalty, target_runs, target_overs,
    batting_team, CASE WHEN declared THEN 'yes' ELSE 'no' END AS declared,
    CASE WHEN forfeited THEN 'yes' ELSE 'no' END AS forfeited, miscounted
FROM raw_innings WHERE match_id IN ({TWICE}) ORDER BY ALL
"""
BESIDE_TOLD = (
    *("penalty runs", "target", "target overs"),
    *("batting side", "declared", "forfeited", "miscounted overs"),
)

# Of two sources, on one day, between the same sides, at one ground or in one competition: one match
# under two ids, or two matches of a day. `totals` tells which it looks like.
LIKELY = """
WITH told AS (
    SELECT k.*, strip_accents(lower(trim(team_1))) AS one,
        strip_accents(lower(trim(team_2))) AS two,
        (SELECT string_agg(runs || '/' || wickets, ', ' ORDER BY i.innings) FROM innings i
            WHERE i.match_id = k.match_id) AS totals
    FROM kept k
)
SELECT a.match_id || ' (' || a.source || ') and ' || b.match_id || ' (' || b.source || '): '
    || a.date || ', ' || a.team_1 || ' and ' || a.team_2 || ', ' || CASE
        WHEN a.totals = b.totals THEN 'both ' || a.totals
        ELSE coalesce(a.totals, 'no balls') || ' and ' || coalesce(b.totals, 'no balls') END
FROM told a JOIN told b ON a.date = b.date AND a.match_id < b.match_id AND a.source <> b.source
    AND least(a.one, a.two) = least(b.one, b.two)
    AND greatest(a.one, a.two) = greatest(b.one, b.two)
WHERE (strip_accents(lower(trim(a.competition))) = strip_accents(lower(trim(b.competition)))
        OR strip_accents(lower(trim(a.venue))) = strip_accents(lower(trim(b.venue))))
    AND (a.gender IS NULL OR b.gender IS NULL OR a.gender = b.gender
        OR 'unknown' IN (a.gender, b.gender))
ORDER BY a.match_id, b.match_id
"""


def duplicates(db: duckdb.DuckDBPyConnection) -> Duplicates:
    """Every copy that was dropped, held against the one kept as its source gives it.

    Reads the raw tables, `kept` and `merges`; the deliveries only where a match is twice.
    """
    rows = db.sql(COPIES).to_arrow_table().to_pylist()
    if not rows:
        return Duplicates()
    innings: dict[tuple[str, str], Row] = defaultdict(dict)
    counted = ("balls", "runs", "wickets")
    for query, names in ((INNINGS, counted), (BESIDE, BESIDE_TOLD)):
        for match, source, number, *values in db.execute(query).fetchall():
            for name, value in zip(names, values, strict=True):
                innings[match, source][f"innings {number}, {name}"] = value
    kept = {row["match_id"]: row for row in rows if row["source"] == row["kept_source"]}
    dropped = [row for row in rows if row["source"] != row["kept_source"]]
    balls = by_ball(db)
    copies = [
        _copy(kept[row["match_id"]], row, innings, balls.get((row["match_id"], row["source"]), []))
        for row in dropped
    ]
    differing = [copy for copy in copies if copy.differs]
    return Duplicates(
        count=len(copies),
        differing=len(differing),
        fields=_counted((d.field, 1) for copy in copies for d in copy.differs),
        times=_counted((d.field, d.times) for copy in copies for d in copy.differs),
        lost=_counted((field, 1) for copy in copies for field in copy.lost),
        copies=differing[:MOST],
    )


def _counted(told: Iterable[tuple[str, int]]) -> dict[str, int]:
    """The sum of each name, the largest first."""
    sums: Counter[str] = Counter()
    for name, count in told:
        sums[name] += count
    return dict(sorted(sums.items(), key=lambda item: (-item[1], item[0])))


def _copy(kept: Row, other: Row, innings: dict[tuple[str, str], Row], balls: list[Differs]) -> Copy:
    one, two = (
        _told(row) | innings.get((row["match_id"], row["source"]), {}) for row in (kept, other)
    )
    names = list(dict.fromkeys([*one, *two]))
    pairs = [(name, _text(one.get(name)), _text(two.get(name))) for name in names]
    differs = [Differs(field=n, kept=a, dropped=b) for n, a, b in pairs if a and b and a != b]
    return Copy(
        match_id=kept["match_id"],
        kept=kept["source"],
        dropped=other["source"],
        why=_why(kept, other),
        differs=[*differs, *balls],
        lost=[name for name, a, b in pairs if b and not a],
    )


def _told(row: Row) -> Row:
    """Who plays, whichever is named first; a match's last day where it is not its first."""
    sides = " and ".join(sorted((row["team_1"], row["team_2"])))
    told = {"sides": sides, **{name: row[name] for name in FIELDS}}
    return told | {"last_day": None if row["last_day"] == row["date"] else row["last_day"]}


def _text(value: Any) -> str:
    text = "" if value is None else str(value).strip()
    return "" if text in BLANK else text


def _why(kept: Row, other: Row) -> str:
    if kept["revision"] != other["revision"]:
        return f"its revision is {kept['revision']}, the other's {other['revision']}"
    order = f"'{kept['source']}' stands before '{other['source']}' in sources.yaml"
    return f"both are of revision {kept['revision']}, and {order}"

"""The parts of a beat's query: its conditions, its cuts, the rows it reads."""

from __future__ import annotations

from typing import Any

from pipeline.config.beats import bands_of
from pipeline.config.cuts import CUTS
from pipeline.sql import quoted, quoted_list

UNKNOWN = "unknown"

# What a wicket brings with it when it is told apart from the striker's ball.
_OF_THE_OUT = """(
    SELECT * REPLACE (0 AS wickets) FROM read_parquet({deliveries})
    UNION ALL BY NAME
    SELECT d.* REPLACE (
        o.player_out_id AS batter_id, o.hand AS batter_hand,
        o.batting_position AS batting_position, 1 AS wickets, 0 AS bowler_wickets,
        0 AS runs_batter, 0 AS runs_total, 0 AS runs_bowler, 0 AS wides, 0 AS noballs, 0 AS byes,
        0 AS legbyes, 0 AS penalty, false AS legal, false AS faced, false AS four, false AS six
    )
    FROM read_parquet({dismissals}) o
    JOIN read_parquet({deliveries}) d USING (match_id, innings, over, delivery)
    WHERE o.out
)"""


def data_filter(data: dict[str, Any], form: dict[str, Any]) -> list[str]:
    """Conditions on matches that hold for the whole topic."""
    found = [
        f"m.match_type IN ({quoted_list(form['match_types'])})",
        f"m.balls_per_over = {int(form['balls_per_over'])}",
    ]
    for key in ("competition", "source"):
        if data.get(key):
            found.append(f"m.{key} IN ({quoted_list(data[key])})")
    for key in ("gender", "team_type"):
        if data.get(key):
            found.append(f"m.{key} = {quoted(data[key])}")
    return found


def cut_sql(cut: str, form: dict[str, Any], beat: dict[str, Any] | None = None) -> str:
    """The expression of a cut; phases come from the format, bands from a phases beat."""
    if cut == "phase":
        ranges = {name: phase["overs"] for name, phase in form["phases"].items()}
    elif cut == "band":
        assert beat is not None
        listed = bands_of(beat["bands"], form["overs"])
        ranges = {f"{first}-{last}": (first, last) for first, last in listed}
    else:
        return CUTS[cut].sql
    cases = " ".join(
        f"WHEN d.over BETWEEN {int(first)} AND {int(last)} THEN {quoted(name)}"
        for name, (first, last) in ranges.items()
    )
    return f"CASE {cases} ELSE '{UNKNOWN}' END"


def filters(beat: dict[str, Any], form: dict[str, Any]) -> list[str]:
    """Conditions of a beat's `where`."""
    where = beat["where"]
    found = []
    if where.get("overs"):
        first, last = where["overs"]
        found.append(f"d.over BETWEEN {int(first)} AND {int(last)}")
    for cut in CUTS:
        values = quoted_list(where[cut]) if where.get(cut) else None
        if values and cut == "team":
            found.append(f"(m.team_1 IN ({values}) OR m.team_2 IN ({values}))")
        elif values:
            found.append(f"{cut_sql(cut, form, beat)} IN ({values})")
    return found


def divided(beat: dict[str, Any]) -> tuple[list[str], list[list[str]]]:
    """(the cuts, the sets of them that rows are grouped by): all balls, then finer and finer."""
    by = list(beat.get("by", []))
    match beat["kind"]:
        case "gap":
            (group,) = beat["between"]
            finest = [[group], [group, *by]] if by else [[group]]
            return [group, *by], [[], *finest]
        case "phases":
            by = ["band"]
        case "players":
            by = [beat["role"]]
    return by, [[], by] if by else [[]]


def rows_from(tables: dict[str, str], outs_move: bool) -> str:
    """The deliveries; or the same with each wicket as a row of the player who was out."""
    paths = {name: quoted(path) for name, path in tables.items()}
    if not outs_move:
        return f"read_parquet({paths['deliveries']})"
    return _OF_THE_OUT.format(**paths)

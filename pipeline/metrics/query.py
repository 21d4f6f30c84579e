"""A beat's question as one SQL query: a row per match and cell, two sums per measure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pipeline.config.cuts import OF_BATTER
from pipeline.config.fields import ADDENDS, parse_sum
from pipeline.metrics.clauses import UNKNOWN, cut_sql, data_filter, divided, filters, rows_from
from pipeline.metrics.windows import Windows
from pipeline.sql import quoted, quoted_list

Tables = dict[str, str]  # name of a clean table -> its path


@dataclass(frozen=True)
class BeatQuery:
    """The text that is run (and printed under the numbers), and the cuts it divides by.

    `cuts` are the columns; each row is of one of `sets`, told by the bits of `masked` (the first
    cut is the highest bit, set where the row is not divided by it).
    """

    text: str
    cuts: list[str]
    measures: list[str]


def sum_sql(text: str, only: str = "") -> str:
    """'4*four + six' as SQL over a group of deliveries; `only` is a condition on their sums."""
    chosen = f" FILTER (WHERE {only})" if only else ""
    parts = []
    for factor, name in parse_sum(text):
        if name == "innings":
            summed = "count(DISTINCT d.innings)"
        elif name == "matches":
            summed = "1"
        elif name in ("decided", "won"):
            summed = f"max(({ADDENDS[name]})::INT)"
        else:
            summed = f"coalesce(sum({ADDENDS[name]}){chosen}, 0)"
        parts.append(summed if factor == 1 else f"{factor} * {summed}")
    return " + ".join(parts)


def beat_query(
    beat: dict[str, Any],
    view: dict[str, Any],
    windows: Windows | None,
    tables: Tables,
) -> BeatQuery:
    """The query of one beat over the clean tables. `where` names players by id."""
    form = view["format"]
    cuts, sets = divided(beat)
    window, only, conditions = _sides(beat, view, windows)
    conditions = [*data_filter(view["data"], form), *conditions, *filters(beat, form)]
    columns = [f"{cut_sql(cut, form, beat)} AS {cut}" for cut in cuts]
    sums = []
    for index, measure in enumerate(beat["measures"]):
        declared = view["measures"][measure]
        sums.append(f"{sum_sql(declared['numerator'], only)} AS y{index}")
        sums.append(f"{sum_sql(declared['denominator'])} AS x{index}")
    keys = ["m.match_id", "m.season", "m.date", "m.ground", "m.reduced", '"window"']
    groups = ", ".join(f"({', '.join([*keys, *chosen])})" for chosen in sets)
    selected = [*keys[:5], f'{window} AS "window"', *columns]
    mask = f"grouping({', '.join(cuts)})" if cuts else "0"
    balls = "d.faced" if beat.get("role") == "batter" else "d.legal"
    text = "\n".join(
        [
            "SELECT " + ",\n    ".join([*selected, f"{mask} AS masked", *sums]) + ",",
            f"    count_if({balls}) AS balls",
            f"FROM {rows_from(tables, _outs_move(beat, view))} d",
            f"JOIN read_parquet({quoted(tables['matches'])}) m USING (match_id)",
            "WHERE " + "\n    AND ".join(conditions),
            f"GROUP BY GROUPING SETS ({groups})",
            "ORDER BY ALL",
        ]
    )
    return BeatQuery(text, cuts, list(beat["measures"]))


def _sides(
    beat: dict[str, Any], view: dict[str, Any], windows: Windows | None
) -> tuple[str, str, list[str]]:
    """(which side a ball is on, which balls a share counts, the conditions that go with both)."""
    form, kind = view["format"], beat["kind"]
    if kind == "groups":
        ((cut, values),) = beat["between"].items()
        expression = cut_sql(cut, form, beat)
        return expression, "", [f"{expression} IN ({quoted_list(values)})"]
    if kind in ("trend", "turning_point"):
        only, conditions = _shared_out(beat, form)
        return "'season'", only, conditions
    assert windows is not None  # the topic's check made sure of the event
    only, conditions = _shared_out(beat, form)
    for cut, values in beat.get("between", {}).items():
        conditions.append(f"{cut_sql(cut, form, beat)} IN ({quoted_list(values)})")
    if kind == "mix":
        conditions += [f"{cut_sql(cut, form, beat)} <> '{UNKNOWN}'" for cut in beat["by"]]
    if kind == "players":
        conditions.append(f"m.season IN ({quoted_list([*windows.before, *windows.after])})")
    return windows.sql(), only, conditions


def _shared_out(beat: dict[str, Any], form: dict[str, Any]) -> tuple[str, list[str]]:
    """Of a share beat: the balls that are counted, out of those whose kind is known."""
    for cut, values in beat.get("of", {}).items():
        expression = cut_sql(cut, form, beat)
        return f"{expression} IN ({quoted_list(values)})", [f"{expression} <> '{UNKNOWN}'"]
    return "", []


def _outs_move(beat: dict[str, Any], view: dict[str, Any]) -> bool:
    """Wickets are counted by batter: then each belongs to the player out, not to the striker."""
    return bool(OF_BATTER & set(_touched(beat))) and any(
        name == "wickets"
        for measure in beat["measures"]
        for part in ("numerator", "denominator")
        for _, name in parse_sum(view["measures"][measure][part])
    )


def _touched(beat: dict[str, Any]) -> Iterator[str]:
    """Every cut that a beat divides or filters by."""
    yield from beat.get("by", [])
    yield from beat.get("between", {})
    yield from (name for name, value in beat["where"].items() if value)
    if beat.get("role") == "batter":
        yield "batter"

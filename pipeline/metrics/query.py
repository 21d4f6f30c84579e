"""A beat's question as one SQL query: a row per match and cell, two sums per measure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pipeline.config.cuts import CUTS
from pipeline.config.fields import ADDENDS, parse_sum
from pipeline.metrics.windows import Windows
from pipeline.sql import quoted, quoted_list

UNKNOWN = "unknown"


@dataclass(frozen=True)
class BeatQuery:
    """The text that is run (and printed under the numbers), and the cuts it divides by."""

    text: str
    cuts: list[str]
    measures: list[str]


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


def cut_sql(cut: str, form: dict[str, Any]) -> str:
    """The expression of a cut; phases come from the format."""
    if cut != "phase":
        return CUTS[cut].sql
    cases = " ".join(
        f"WHEN d.over BETWEEN {phase['overs'][0]} AND {phase['overs'][1]} THEN {quoted(name)}"
        for name, phase in form["phases"].items()
    )
    return f"CASE {cases} ELSE '{UNKNOWN}' END"


def filters(where: dict[str, Any], form: dict[str, Any]) -> list[str]:
    """Conditions of a beat's `where`."""
    found = []
    if where.get("overs"):
        first, last = where["overs"]
        found.append(f"d.over BETWEEN {int(first)} AND {int(last)}")
    for cut in CUTS:
        if where.get(cut):
            found.append(f"{cut_sql(cut, form)} IN ({quoted_list(where[cut])})")
    return found


def sum_sql(text: str, only: str = "") -> str:
    """'4*four + six' as SQL over a group of deliveries; `only` is a condition on their sums."""
    chosen = f" FILTER (WHERE {only})" if only else ""
    parts = []
    for factor, name in parse_sum(text):
        if name == "innings":
            summed = "count(DISTINCT d.innings)"
        elif name == "matches":
            summed = "1"
        else:
            summed = f"coalesce(sum({ADDENDS[name]}){chosen}, 0)"
        parts.append(summed if factor == 1 else f"{factor} * {summed}")
    return " + ".join(parts)


def beat_query(
    beat: dict[str, Any],
    view: dict[str, Any],
    windows: Windows | None,
    tables: tuple[str, str],
) -> BeatQuery:
    """The query of one beat over the clean (deliveries, matches) tables."""
    form = view["format"]
    window, conditions = _window(beat, form, windows)
    conditions = [*data_filter(view["data"], form), *conditions, *filters(beat["where"], form)]
    cuts = list(beat.get("by", []))
    only = ""
    for cut, values in beat.get("of", {}).items():  # of a share beat: one cut
        conditions.append(f"{cut_sql(cut, form)} <> '{UNKNOWN}'")
        only = f"{cut_sql(cut, form)} IN ({quoted_list(values)})"
    columns = [f"{cut_sql(cut, form)} AS {cut}" for cut in cuts]
    sums = []
    for index, measure in enumerate(beat["measures"]):
        declared = view["measures"][measure]
        sums.append(f"{sum_sql(declared['numerator'], only)} AS y{index}")
        sums.append(f"{sum_sql(declared['denominator'])} AS x{index}")
    keys = ["m.match_id", "m.season", "m.date", "m.ground", '"window"']
    groups = f"({', '.join(keys)})"
    if cuts:
        groups += f", ({', '.join([*keys, *cuts])})"
    selected = [*keys[:4], f'{window} AS "window"', *columns]
    flag = f"grouping({', '.join(cuts)})" if cuts else "0"
    text = "\n".join(
        [
            "SELECT " + ",\n    ".join([*selected, f"{flag} AS overall", *sums]) + ",",
            "    count_if(d.legal) AS balls",
            f"FROM read_parquet({quoted(tables[0])}) d",
            f"JOIN read_parquet({quoted(tables[1])}) m USING (match_id)",
            "WHERE " + "\n    AND ".join(conditions),
            f"GROUP BY GROUPING SETS ({groups})",
            "ORDER BY ALL",
        ]
    )
    return BeatQuery(text, cuts, list(beat["measures"]))


def _window(
    beat: dict[str, Any], form: dict[str, Any], windows: Windows | None
) -> tuple[str, list[str]]:
    """(the expression that says which side a ball is on, the conditions that go with it)."""
    if beat["kind"] in ("before_after", "share"):
        assert windows is not None  # the topic's check made sure of the event
        return windows.sql(), []
    if beat["kind"] == "groups":
        ((cut, values),) = beat["between"].items()
        expression = cut_sql(cut, form)
        return expression, [f"{expression} IN ({quoted_list(values)})"]
    return "'season'", []

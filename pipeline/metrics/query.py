"""A beat's question as one SQL query: a row per match and cell, two sums per measure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pipeline.config.cuts import OF_BATTER
from pipeline.config.row_ids import marginals_named
from pipeline.config.sums import ADDENDS, parse_sum
from pipeline.contracts.timing import Windows
from pipeline.metrics.clauses import UNKNOWN, column_of, cut_sql, data_filter, filters, rows_from
from pipeline.metrics.window_sql import in_either, window_sql
from pipeline.sql import quoted, quoted_list

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.project import Format
    from pipeline.config.views import MetricsView

Tables = dict[str, str]  # name of a clean table -> its path
# What is kept of a match beside its sums.
OF_MATCH = ("match_id", "season", "date", "ground", "team_1", "team_2", "reduced")


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
    beat: AnyKind, view: MetricsView, windows: Windows | None, tables: Tables, cluster: str = ""
) -> BeatQuery:
    """The query of one beat over the clean tables. `where` names players by id.

    With `cluster`, an expression, a match has a row for each value of it, in a column of that name.
    """
    form, cuts = view.format, beat.cuts
    window, conditions = balls_of(beat, view, windows)
    columns = [f"{cut_sql(cut, form, beat)} AS {column_of(cut)}" for cut in cuts]
    only, sums = counted_only(beat, form), []
    for index, measure in enumerate(beat.measures):
        declared = view.measures[measure]
        sums.append(f"{sum_sql(declared.numerator, only)} AS y{index}")
        sums.append(f"{sum_sql(declared.denominator)} AS x{index}")
    keys = [f"m.{name}" for name in OF_MATCH]
    asked = marginals_named(beat, form, view.asked.get(beat.id, []))
    divided = ['"window"', "cluster"] if cluster else ['"window"']
    sets = [[*keys, *divided, *map(column_of, chosen)] for chosen in [*beat.groupings, *asked]]
    groups = ", ".join(f"({', '.join(chosen)})" for chosen in sets)
    columns += [f"coalesce({cluster}, '') AS cluster"] if cluster else []
    selected = [*keys, f'{window} AS "window"', *columns]
    mask = f"grouping({', '.join(map(column_of, cuts))})" if cuts else "0"
    phase = cut_sql("phase", form) if form.phases else "''"
    rows = beat.relation(tables, conditions, phase)
    rows = rows or rows_from(tables, outs_move(beat, view))
    balls = "d.faced" if beat.person == "batter" else "d.legal"
    text = "\n".join(
        [
            "SELECT " + ",\n    ".join([*selected, f"{mask} AS masked", *sums]) + ",",
            f"    count_if({balls}) AS balls",
            f"FROM {rows} d",
            f"JOIN read_parquet({quoted(tables['matches'])}) m USING (match_id)",
            "WHERE " + "\n    AND ".join(conditions),
            f"GROUP BY GROUPING SETS ({groups})",
            "ORDER BY ALL",
        ]
    )
    return BeatQuery(text, cuts, beat.measures)


def balls_of(beat: AnyKind, view: MetricsView, windows: Windows | None) -> tuple[str, list[str]]:
    """(which side a ball is on, all conditions of the balls that a beat reads)."""
    window, conditions = _sides(beat, view.format, windows)
    form = view.format
    return window, [*data_filter(view.data, form), *conditions, *filters(beat.where, form)]


def _sides(beat: AnyKind, form: Format, windows: Windows | None) -> tuple[str, list[str]]:
    """(which side a ball is on, the conditions that go with it)."""
    conditions = []
    if beat.groups:
        cut, *values = beat.groups
        conditions.append(f"{cut_sql(cut, form, beat)} IN ({quoted_list(values)})")
    conditions += [f"{cut_sql(cut, form, beat)} <> '{UNKNOWN}'" for cut in beat.known]
    match beat.traits.compares:
        case "groups" if beat.groups:
            return cut_sql(beat.groups[0], form, beat), conditions
        case "series":
            return "'season'", conditions
        case "windows" if windows:
            if beat.traits.within:
                conditions.append(in_either(windows))
            return window_sql(windows), conditions
    raise ValueError(f"beat '{beat.id}' compares {beat.traits.compares}, and there are none")


def counted_only(beat: AnyKind, form: Format) -> str:
    """The condition of the balls that are counted, of those there are; '' when all are."""
    for cut, values in beat.counted.items():
        return f"{cut_sql(cut, form, beat)} IN ({quoted_list(values)})"
    return ""


def outs_move(beat: AnyKind, view: MetricsView) -> bool:
    """Wickets are counted by batter: then each belongs to the player out, not to the striker."""
    return bool(OF_BATTER & {*beat.cuts, *(beat.groups or ())[:1], *beat.where.chosen()}) and any(
        name == "wickets"
        for measure in beat.measures
        for part in (view.measures[measure].numerator, view.measures[measure].denominator)
        for _, name in parse_sum(part)
    )

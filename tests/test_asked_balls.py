"""Which balls a topic's queries read: conditions and sums as SQL, without any data."""

from __future__ import annotations

from datetime import date
from typing import Any

import pyarrow as pa
import pytest

from pipeline.contracts.timing import Windows
from pipeline.metrics.cells import _combined, _divides, with_cells
from pipeline.metrics.clauses import rows_from
from pipeline.metrics.compared import compared_and_counted
from pipeline.metrics.control import _never_meet
from pipeline.metrics.query import BeatQuery, beat_query, sum_sql
from pipeline.metrics.tally import _in_windows
from tests.seasons import event, season, timing, windows
from tests.view_makers import metrics_view
from tests.word_makers import beat

TABLES = {name: f"{name}.parquet" for name in ("deliveries", "dismissals", "matches", "players")}
SEASONS = [season(year) for year in range(2015, 2019)]
TWO = windows(["2015", "2016"], ["2018"], "2017")
OF_2015_TO_2018 = "m.season IN ('2015', '2016', '2018')"


def asked_of(one: Any, chosen: Windows | None = TWO, **more: Any) -> tuple[str, str]:
    return compared_and_counted(
        metrics_view([one], **more), SEASONS, {None: timing(SEASONS, chosen)}
    )


def queried(one: Any, chosen: Windows | None = TWO, **more: Any) -> str:
    return beat_query(one, metrics_view([one], **more), chosen, TABLES).text


def test_what_windows_count_is_of_the_seasons_behind_the_drift():
    """Of windows alone: the season that the event fell inside is in no drift, but in a series."""
    compared, counted = asked_of(beat("before_after"), event=event("2017-06-01"))
    assert "<> 'outside'" in compared and OF_2015_TO_2018 not in compared
    assert counted.endswith(f" AND {OF_2015_TO_2018})")
    compared, counted = asked_of(beat("trend"), event=event("2017-06-01"))
    assert "<> 'outside'" in compared and "m.season" not in counted
    later = asked_of(beat("before_after"), event=event("2017-06-01", trend_from="2016"))
    assert " AND (m.season IN ('2016', '2018') OR CASE" in later[1]  # 2015 is compared all the same


def test_a_topic_without_an_event_counts_every_season():
    compared, counted = asked_of(beat("trend"), None)
    assert compared == "false" and "m.season" not in counted and "<> 'outside'" not in counted
    groups = beat("groups", between={"bowler_kind": ["pace", "spin"]})
    compared, counted = asked_of(groups, None)
    assert compared == counted and "d.bowler_kind IN ('pace', 'spin')" in compared


def test_a_windows_beat_without_the_events_dates_has_no_end_to_its_drift():
    assert asked_of(beat("before_after"))[1].endswith(" AND true)")


def test_only_other_multiples_than_one_are_written():
    four, six = (f"coalesce(sum({name}::INT), 0)" for name in ("d.four", "d.six"))
    made = sum_sql("4*four + six")
    assert made == f"4 * {four} + {six}"


def test_players_are_read_in_the_two_windows_alone():
    """Whoever played in other seasons only is in no list."""
    players = beat("players", role="bowler", at_least="300 balls")
    assert f"AND {OF_2015_TO_2018}" in queried(players)
    assert OF_2015_TO_2018 not in queried(beat("before_after"))


OUTS = {"economy": ("wickets", "legal")}
PER_WICKET = {"economy": ("runs_total", "wickets")}


@pytest.mark.parametrize(
    ("more", "measures", "moved"),
    [
        ({"by": "batter_hand"}, OUTS, True),
        ({"by": "bowler_kind"}, OUTS, False),
        ({}, OUTS, False),
        ({"by": "batter_hand"}, None, False),
        ({"where": {"batting_position": ["1"]}}, OUTS, True),
        ({"where": {"batting_position": ["1"]}}, PER_WICKET, True),
    ],
)
def test_a_wicket_is_the_player_outs_only_where_batters_wickets_are_counted(
    more: dict[str, Any], measures: Any, moved: bool
):
    """Elsewhere a wicket stays on the striker's ball, and no dismissals are read."""
    given = {"measures": measures} if measures else {}
    assert ("dismissals.parquet" in queried(beat("before_after", **more), **given)) is moved


def test_deliveries_are_read_as_they_are_unless_wickets_move():
    assert rows_from(TABLES, False) == "read_parquet('deliveries.parquet')"
    assert "read_parquet('dismissals.parquet')" in rows_from(TABLES, True)


def test_ranges_that_share_one_over_meet():
    """Whichever of the two stands first."""
    assert not _never_meet((10, 20), (1, 10)) and not _never_meet((1, 10), (10, 20))
    assert _never_meet((11, 20), (1, 10)) and _never_meet((1, 10), (11, 20))
    assert not _never_meet(None, (1, 10))


def test_a_trends_seasons_stand_in_their_windows():
    """Without an event all are outside."""
    days = [date(year, 6, 1) for year in (2014, 2015, 2018)]
    table = pa.table({"season": ["2014", "2015", "2018"], "date": days, "window": ["season"] * 3})
    assert _in_windows(table, TWO)["window"].to_pylist() == ["outside", "before", "after"]
    assert _in_windows(table, None)["window"].to_pylist() == ["outside"] * 3


BY_TWO = beat("before_after", by=["bowler_kind", "batter_hand"])
MASKS = {"all": 0b11, "of kind": 0b01, "of hand": 0b10, "of both": 0b00}


def rows_of(*given: tuple[str, str | None, str | None]) -> pa.Table:
    """Rows of a query by two cuts: by what they are divided, and their values."""
    kinds, hands = ([row[at] for row in given] for at in (1, 2))
    return pa.table(
        {
            "masked": [MASKS[row[0]] for row in given],
            "bowler_kind": pa.array(kinds, pa.string()),
            "batter_hand": pa.array(hands, pa.string()),
        }
    )


BOTH = [("of both", kind, hand) for kind in ("pace", "spin") for hand in ("left", "right", "none")]
COARSE = [("of kind", "pace", None), ("of kind", "spin", None), ("all", None, None)]


@pytest.mark.parametrize("given", [BOTH, [*BOTH, *COARSE], [*COARSE, *BOTH]])
def test_each_row_has_its_own_combination_of_values(given: list[tuple[str, Any, Any]]):
    """Two kinds and three hands; no two of them are taken for one, whatever stands beside them."""
    combined, found = _combined(rows_of(*given), BY_TWO.cuts)
    wanted = [
        {cut: value for cut, value in zip(BY_TWO.cuts, values, strict=True) if value}
        for _, *values in given
    ]
    assert [dict(found[at]) for at in combined] == wanted


def test_rows_of_a_cut_alone_that_nobody_asks_for_leave_the_others_their_names():
    """Spin alone is asked for; pace and the hands alone are not, and go."""
    table = rows_of(
        ("of kind", "pace", None),
        ("of kind", "spin", None),
        ("of hand", None, "left"),
        ("of both", "pace", "left"),
        ("all", None, None),
        ("of both", "spin", "left"),
    )
    asked = metrics_view([BY_TWO], asked={"b": ["spin"]})
    kept, cells = with_cells(table, BeatQuery("", BY_TWO.cuts, ["economy"]), BY_TWO, asked, [])
    assert kept["cell"].to_pylist() == ["spin", "pace-left", "all", "spin-left"]
    assert [cell.id for cell in cells] == ["all", "spin", "pace-left", "spin-left"]


def test_the_key_that_divides_a_beat_is_that_of_its_kind():
    """Where the mistake is told of rows that bear one name."""
    asked = {"before_after": "by", "groups": "by", "players": "role", "trend": "id"}
    more: dict[str, dict[str, Any]] = {
        "groups": {"between": {"region": ["inland", "coast"]}},
        "players": {"role": "bowler", "at_least": "300 balls"},
    }
    assert {kind: _divides(beat(kind, **more.get(kind, {}))) for kind in asked} == asked

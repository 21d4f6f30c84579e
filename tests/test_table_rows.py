"""Rows of a brief's tables: each cell is the finding's own number, rounded for print."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import Any

import pytest

from pipeline.brief.table_rows import Row
from pipeline.contracts.finding import Finding
from tests.golden.made import Made
from tests.league import brief, league, scored
from tests.tallying import played_in

BEATS = """  - id: a
    kind: before_after
    measure: [run_rate, boundary_share, innings_total]
    by: phase
  - {id: b, kind: groups, measure: run_rate, between: {innings: ['1', '2']}}"""


def plainly(value: float, decimals: int, sign: str = "") -> str:
    """Half away from zero, a true minus sign; recomputed without the tool's own rounding."""
    number = Decimal(repr(value)).quantize(Decimal(10) ** -decimals, ROUND_HALF_UP)
    return f"{abs(number) if number == 0 else number:{sign if number else ''}}".replace("-", "−")


def uneven(year: int, day: int) -> dict[str, Any]:
    """Fours in the first ten overs, more of them later on; the chase has the powerplay only."""
    found = played_in(year, [], dates=[f"{year}-06-{day:02}"])
    found["innings"] = []
    for side, last in (("Northmoor", 20), ("Southfen", 10)):
        overs = []
        for over in range(last):
            worth = 4 * ((over + day) % 5 == 0) + (year - 2018) * (over % 3)
            worth += day % 3 if over in (1, 12) else 0
            (made,) = scored(year, worth, 1)["innings"][0]["overs"]
            overs.append({**made, "over": over})
        found["innings"].append({"team": side, "overs": overs})
    return found


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    matches = [uneven(year, day) for year in (2019, 2020) for day in range(1, 9)]
    return brief(league(tmp_path_factory.mktemp("rows") / "league", matches), BEATS)


def rows_of(made: Made) -> list[tuple[Row, Finding]]:
    """Every row of the brief with its finding."""
    by_id = {finding.id: finding for finding in made.findings.findings}
    parts = [part for beat in made.content.beats for part in beat.parts]
    return [(row, by_id[row.id]) for part in parts for row in part.rows]


DECIMALS = {"run_rate": 2, "boundary_share": 1, "innings_total": 0}


def test_a_row_has_both_values_and_their_difference(made: Made):
    for row, finding in rows_of(made):
        places = DECIMALS[finding.measure]
        a, b = finding.a, finding.b
        assert (row.a, row.b) == (plainly(a.value, places), plainly(b.value, places))
        unit = " pts" if finding.kind == "share" else ""
        assert row.difference == plainly(finding.told.difference.value, places, "+") + unit
        assert (row.matches, row.balls) == (f"{a.matches} / {b.matches}", f"{a.balls} / {b.balls}")


def test_a_row_has_both_ends_of_its_interval(made: Made):
    """Of a share in points, of anything else in per cent."""
    kinds = set()
    for row, finding in rows_of(made):
        share, effect = finding.kind == "share", finding.told
        span, factor = (effect.difference, 1) if share else (effect.change, 100)
        ends = [plainly(end * factor, 1, "+") for end in (span.low, span.high)]
        assert row.interval == " to ".join(ends) and ends[0] != ends[1]
        assert row.change == ("" if share else plainly(effect.change.value * 100, 1, "+") + "%")
        kinds.add(finding.kind)
    assert kinds == {"rate", "share", "average"}


def test_a_fact_is_what_its_cell_shows(made: Made):
    facts = {fact.id: fact for fact in made.facts}
    for row, finding in rows_of(made):
        assert [facts[row.facts[side]].display for side in ("a", "b")] == [row.a, row.b]
        assert facts[row.facts["difference"]].display == row.difference
        if finding.kind != "share":
            change = facts[row.facts["change"]]
            assert (change.display, change.interval) == (row.change, row.interval)


GROUPED = """  - {id: c, kind: before_after, measure: run_rate, by: [innings, phase]}
  - {id: g, kind: gap, measure: run_rate, between: {innings: ['1', '2']}, by: phase}
  - {id: m, kind: mix, measure: run_rate, by: phase}
  - {id: p, kind: before_after, measure: run_rate, by: phase}"""


@pytest.fixture(scope="module")
def grouped(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    matches = [uneven(year, day) for year in (2019, 2020) for day in range(1, 9)]
    project = league(tmp_path_factory.mktemp("grouped") / "league", matches)
    made = brief(project, GROUPED, headlines="[c.run_rate.1-powerplay, p]")
    return {page.id: page.parts[0] for page in made.content.beats}


def named(part: Any) -> dict[str, list[str]]:
    """The names of a table's rows, by the group that they stand under."""
    return {
        group.name: [row.short if group.name else row.name for row in group.rows]
        for group in part.groups
    }


def test_rows_of_two_cuts_stand_under_the_first(grouped: dict[str, Any]):
    found = named(grouped["c"])
    assert list(found) == ["", "First innings", "Second innings"] and found[""] == ["All balls"]
    assert found["First innings"] == ["overs 1–10", "overs 11–40"]
    assert found["Second innings"] == ["overs 1–10"]


def test_a_gap_s_rows_stand_apart_from_those_of_its_groups(grouped: dict[str, Any]):
    found = named(grouped["g"])
    first = "Second innings against first innings"
    assert list(found) == [first, "First innings", "Second innings"]
    assert {rows[0] for rows in found.values()} == {"all together"}
    rows = [row.id for group in grouped["g"].groups for row in group.rows]
    assert sorted(rows) == sorted(row.id for row in grouped["g"].rows), "none lost, none twice"


def test_a_mix_s_parts_stand_apart_from_its_groups(grouped: dict[str, Any]):
    found = list(named(grouped["m"]).values())
    assert found[0] == ["All balls", "Who did what", "The rates themselves"] and len(found) == 2


def test_rows_of_one_cut_stand_under_nothing_and_the_headline_is_marked(grouped: dict[str, Any]):
    part = grouped["p"]
    assert list(named(part)) == [""] and part.groups[0].rows == part.rows
    assert [row.headline for row in part.rows] == [True] + [False] * (len(part.rows) - 1)
    assert part.marked and grouped["c"].marked and not grouped["m"].marked
    marked = [row.id for row in grouped["c"].rows if row.headline]
    assert marked == ["c.run_rate.1-powerplay"]

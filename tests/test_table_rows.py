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

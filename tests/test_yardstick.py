"""How far a number moves with no event: its method against simulated worlds, and its one line."""

from __future__ import annotations

import re
from random import Random

import numpy as np
import pandas as pd
import pytest

from pipeline.contracts.over_time import Yardstick
from pipeline.significance.methods.ratio import Sums, linearised_se
from pipeline.significance.methods.yardstick import OfPeriods, scatter
from pipeline.significance.second_verdict import Asked
from pipeline.significance.yardstick import of_periods, yardsticks
from pipeline.wording.yardstick import first_told, yardstick_said
from tests.any_findings import any_change, yardstick
from tests.claim_patterns import listened
from tests.finding_makers import change
from tests.voices import MOST, turned
from tests.word_makers import BEAT, ECONOMY, FORM, SHARE, SHARE_BEAT, moved, share_moved

CELLS, PERIODS = 1_500, 14
TIME = np.arange(float(PERIODS))
AFTER = TIME >= 8
UNEVEN = [60, 50, 40, 30, 20, 60, 10, 5, 40, 40, 20, 60, 50, 10]


def world(rng: np.random.Generator, tau: float, sizes: list[int], cells: int = CELLS) -> OfPeriods:
    """A drift of one per cent, a step of five, periods that scatter by tau."""
    parts = []
    for at, count in enumerate(sizes):
        x = rng.integers(200, 320, (count, cells)).astype(float)
        log = 0.01 * at + 0.05 * AFTER[at] + rng.normal(0, tau, cells)
        y = x * 0.8 * np.exp(log + rng.normal(0, 0.1, x.shape))
        squares = (y - y.sum(0) / x.sum(0) * x) ** 2
        parts.append([y.sum(0), x.sum(0), squares.sum(0), np.full(cells, float(count))])
    return OfPeriods(*(np.array(each) for each in zip(*parts, strict=True)))


@pytest.mark.parametrize("sizes", [[40] * PERIODS, UNEVEN])
@pytest.mark.parametrize(
    ("tau", "told", "held"),
    [(0.0, (1, 5), (95, 99)), (0.02, (45, 75), (92, 97)), (0.03, (80, 98), (91, 97.5))],
)
def test_the_scatter_of_periods_is_found_and_none_is_not(sizes, tau, told, held):
    found = scatter(world(np.random.default_rng(1), tau, sizes), TIME, AFTER)
    assert told[0] < 100 * (found.low > 0).mean() < told[1]
    assert held[0] < 100 * ((found.low <= tau) & (tau <= found.high)).mean() < held[1]
    assert np.sqrt((found.sd**2).mean()) == pytest.approx(tau, abs=0.0015 if tau else 0.009)


def test_a_period_of_one_match_or_without_a_count_has_no_yardstick():
    rng = np.random.default_rng(2)
    periods = world(rng, 0.02, [40] * PERIODS, cells=3)
    periods.matches[3, 0] = 1
    periods.y[5, 1] = 0
    found = scatter(periods, TIME, AFTER)
    assert list(np.isfinite(found.sd)) == [False, False, True]
    assert found.low[2] <= found.sd[2] <= found.high[2]


def test_the_luck_of_a_periods_matches_is_that_of_the_linearised_ratio():
    rng = np.random.default_rng(3)
    x = rng.integers(20, 60, (9, 1)).astype(float)
    y = rng.poisson(x * 0.8).astype(float)
    squares = ((y - y.sum() / x.sum() * x) ** 2).sum(0)
    one = OfPeriods(y.sum(0), x.sum(0), squares, np.array([9.0]))
    error = linearised_se(Sums(y, x, np.ones(x.shape, bool)))
    assert one.variance == pytest.approx(error**2)


def rows(seed: int = 4, spread: float = 0.04) -> pd.DataFrame:
    """Fourteen seasons of ten matches, two cells, in the columns of the tallies."""
    rng = np.random.default_rng(seed)
    found = []
    for at in range(PERIODS):
        year = rng.normal(0, spread)
        for match in range(10):
            for cell in ("all", "spin"):
                x = int(rng.integers(200, 320))
                y = int(x * 0.8 * np.exp(year + rng.normal(0, 0.05)))
                found.append((f"m{at}-{match}", cell, str(2009 + at), y, x))
    return pd.DataFrame(found, columns=["match_id", "cell", "period", "y", "x"])


def asked(first: int = 0) -> Asked:
    labels = [str(2009 + at) for at in range(first, PERIODS)]
    time, after = TIME[first:], AFTER[first:]
    return Asked(
        labels=labels,
        middle=time,
        after=after,
        places=np.arange(len(labels)),
        event=float(time[after][0]),
        apart=5.0,
        unit="season",
        left_out=[],
    )


def test_it_is_made_of_all_periods_of_the_tallies():
    table = rows()
    totals = of_periods(table, asked().labels, ["all", "spin"])
    spin = table[table["cell"] == "spin"].groupby("period")[["y", "x"]].sum()
    assert (totals.y[:, 1] == spin["y"].to_numpy()).all() and (totals.matches == 10).all()
    first, second = yardsticks(table, ["all", "spin"], asked())
    assert first and second and first.periods == PERIODS and first.unit == "season"
    assert 0.02 < first.sd < 0.07 and first.told and first.low < first.sd < first.high
    assert yardsticks(table, ["all", "gone"], asked())[1] is None


def test_where_the_drift_is_not_tested_there_is_none():
    assert yardsticks(rows(), ["all"], asked(first=3)) == [None]


def test_the_line_says_no_more_than_its_interval_bears():
    """Heard by what knows nothing of its words."""
    rng, heard = Random(5), 0
    for _ in range(400):
        case = any_change(rng)
        with turned(rng.randrange(MOST)):
            line = yardstick_said(case.finding, case.beat, case.measure, FORM)
        told = getattr(case.finding, "yardstick", None)
        assert (line is not None) == (told is not None and told.low > 0)
        if line is None:
            continue
        size = told.sd * (case.finding.a.value if case.finding.kind == "share" else 100)
        said = listened(
            re.sub("from one half-year to the next|one way or the other", "", line, flags=re.I),
            case,
        ).numbers
        assert len(said) == 1 and (said[0].near(size) or "less than" in line)
        assert ("per cent" in line) != (case.finding.kind == "share")
        heard += 1
    assert heard > 40


def test_what_is_said():
    one = Yardstick(sd=0.021, low=0.012, high=0.04, periods=14, unit="season")
    rise, share = moved(0.1, 0.03, yardstick=one), share_moved(4.0, 0.9, yardstick=one)
    assert yardstick_said(rise, BEAT, ECONOMY, FORM) == (
        "From season to season, you’ll see spin’s economy in the middle overs move by about two "
        "per cent anyway."
    )
    line = yardstick_said(share, SHARE_BEAT, SHARE, FORM)
    assert line and line.startswith("From season to season, ") and "point" in line


def test_it_is_told_of_the_first_that_has_one_and_not_where_it_was_told():
    one = yardstick(Random(6))
    one.low = 0.001
    none = Yardstick(sd=0.01, low=0.0, high=0.03, periods=14, unit="year")
    findings = [
        change("b.economy.a"),
        change("b.economy.b", yardstick=none),
        change("b.economy.c", yardstick=one, again="a.economy"),
        change("b.economy.d", yardstick=one),
        change("b.economy.e", yardstick=one),
    ]
    assert first_told(findings) is findings[3]
    assert first_told(findings[:3]) is None

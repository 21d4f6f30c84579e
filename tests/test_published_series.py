"""Published series through a topic's own path: a tiny match a year, or a month, of that many runs.

The Nile at Aswan, yearly flow from 1871 to 1970: R's datasets, `Nile` (Cobb 1978, Biometrika 65),
as statsmodels has it. Car drivers killed or seriously injured in Great Britain by month, 1969 to
1984: R's datasets, `UKDriverDeaths` (Harvey 1989, pages 519-523), typed in from a public copy.
Front seat belts were compulsory there from 31 January 1983.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import statsmodels.api as sm

from pipeline.contracts.finding import Change, Turn
from tests.builders import delivery
from tests.league import findings, league
from tests.tallying import played_in

NILE = sm.datasets.nile.load_pandas().data["volume"].to_numpy(int)
DRIVERS = np.array(
    [
        *(1687, 1508, 1507, 1385, 1632, 1511, 1559, 1630, 1579, 1653, 2152, 2148),  # 1969
        *(1752, 1765, 1717, 1558, 1575, 1520, 1805, 1800, 1719, 2008, 2242, 2478),  # 1970
        *(2030, 1655, 1693, 1623, 1805, 1746, 1795, 1926, 1619, 1992, 2233, 2192),  # 1971
        *(2080, 1768, 1835, 1569, 1976, 1853, 1965, 1689, 1778, 1976, 2397, 2654),  # 1972
        *(2097, 1963, 1677, 1941, 2003, 1813, 2012, 1912, 2084, 2080, 2118, 2150),  # 1973
        *(1608, 1503, 1548, 1382, 1731, 1798, 1779, 1887, 2004, 2077, 2092, 2051),  # 1974
        *(1577, 1356, 1652, 1382, 1519, 1421, 1442, 1543, 1656, 1561, 1905, 2199),  # 1975
        *(1473, 1655, 1407, 1395, 1530, 1309, 1526, 1327, 1627, 1748, 1958, 2274),  # 1976
        *(1648, 1401, 1411, 1403, 1394, 1520, 1528, 1643, 1515, 1685, 2000, 2215),  # 1977
        *(1956, 1462, 1563, 1459, 1446, 1622, 1657, 1638, 1643, 1683, 2050, 2262),  # 1978
        *(1813, 1445, 1762, 1461, 1556, 1431, 1427, 1554, 1645, 1653, 2016, 2207),  # 1979
        *(1665, 1361, 1506, 1360, 1453, 1522, 1460, 1552, 1548, 1827, 1737, 1941),  # 1980
        *(1474, 1458, 1542, 1404, 1522, 1385, 1641, 1510, 1681, 1938, 1868, 1726),  # 1981
        *(1456, 1445, 1456, 1365, 1487, 1558, 1488, 1684, 1594, 1850, 1998, 2079),  # 1982
        *(1494, 1057, 1218, 1168, 1236, 1076, 1174, 1139, 1427, 1487, 1483, 1513),  # 1983
        *(1357, 1165, 1282, 1110, 1297, 1185, 1222, 1284, 1444, 1575, 1737, 1763),  # 1984
    ]
)  # fmt: skip
BALLS = 30  # of every match: a run rate, runs for six of them, is a fifth of the value
SCALE = 6 / BALLS
DATA = """title: A question
question: What happened?
data: {competition: Pebble Cup, format: one-day}
"""
DAM = "event: {name: the dam, date: 1899-01-01, before: 28 years, after: 72 years}\n"
LAW = "event: {{name: the law, date: 1983-01-31, before: 4 years, after: 1 year{more}}}\n"


def told(day: date, value: int) -> dict[str, Any]:
    """A match of that day with so many runs, shared out over its balls."""
    each, more = divmod(int(value), BALLS)
    balls = [delivery(each + (at < more)) for at in range(BALLS)]
    return played_in(day.year, balls, dates=[day.isoformat()])


def months(first: int) -> list[date]:
    """The first days of the months from January of that year to December 1984."""
    return [date(year, month, 1) for year in range(first, 1985) for month in range(1, 13)]


@pytest.fixture(scope="module")
def nile(tmp_path_factory: pytest.TempPathFactory) -> Path:
    flows = enumerate(NILE, 1871)
    return league(tmp_path_factory.mktemp("nile"), [told(date(y, 7, 1), v) for y, v in flows])


@pytest.fixture(scope="module")
def drivers(tmp_path_factory: pytest.TempPathFactory) -> Path:
    series = zip(months(1969), DRIVERS, strict=True)
    return league(tmp_path_factory.mktemp("drivers"), [told(*each) for each in series])


@pytest.fixture(scope="module")
def later(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The drivers from 1975 on, when the fall of 1974 was over."""
    series = zip(months(1975), DRIVERS[72:], strict=True)
    return league(tmp_path_factory.mktemp("later"), [told(*each) for each in series])


def turn(project: Path, every: str, event: str = "") -> Turn:
    beat = f"  - {{kind: turning_point, id: when, measure: run_rate, every: {every}}}"
    found = findings(project, beat, DATA + event)["when.run_rate"]
    assert isinstance(found, Turn) and found.turn is not None
    return found


def change(project: Path, event: str, kind: str = "trend") -> Change:
    beat = f"  - {{kind: {kind}, id: law, measure: run_rate}}"
    found = findings(project, beat, DATA + event)["law.run_rate"]
    assert isinstance(found, Change)
    return found


def points(found: Turn) -> tuple[int, int]:
    """(how many points there are, how many of them lie before the break)."""
    assert found.turn is not None
    labels = [label for label, _, _ in found.turn.counts]
    assert labels.index(found.turn.next) == labels.index(found.turn.last) + 1
    return len(labels), labels.index(found.turn.next)


def test_the_series_are_the_published_ones():
    """Sums that anybody can look up: R's mean of `Nile` is 919.35, of `drivers` 1670.3.

    R's summaries of the drivers (from memory): from 1057 to 2654, median 1631.
    """
    assert (len(NILE), NILE.sum(), NILE.mean()) == (100, 91_935, 919.35)
    assert (len(DRIVERS), DRIVERS.sum()) == (192, 320_699)
    assert (DRIVERS.min(), DRIVERS.max(), np.median(DRIVERS)) == (1057, 2654, 1631)
    line = np.polyfit(np.arange(1, 193), np.log(DRIVERS), 1)
    # Commandeur & Koopman 2007, chapter 1 (from memory): 7.5458 - 0.00145 t.
    assert line == pytest.approx([-0.00145, 7.5458], abs=5e-5)


@pytest.mark.parametrize("event", ["", DAM], ids=["no event", "the dam"])
@pytest.mark.parametrize("every", ["season", "year"])
def test_the_nile_breaks_between_1898_and_1899(nile: Path, every: str, event: str):
    """Cobb 1978, Zeileis et al. 2003: after 1898; their 95 % interval is 1895 to 1902."""
    found = turn(nile, every, event)
    assert points(found) == (100, 28)
    assert found.turn is not None and found.verdict == "changed"
    labels = [label for label, _, _ in found.turn.counts]
    low, high = (1871 + labels.index(end) for end in (found.turn.low, found.turn.high))
    assert 1895 <= low <= 1898 <= high <= 1902
    assert (found.turn.event.inside if found.turn.event else None) == (True if event else None)


@pytest.mark.parametrize("period", ["season", "year"])
def test_the_niles_two_levels(nile: Path, period: str):
    """The segments' means: 1097.75 and 849.97 (R's strucchange, from memory)."""
    found = change(nile, DAM.replace("}", f", period: {period}}}"))
    assert (found.a.matches, found.b.matches) == (28, 72)
    assert found.a.value == pytest.approx(1097.75 * SCALE)
    assert found.b.value == pytest.approx(849.9722 * SCALE, abs=1e-4)
    assert found.drift is not None and found.drift.verdict == "beyond the drift"


@pytest.mark.parametrize(("every", "a_year"), [("month", 12), ("quarter", 4), ("year", 1)])
def test_the_drivers_turn_when_the_law_comes(later: Path, every: str, a_year: int):
    """Ten years of points, of which eight, and January by month, are before it.

    Zeileis et al. 2003 date the second break of the series January 1983 (from memory).
    """
    count, before = points(turn(later, every))
    assert (count, before) == (10 * a_year, 8 * a_year + (every == "month"))


@pytest.mark.parametrize("kind", ["trend", "before_after"])
@pytest.mark.parametrize("period", ["year", "half-year", "quarter", "month"])
def test_the_drivers_of_the_year_after_the_law(drivers: Path, kind: str, period: str):
    """Twelve months against forty-eight: a fifth down, whatever the period of the drift.

    Harvey & Durbin 1986 (JRSS A 149, abstract): 23 per cent; their report of 1985: 20 to 26.
    """
    found = change(drivers, LAW.format(more=f", period: {period}"), kind)
    after, before = DRIVERS[169:181], DRIVERS[121:169]
    assert (found.a.matches, found.b.matches) == (48, 12)
    assert (found.a.numerator, found.b.numerator) == (before.sum(), after.sum())
    assert found.told.change.value == pytest.approx(after.mean() / before.mean() - 1)
    assert -0.26 < found.told.change.value < -0.20
    assert found.told.change.low < -0.23 < found.told.change.high < 0
    assert found.verdict == "changed"


def fitted(first: int) -> float:
    """The step of a straight line of the months' logs, by a reference library: from that one on."""
    time = np.arange(first, 192)
    design = np.column_stack([np.ones(len(time)), time, time >= 169]).astype(float)
    return float(np.expm1(sm.OLS(np.log(DRIVERS[first:]), design).fit().params[2]))


@pytest.mark.parametrize(
    ("period", "off"), [("month", 0.003), ("quarter", 0.02), ("half-year", 0.03)]
)
def test_the_drivers_step_beside_their_drift(drivers: Path, period: str, off: float):
    """From 1975 on, when the fall of 1974 was over, the law is worth what was published.

    Harvey & Durbin's trend bends, ours does not: with 1974 in it, the line takes some of the step.
    Coarser periods have the last months of 1984 in a part that may be left out.
    """
    found = change(drivers, LAW.format(more=f", period: {period}, trend_from: 1975-01-31"))
    assert found.drift is not None and found.drift.test is not None
    step = found.drift.test.step
    assert step.value == pytest.approx(fitted(73), abs=off)
    assert -0.26 < step.value < -0.19 and step.low < -0.23 < step.high < 0
    assert found.drift.verdict == "beyond the drift"


def test_the_whole_series_by_month_agrees_with_a_reference_library(drivers: Path):
    found = change(drivers, LAW.format(more=", period: month"))
    assert found.drift is not None and found.drift.test is not None
    assert found.drift.test.step.value == pytest.approx(fitted(0), abs=0.003)
    assert (found.drift.periods_before, found.drift.periods_after) == (169, 23)


def test_two_years_after_are_too_few_for_a_drift_by_the_year(drivers: Path):
    found = change(drivers, LAW.format(more=", period: year"))
    assert found.drift is not None and found.drift.verdict == "not testable"
    assert found.drift.periods_before >= 14 and found.drift.periods_after <= 2

"""A control that ran side by side before the event, one that did not, and the step of the gap."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from pipeline.contracts.over_time import ControlCheck
from pipeline.significance.parallel import followed
from pipeline.significance.second_verdict import Asked, asked_of
from pipeline.wording.control import control_said, parallel_shown
from tests import finding_makers as make
from tests.league import FIVE, findings, league, scored
from tests.seasons import event, season, timing, windows
from tests.view_makers import scale

YEARS = range(2009, 2023)
WOBBLE = (0.0, 0.004, -0.003, 0.002, -0.004, 0.001, 0.003, -0.002) * 2


def asked(years: range = YEARS) -> Asked:
    seasons = [season(year) for year in years]
    chosen = windows(["2015", "2016"], ["2017", "2018"])
    return asked_of(timing(seasons, chosen), seasons, event("2017-03-01"))


def rows(drift: float, step: float = 1.0, years: range = YEARS, cell: str = "all") -> pd.DataFrame:
    made = []
    for at, year in enumerate(years):
        level = 0.8 * np.exp(drift * at + WOBBLE[at]) * (step if year >= 2017 else 1)
        made.append({"period": str(year), "cell": cell, "y": round(1e6 * level), "x": 1_000_000})
    return pd.DataFrame(made)


def beside(own: pd.DataFrame, other: pd.DataFrame, when: Asked | None = None):
    return followed(own, other, {"all": "pace"}, when or asked(), scale())["all"]


def test_two_that_ran_side_by_side():
    """Both rise by two per cent; one of them steps, which is the step of their gap."""
    swung = rows(0.02, 1.08)
    swung["y"] = (swung["y"] * np.exp([0.002, -0.001] * 7)).round()
    found = beside(swung, rows(0.02, cell="pace"))
    assert (found.parallel.verdict, found.parallel.periods) == ("parallel", 8)
    assert found.parallel.slope.low < 0 < found.parallel.slope.high
    assert found.step.step.low < 0.08 < found.step.step.high and found.step.p < 0.001


def test_a_control_that_drifts_another_way_is_told_and_the_step_is_none():
    """Two windows would make five years of one per cent a year of it."""
    found = beside(rows(0.02), rows(0.03, cell="pace").assign(y=lambda x: x["y"] * 1.0))
    assert found.parallel.verdict == "not parallel"
    assert found.parallel.slope.value == pytest.approx(np.exp(-0.01) - 1, abs=1e-4)
    assert abs(found.step.step.value) < 1e-4  # both wobble alike


def test_few_periods_and_empty_ones_are_not_told():
    short = range(2013, 2023)
    found = beside(rows(0.02, years=short), rows(0.02, years=short, cell="pace"), asked(short))
    assert (found.parallel.verdict, found.parallel.slope, found.step) == ("can't tell", None, None)
    hollow = rows(0.02, cell="pace")
    found = beside(rows(0.02), hollow[hollow["period"] != "2012"])
    assert (found.parallel.verdict, found.parallel.slope, found.step) == ("can't tell", None, None)


def test_without_a_period_in_the_fit_nothing_is_told():
    """An event inside the only season there is."""
    none = asked()._replace(
        labels=[], middle=np.array([]), after=np.array([], bool), places=np.array([], int)
    )
    found = beside(rows(0.02), rows(0.02, cell="pace"), none)
    assert (found.parallel.verdict, found.parallel.periods, found.step) == ("can't tell", 0, None)


def test_several_cells_may_have_one_control():
    own = pd.concat([rows(0.02), rows(0.03, cell="spin")])
    pairs = {"all": "pace", "spin": "pace"}
    found = followed(own, rows(0.02, cell="pace"), pairs, asked(), scale())
    alone = followed(own, rows(0.02, cell="pace"), {"spin": "pace"}, asked(), scale())
    assert list(found) == list(pairs) and found["spin"] == alone["spin"]


def test_much_scatter_can_t_tell():
    rng = np.random.default_rng(5)
    other = rows(0.02, cell="pace")
    other["y"] = (other["y"] * np.exp(rng.normal(0, 0.1, 14))).round()
    found = beside(rows(0.02), other)
    assert found.parallel.verdict == "can't tell" and found.parallel.p > 0.05


def test_the_tallies_hold_the_controls_rows_of_every_season(tmp_path: Path):
    """Seasons outside both windows are among the periods that it is followed over."""
    matches = []
    for year in YEARS:
        for day in range(1, 8):
            runs = 90 * 1.02 ** (year - 2009) * (1 + 0.03 * ((day * 7 + year) % 5 - 2))
            other = {"event": {"name": "Sand Cup"}}
            matches.append(scored(year, round(runs), 120, day))
            matches.append(scored(year, round(runs * 1.1), 120, day))
            matches[-1]["info"] |= other
    beat = (
        "  - {id: a, kind: before_after, measure: run_rate,\n"
        "     control: {name: the other cup, competition: Sand Cup}}\n"
    )
    control = findings(league(tmp_path / "league", matches), beat, FIVE)["a.run_rate"].control
    assert control.parallel.periods == 8 and control.parallel.slope is not None
    assert control.step is not None and control.step.dates >= 9
    assert control.step_because in ("step_within_chance", "step_beyond_chance")


def check(**more) -> ControlCheck:
    return make.control("pace", **more)


@pytest.mark.parametrize(
    ("slope", "because", "said"),
    [
        (-0.02, "step_within_chance", "But pace had been gaining on it before that anyway"),
        (0.02, "step_beyond_chance", "But it had been gaining on pace before that anyway"),
    ],
)
def test_a_poor_yardstick_is_said_to_be_one(slope: float, because: str, said: str):
    parallel = make.parallel("not parallel", slope)
    control = check(parallel=parallel, step=make.step_test(-0.05), step_because=because)
    line = " ".join(control_said(make.change(control=control)))
    assert said in line and "poor yardstick" in line
    assert ("still a jump down against it" in line) == (because == "step_beyond_chance")
    assert "side by side before the event: no (" in parallel_shown(control)


@pytest.mark.parametrize("verdict", ["parallel", "can't tell"])
def test_one_that_ran_alike_is_not(verdict: str):
    control = check(parallel=make.parallel(verdict, 0.001))
    assert "yardstick" not in " ".join(control_said(make.change(control=control)))
    assert "; step of the gap" not in parallel_shown(control)
    assert parallel_shown(check()) is None

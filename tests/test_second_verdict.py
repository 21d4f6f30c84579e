"""The second verdict on planted drifts: its sign, its size, and a step told apart from it."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.contracts.finding import Change
from tests.league import FIVE, findings, league, scored

UNEVEN = (0.9, 1.1, 1.0, 0.95, 1.05, 1.0)  # matches of a season about its rate
BEAT = "  - {id: a, kind: before_after, measure: run_rate}"


def drifting(folder: Path, drift: float, step: float = 1.0) -> Change:
    """The finding of a league of 2009 to 2022 whose rate drifts so a year, with a step in 2017."""
    matches = []
    for year in range(2009, 2023):
        rate = 0.75 * drift ** (year - 2009) * (step if year >= 2017 else 1)
        for day, factor in enumerate(UNEVEN, start=1):
            matches.append(scored(year, round(120 * rate * factor), 120, day))
    return findings(league(folder, matches), BEAT, FIVE)["a.run_rate"]


@pytest.mark.parametrize("drift", [1.03, 0.97])
def test_what_a_drift_alone_would_have_done_has_its_sign_and_size(tmp_path: Path, drift: float):
    """The windows' centres, 2014 and 2019, are five years apart."""
    found = drifting(tmp_path / "league", drift)
    test = found.drift.test
    for slope, true, near in ((test.slope, drift, 0.001), (test.expected, drift**5, 0.004)):
        assert slope.low < true - 1 < slope.high
        assert slope.value == pytest.approx(true - 1, abs=near)
        assert slope.way == (1 if drift > 1 else -1)
    assert found.told.change.value == pytest.approx(drift**5 - 1, abs=0.004)
    assert test.step.low < 0 < test.step.high
    assert (found.verdict, found.drift.verdict) == ("changed", "in line with the drift")


def test_a_step_against_the_drift_is_told_apart_from_it(tmp_path: Path):
    """Up three per cent a year and down ten at the event."""
    found = drifting(tmp_path / "league", 1.03, 0.9)
    drift, step = found.drift, found.drift.test.step
    assert step.low < -0.1 < step.high < 0 < drift.test.expected.low
    assert (drift.verdict, drift.because) == ("beyond the drift", "step_beyond_chance")
    assert found.told.change.value == pytest.approx(0.9 * 1.03**5 - 1, abs=0.004)
    assert (drift.periods_before, drift.periods_after, drift.test.rank) == (8, 6, 1)

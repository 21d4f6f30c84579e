"""The second question: steps are told from drift, and drift alone is not called a step."""

from __future__ import annotations

from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest
import statsmodels.api as sm
from hypothesis import given, settings
from hypothesis import strategies as st

from demo_data import planted
from pipeline.config.event_views import EventDates
from pipeline.config.kinds.groups import Groups
from pipeline.config.kinds.share import Share
from pipeline.config.topic import OtherEvent
from pipeline.contracts.files import read_json
from pipeline.contracts.finding import Change
from pipeline.contracts.findings import Findings
from pipeline.contracts.over_time import Drift, Slope
from pipeline.contracts.selection import ControlSelection, Season
from pipeline.errors import UserError
from pipeline.significance.methods.drift import Seasons, of_rates, rank_among_dates, step_and_drift
from pipeline.significance.rivals import rivals
from pipeline.significance.second_family import judge_drift
from pipeline.significance.second_verdict import asked_of, drift_checks
from pipeline.wording import second_verdict as words
from pipeline.wording.kinds.gap import compared
from tests import finding_makers
from tests.asking import by_id
from tests.finding_makers import asks, drift, effect, step_test
from tests.seasons import chosen_windows, event, season, timing, windows
from tests.view_makers import question


def series(rng: np.random.Generator, seasons: int, cells: int, yearly: float = 0.0) -> Seasons:
    """Rates that drift, with season shocks and unequal weights; no step."""
    time = np.arange(seasons, dtype=float)
    x = rng.integers(8_000, 12_000, (seasons, cells)).astype(float)
    rate = 0.8 * np.exp(yearly * time[:, None] + rng.normal(0, 0.02, (seasons, cells)))
    return of_rates(x * rate, x, time)


def after(seasons: int, event: int) -> np.ndarray:
    return np.arange(seasons) >= event


@pytest.mark.parametrize("seed", range(5))
def test_step_and_drift_agree_with_a_reference_library(seed: int):
    """statsmodels WLS of the log rate, weights the denominators, on random data."""
    found = series(np.random.default_rng(seed), 14, 4, 0.01)
    step, slope = (each.plain for each in step_and_drift(found, after(14, 8)))
    ends = [np.transpose(each.interval(0.95)) for each in (step, slope)]
    for cell in range(4):
        design = np.column_stack([np.ones(14), found.time, after(14, 8).astype(float)])
        fit = sm.WLS(found.log[:, cell], design, weights=found.weight[:, cell]).fit()
        for place, found_of, mine in zip((2, 1), (step, slope), ends, strict=True):
            assert found_of.value[cell] == pytest.approx(fit.params[place], abs=1e-10)
            assert found_of.se[cell] == pytest.approx(fit.bse[place], rel=1e-8)
            assert found_of.p_value()[cell] == pytest.approx(fit.pvalues[place], rel=1e-8)
            assert mine[cell] == pytest.approx(fit.conf_int()[place], rel=1e-8)


@pytest.mark.parametrize(("seasons", "event"), [(14, 8), (14, 11), (20, 10)])
@pytest.mark.parametrize("drift", [0.0, 0.012, -0.02])
def test_pure_drift_is_called_a_step_about_one_time_in_twenty(
    seasons: int, event: int, drift: float
):
    """4,000 series with season shocks; Monte Carlo error of the share about 0.35 points."""
    rng = np.random.default_rng(seasons * 100 + event)
    step, _ = step_and_drift(series(rng, seasons, 4_000, drift), after(seasons, event))
    assert 0.03 < (step.plain.p_value() < 0.05).mean() < 0.07
    assert 0.025 < (step.estimate.p_value() < 0.05).mean() < 0.06


def test_a_real_step_is_found():
    """A step of six per cent, three times the season shocks, is seen two times in three."""
    found = series(np.random.default_rng(3), 14, 2_000, 0.012)
    found.log[8:] += np.log(1.06)
    step, slope = (each.estimate for each in step_and_drift(found, after(14, 8)))
    assert (step.p_value() < 0.05).mean() > 0.53
    assert step.value.mean() == pytest.approx(np.log(1.06), abs=0.002)
    assert slope.value.mean() == pytest.approx(0.012, abs=0.001)


def test_an_empty_season_leaves_its_cell_without_numbers_and_the_others_alone():
    found = series(np.random.default_rng(4), 14, 3)
    alone = step_and_drift(found, after(14, 8))[0].estimate
    found.log[2, 1] = -np.inf
    step, slope = (each.estimate for each in step_and_drift(found, after(14, 8)))
    assert np.isnan(step.value[1]) and np.isnan(slope.value[1])
    assert step.value[[0, 2]] == pytest.approx(alone.value[[0, 2]])


@given(scale=st.floats(0.1, 10), shift=st.integers(-30, 30), seed=st.integers(0, 99))
@settings(max_examples=40, deadline=None)
def test_scale_and_calendar_change_no_step(scale: float, shift: int, seed: int):
    found = series(np.random.default_rng(seed), 12, 2)
    other = Seasons(found.log + np.log(scale), found.weight, found.time + shift)
    one, other_step = (step_and_drift(each, after(12, 8))[0].estimate for each in (found, other))
    assert other_step.value == pytest.approx(one.value, abs=1e-8)
    assert other_step.p_value() == pytest.approx(one.p_value(), rel=1e-6)


@given(seed=st.integers(0, 99))
@settings(max_examples=20, deadline=None)
def test_time_backwards_flips_the_step_and_keeps_its_p(seed: int):
    found = series(np.random.default_rng(seed), 14, 2)
    back = Seasons(found.log[::-1], found.weight[::-1], found.time)
    step, slope = (each.estimate for each in step_and_drift(found, after(14, 8)))
    turned, reverse = (each.estimate for each in step_and_drift(back, after(14, 6)))
    assert turned.value == pytest.approx(-step.value, abs=1e-10)
    assert reverse.value == pytest.approx(-slope.value, abs=1e-10)
    assert reverse.se == pytest.approx(slope.se, rel=1e-8)
    assert turned.p_value() == pytest.approx(step.p_value(), rel=1e-8)


def test_the_real_date_is_ranked_among_all_admissible_ones():
    found = series(np.random.default_rng(5), 14, 2)
    found.log[8:, 0] += np.log(1.3)
    rank, dates = rank_among_dates(found, after(14, 8))
    assert (rank[0], dates) == (1, 9)
    _, more = rank_among_dates(found, after(14, 13))
    assert more == 10  # a date too near the end is added to the nine


SEASONS = [season(year) for year in range(2009, 2023)]
WINDOWS = windows(["2015", "2016"], ["2017", "2018"])
EVENT = event("2017-03-01")
VERDICTS = {"x": "changed", "y": "held", "z": "can't tell"}


def rows(step: float = 1.0) -> pd.DataFrame:
    rng = np.random.default_rng(6)
    made = []
    for each in SEASONS:
        y = 8_000 * (step if each.label >= "2017" else 1) * np.exp(rng.normal(0, 0.01))
        made.append({"period": each.label, "cell": "all", "y": round(y), "x": 10_000})
    return pd.DataFrame(made)


def check(asked: EventDates = EVENT, seasons: list[Season] = SEASONS, **more: Any) -> Drift:
    chosen = asked_of(timing(seasons, more.get("windows", WINDOWS)), seasons, asked)
    return drift_checks(more.get("rows", rows()), ["all"], chosen)[0]


def test_drift_is_not_tested_on_too_few_seasons():
    assert check().test is not None
    late = check(event("2017-03-01", trend_from="2010"))
    assert (late.because, late.periods_before) == ("few_periods_before", 7)
    soon = check(seasons=SEASONS[:10])
    assert (soon.because, soon.periods_after) == ("few_periods_after", 2)
    assert soon.verdict == "not testable" and soon.test is None
    empty = check(rows=rows()[lambda x: x["period"] != "2012"])
    assert (empty.because, empty.test) == ("empty_period", None)


def test_the_season_of_the_event_is_on_neither_side():
    found = check(event("2017-06-01"), windows=windows(["2015", "2016"], ["2018"], "2017"))
    assert (found.periods_before, found.periods_after) == (8, 5)


def drifted(name: str, p: float = 0.02, **more: Any) -> Change:
    """The finding 'b.m.<name>' whose drift is tested; a name is a question."""
    found = drift("in line with the drift", test=step_test(p=p))
    question = asks("m", balls=(("phase", (name,)),))
    return finding_makers.change(f"b.m.{name}", **{"drift": found, "asks": question, **more})


def test_many_looks_are_allowed_for_and_headlines_come_apart():
    """Two in a hundred is enough for one row, and not for the first of three headlines."""
    found = [drifted(name) for name in "wxyz"]
    judge_drift(found, ["b.m.w", "b.m.x", "b.m.y"], 0.05)
    drifts = [each.drift for each in found]
    assert [each.verdict for each in drifts] == ["in line with the drift"] * 3 + [
        "beyond the drift"
    ]
    assert [each.because for each in drifts] == ["step_lost_among_many"] * 3 + [
        "step_beyond_chance"
    ]
    assert [each.test.level for each in drifts] == pytest.approx([1 - 0.05 / 3] * 3 + [0.95])
    assert [each.p_adjusted for each in drifts] == pytest.approx([0.06] * 3 + [0.02])
    assert [each.family_size for each in drifts] == [3, 3, 3, 1]


def test_the_second_question_is_asked_whatever_the_first_answer_was():
    """Of what can't be tested it is not, nor does that count as a look."""
    found = [drifted(name, verdict=verdict) for name, verdict in VERDICTS.items()]
    gone = finding_makers.change("b.m.gone", drift=drift("not testable"))
    judge_drift([*found, gone, finding_makers.change("b.m.bare", drift=None)], [], 0.05)
    assert {each.drift.verdict for each in found} == {"beyond the drift"}
    assert {each.drift.family_size for each in found} == {3}
    assert (gone.drift.verdict, gone.drift.p_adjusted) == ("not testable", None)


def test_one_drift_that_two_beats_show_is_one_look():
    """As one of two rows at 0.03 it is lost; as one look, and its own again, it is not."""
    one, again, other = drifted("x", 0.03), drifted("x", 0.03), drifted("y", 0.6)
    judge_drift([one, again], [], 0.05)
    assert {each.drift.family_size for each in (one, again)} == {1}
    assert {each.drift.verdict for each in (one, again)} == {"beyond the drift"}
    judge_drift([one, again, other], [], 0.05)
    assert one.drift.because == again.drift.because == "step_lost_among_many"
    assert one.drift.test.level == again.drift.test.level == pytest.approx(0.975)


def test_rivals_are_the_other_events_of_the_windows():
    also = [
        OtherEvent(name="the new ball", date="2016-05-01"),
        OtherEvent(name="the old tax", date="2010-05-01"),
        OtherEvent(name="the last day", date="2018-09-01"),
    ]
    found = rivals(also, date(2017, 3, 1), WINDOWS)
    assert [(one.name, one.days) for one in found] == [
        ("the new ball", -304),
        ("the last day", 549),
    ]


def test_a_trend_from_a_season_that_is_not_there_is_named():
    asked = partial(event, "2017-03-01", None, None)
    with pytest.raises(UserError, match=r"event\.trend_from: no season '2008'"):
        chosen_windows(SEASONS, asked("2008"))
    with pytest.raises(UserError, match="'2016' is after 2015, the first season compared"):
        chosen_windows(SEASONS, asked("2016"))
    assert chosen_windows(SEASONS, asked("2015")).before.seasons == ["2015", "2016"]


@pytest.mark.parametrize("verdict", VERDICTS.values())
def test_the_drift_is_told_whatever_the_first_verdict_is(verdict: str):
    """Its words by outcome are in outcomes.txt."""
    told = finding_makers.change(verdict=verdict, drift=drift(words.IN_LINE))
    apart = words.drift_said(told, compared("spin’s economy", "pace"))
    assert "pin’s economy compared with pace had been" in apart[0]
    assert words.second(told) == words.IN_LINE
    assert bool(words.in_short(told)) is (verdict == "changed")  # of the others a step alone is
    beyond = finding_makers.change(verdict=verdict, drift=drift(words.BEYOND))
    assert words.in_short(beyond).endswith(("step down", "step beyond its drift"))
    assert words.numbers_behind(told).startswith("Drift +2.0% a season, ")


def test_nothing_is_told_of_a_drift_that_was_not_asked():
    for bare in (
        finding_makers.change(drift=None),
        finding_makers.change(refused="few_matches", drift=drift()),
    ):
        assert words.drift_said(bare) == [] and words.second(bare) is None
        assert words.numbers_behind(bare) is None and words.in_short(bare) == ""


@pytest.mark.parametrize(
    ("low", "high", "way"), [(0.001, 0.04, 1), (-0.04, -0.001, -1), (-0.001, 0.04, 0)]
)
def test_a_drift_is_told_only_where_its_interval_leaves_none_out(low, high, way):
    """One of an edition that kept no interval is not told."""
    slope = Slope(value=(low + high) / 2, low=low, high=high)
    assert slope.way == way
    told = drift(words.IN_LINE, test=step_test(slope=slope))
    line = " ".join(words.drift_said(finding_makers.change(drift=told)))
    rising = {1: "It had been rising by", -1: "It had been falling by", 0: "can’t show a drift"}
    assert [which for which, said in rising.items() if said in line] == [way]
    assert Slope(value=0.02, low=None, high=None).way == 0


def test_the_short_answer_says_which_way_the_step_goes_where_it_may_be_told():
    """Down, whichever way the number went; 'beyond its drift' where both go the same way."""
    up, down = (finding_makers.change(effect=effect(size, size)) for size in (0.1, -0.1))
    for told in (up, down):
        told.drift = drift()
    assert "a step down" in words.in_short(up) and "beyond its drift" in words.in_short(down)
    line = finding_makers.change(drift=drift(words.IN_LINE))
    untested = finding_makers.change(drift=drift("not testable"))
    short = [words.in_short(each) for each in (up, down, line, untested)]
    assert len(set(short)) == 4 and all(each.startswith((", and ", ", though ")) for each in short)


@pytest.mark.slow
def test_the_planted_myth_and_the_planted_step(built: Path):
    """The ends of innings drift up with no step in 2017; spin in the middle overs steps down."""
    path = built / "output" / "long-grass" / "findings.json"
    found = by_id(read_json(path, Findings))
    for kind in planted.KINDS:
        myth = found[f"kinds.economy.{kind}-death"]
        assert (myth.verdict, myth.drift.verdict) == ("changed", "in line with the drift")
    real = found["kinds.economy.spin-middle"].drift
    assert real.verdict == "beyond the drift" and real.test.rank == 1
    truth = planted.STEP["spin", planted.MIDDLE] - 1
    assert real.test.step.low < truth < real.test.step.high
    for cell, phase in (("pace-middle", planted.MIDDLE), ("pace-death", planted.END)):
        test = found[f"kinds.economy.{cell}"].drift.test
        assert test.step.low < 0 < test.step.high
        assert test.slope.value == pytest.approx(planted.DRIFT_PER_SEASON[phase], abs=0.01)


def test_a_group_may_be_called_outside():
    """Only a window's 'outside' stands for the seasons that are not compared."""
    rows = pd.DataFrame({"window": ["before", "outside", "control before"], "season": "2016"})
    two = {"bowler_kind": ["pace", "spin"]}
    groups = Groups(id="b", kind="groups", measure=["m"], between=two)
    share = Share(id="b", kind="share", of={"bowler_kind": ["spin"]})
    for beat, count in ((groups, 3), (share, 1)):
        assert len(question(beat, rows).compared) == count
    held = ControlSelection(name="the others", query="", pairs={})
    asked = question(share, rows, held)
    assert (len(asked.compared), len(asked.control), len(asked.every)) == (1, 1, 2)

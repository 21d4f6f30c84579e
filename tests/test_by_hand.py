"""Numbers of findings worked out a second time, by sums that are as plain as can be."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pandas as pd
import pytest
from scipy.stats import t as student

from pipeline.periods import Grid
from pipeline.significance.change import compare
from pipeline.significance.control import _aligned
from pipeline.significance.drawn_in import _pooled
from pipeline.significance.effects import Compared, numbers_of
from pipeline.significance.kinds.mix import of_whole
from pipeline.significance.kinds.turning_point import (
    _at_level,
    _event_place,
    _second,
    findings,
)
from pipeline.significance.methods.inference import newcombe
from pipeline.significance.methods.log_linear import deviance
from pipeline.significance.methods.ratio import Estimate, Sums
from pipeline.significance.methods.split import Weighed, split
from pipeline.significance.methods.structural_break import Series, turning_point
from pipeline.significance.points import points_of
from tests.finding_makers import effect, side
from tests.seasons import event
from tests.test_split import paired, window
from tests.test_turning_points import MATCHES, SERIES, STEPPED, found, rows
from tests.view_makers import STATISTICS, question, scale


def by_season(counts: list[int]) -> pd.DataFrame:
    """The rows of a series with their season as their period."""
    table = rows(counts)
    return table.assign(period=table["season"])


def won(matches: int, of: int) -> Sums:
    """So many of a side's matches, each decided."""
    y = (np.arange(of) < matches).astype(float)[:, None]
    return Sums(y, np.ones((of, 1)), np.ones((of, 1), bool))


def test_a_share_of_matches_has_its_errors_in_points():
    """Thirty of forty, then eighteen of thirty-six: what it could have told is by both windows."""
    one, other = won(30, 40), won(18, 36)
    wins = scale("share", by_match=True)
    (wins_told,) = compare(paired(one, other), wins, STATISTICS)
    told = wins_told.effect
    assert told
    parts = [p * (1 - p) / (n - 1) for p, n in ((0.75, 40), (0.5, 36))]
    error = 100 * math.sqrt(sum(parts))
    assert (told.difference.value, told.df_units) == (pytest.approx(-25.0), 74)
    assert told.se == pytest.approx(error)
    low, high = (100 * float(end) for end in newcombe(18, 36, 30, 40))
    assert (told.difference.low, told.difference.high) == pytest.approx((low, high))
    sure, four_in_five = student.ppf([0.975, 0.8], 74)
    assert told.detectable_difference == pytest.approx((sure + four_in_five) * error, rel=1e-3)
    assert 0 < told.p < 0.05


def test_both_ends_of_a_change_are_those_of_its_logarithm():
    logs, units = (Estimate(*np.array([[size], [0.05], [30.0]])) for size in (0.1, 0.02))
    told = numbers_of(logs, units, scale("rate"), None)
    half = student.ppf(0.975, 30) * 0.05
    assert told["change_low"][0] == pytest.approx(math.expm1(0.1 - half))
    assert told["change_high"][0] == pytest.approx(math.expm1(0.1 + half))
    assert told["difference_low"][0] == pytest.approx(6 * (0.02 - half))
    assert told["difference_high"][0] == pytest.approx(6 * (0.02 + half))


def test_the_pooled_spread_of_one_player_is_that_of_a_sample():
    """Of equal matches: the errors of a mean, over it. Of two players it is common to both."""
    runs = np.array([[10.0, 22.0], [14.0, 20.0], [18.0, 27.0]])
    balls = np.full((3, 2), 12.0)
    both = Sums(runs, balls, balls > 0)
    alone = Sums(runs[:, :1], balls[:, :1], balls[:, :1] > 0)
    (error,) = _pooled(alone, balls[:, :1])
    assert error == pytest.approx(runs[:, 0].std(ddof=1) / math.sqrt(3) / runs[:, 0].mean())
    relative = runs / runs.mean(0)
    common = math.sqrt(((relative - 1) ** 2).sum() / 4)  # two matches more than none, of each
    assert _pooled(both, balls) == pytest.approx([common / math.sqrt(3)] * 2)


def test_the_level_of_a_split_is_the_ratio_before_and_not_a_share_of_its_weight():
    """Runs a wicket, shared out by balls: twenty-four, not eight tenths."""
    runs, wickets = np.array([[48.0, 48.0]] * 4), np.array([[2.0, 2.0]] * 4)
    a = Weighed(Sums(runs, wickets, wickets > 0), np.array([[60.0, 60.0]] * 4))
    assert split(a, a).level == 24.0


def test_the_share_of_a_mix_is_of_its_denominators():
    """Its parts are told by those; only the caution beside a whole shares out balls instead."""
    rng = np.random.default_rng(6)
    a, b = window(rng, 60, 0.2, noise=0.03), window(rng, 60, 0.5, noise=0.03)
    balls = tuple(np.ones_like(each.x) * 100 for each in (a, b))
    whole: Any = Compared(side(4.5), side(4.2), None, effect(-0.06, -0.3))
    mix, _ = of_whole(whole, paired(a, b, balls), scale("rate"))
    parts = split(Weighed(a, a.x), Weighed(b, b.x))
    wanted = parts.share(parts.mix, parts.rates)
    assert mix and mix.share and wanted and mix.share.value == pytest.approx(wanted.value)
    assert mix.share.value > 0.5  # by balls there is no mix at all


def test_controls_of_other_matches_are_compared_as_independent():
    """Where not one match is in both; one is enough to take them together."""
    table = rows([80, 80])
    table["window"] = table["season"].map({"2009": "before", "2010": "after"})
    for matches, together in (("other " + table["match_id"], False), (table["match_id"], True)):
        mine, theirs, found_together = _aligned(
            table, table.assign(match_id=matches), ["all"], ["all"]
        )
        assert found_together is together
        assert len(mine.a.y) == len(theirs.a.y) == MATCHES


def test_the_information_criterion_counts_the_terms_and_the_dates():
    """Line, step and its date, and two for each break that is known; Schwarz 1978."""
    counts, against = np.array(STEPPED, float), np.full(14, 1600.0)
    for known in ((), (8,)):
        series = Series(counts, against, known=known)
        left = deviance(counts, series.stepped[1]).min()
        terms = 4 + 2 * len(known)
        wanted = 14 * math.log(left / 14) + terms * math.log(14)
        assert turning_point(series).bic == pytest.approx(wanted)


def test_a_turning_points_difference_and_its_error_are_of_its_level():
    """In runs an over: the step of the level before, and the error of the level after."""
    turn = found(STEPPED)
    series = Series(np.array(STEPPED, float), np.full(14, MATCHES * 200.0))
    known = turning_point(series)
    before = 6 * math.exp(known.before)
    assert turn.told.difference.value == pytest.approx(before * math.expm1(known.step))
    assert turn.told.se == pytest.approx(known.error * before * math.exp(known.step))


TWICE = [160, 150, 158, 163, 155, 121, 119, 125, 118, 122, 81, 79, 84, 80]


def test_a_second_break_is_the_next_step_beside_the_first():
    points = points_of(by_season(TWICE), [], Grid("season"))
    first = turning_point(points.series())
    second = _second(first, points)
    assert second and second.p < 0.05
    breaks = {
        (points.labels[first.last], points.labels[first.last + 1]),
        (second.last, second.next),
    }
    assert breaks == {("2013", "2014"), ("2018", "2019")}
    counts, against = np.array(TWICE, float), np.full(14, MATCHES * 200.0)
    beside = turning_point(Series(counts, against, known=(first.last + 1,)))
    assert second.p == beside.p  # of its own, with the first in the model


@pytest.mark.parametrize(
    ("day", "rank"),
    [("2017-03-01", 1), ("2022-05-01", None), ("2022-07-01", ...), ("2009-05-01", ...)],
)
def test_an_event_after_the_last_season_began_has_no_place_among_the_dates(day: str, rank: Any):
    """At the likeliest date it is the first of them; before the last season it has no rank."""
    points = points_of(by_season(STEPPED), [], Grid("season"))
    series = points.series()
    place = _event_place(turning_point(series), series, points, event(day).date)
    assert (place.rank if place else ...) == rank


def test_a_side_that_is_refused_has_no_level():
    refused = side(None, refused="few_matches")
    assert _at_level(refused, 4.5) is refused
    assert (_at_level(side(4.4), 4.5).value, _at_level(side(4.4), 4.5).low) == (4.5, None)


def test_a_level_of_too_few_matches_is_refused_and_keeps_what_was_counted():
    """Two seasons of one match after the break: there is a date, and no value to tell."""
    table = rows([*STEPPED[:8], 101, 96])
    late = table["season"].isin(["2017", "2018"]) & ~table["match_id"].str.endswith("-0")
    thin = table[~late].assign(y=lambda each: each["y"].where(each["season"] < "2017", 12.0))
    (turn,) = findings(question(SERIES, thin))
    assert turn.turn and (turn.turn.last, turn.b.matches) == ("2016", 2)
    assert (turn.refused, turn.b.refused, turn.effect) == ("few_matches", "few_matches", None)
    assert turn.a.refused is None and turn.b.numerator == 24

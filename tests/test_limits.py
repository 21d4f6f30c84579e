"""Methods at their limits: exactly enough, exactly at the level, one ball, or nothing at all."""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np
import pytest
from msgspec import structs

from pipeline.contracts.finding import Player
from pipeline.significance.drawn_in import Group, _shrunk
from pipeline.significance.kinds.gap import gap_changes
from pipeline.significance.kinds.players import judged
from pipeline.significance.methods.inference import detectable
from pipeline.significance.methods.kitagawa import given, same_mix
from pipeline.significance.methods.neighbours import DRAWS
from pipeline.significance.methods.permutation import _studentised
from pipeline.significance.methods.ratio import Estimate, Sums
from pipeline.significance.methods.refusal import refusals
from pipeline.significance.methods.shrinkage import shrink
from pipeline.significance.methods.split import Split
from pipeline.significance.methods.step_interval import _Asked, step_interval
from pipeline.significance.methods.structural_break import turning_point
from pipeline.significance.notes import _on_two_sides
from pipeline.significance.on_the_field import Stretch, _a_season
from pipeline.significance.points import Points
from pipeline.significance.printed import _seen
from tests.finding_makers import answer, effect
from tests.test_split import paired
from tests.test_step_interval import stepped
from tests.view_makers import STATISTICS, scale


def one_cell(y: list[float], x: list[float]) -> Sums:
    numerators, against = (np.array(each, float)[:, None] for each in (y, x))
    return Sums(numerators, against, np.ones_like(against, bool))


def test_exactly_the_least_matches_are_enough():
    """Eight alike are worth eight, and one less is too few; eight uneven ones are worth fewer."""
    assert refusals(one_cell([5.0] * 8, [6.0] * 8), 8) == [None]
    assert refusals(one_cell([5.0] * 7, [6.0] * 7), 8) == ["few_matches"]
    assert refusals(one_cell([5.0] * 8, [6.0] * 7 + [7.0]), 8) == ["few_effective"]
    assert refusals(one_cell([5.0] * 8, [6.0] * 7 + [7.0]), 8, np.ones((8, 1))) == [None]


def test_matches_of_which_none_was_decided_are_no_proportion():
    """None won is a proportion like any other; none that could be won is none."""
    none = [0.0] * 8
    assert refusals(one_cell(none, none), 8, by_match=True) == ["none_counted"]
    assert refusals(one_cell(none, [1.0] * 8), 8, by_match=True) == [None]
    assert refusals(one_cell(none, [6.0] * 8), 8) == ["none_counted"]


def test_a_rate_of_one_ball_is_a_groups_own():
    """Of no ball it has that of the other window, and nought of neither."""
    own, other = np.array([2.0, np.nan, np.nan]), np.array([0.8, 0.8, np.nan])
    assert given(own, np.array([1.0, 0.0, 0.0]), other).tolist() == [2.0, 0.8, 0.0]


def test_a_match_of_one_ball_has_a_mix_as_any_other():
    half, one = (Sums(x, x, x > 0) for x in (np.array([[3.0, 3.0]]), np.array([[1.0, 0.0]])))
    none = Sums(*(np.zeros((1, 2)),) * 2, np.zeros((1, 2), bool))
    assert same_mix(half, half) and same_mix(half, none) and not same_mix(half, one)


def test_a_statistic_without_a_spread_is_no_hit_of_the_shuffled_matches():
    """Neither where its effect is none nor where it is one, up or down."""
    effects, variances = np.array([0.0, 1.0, -1.0, 1.0]), np.array([0.0, 0.0, 0.0, 4.0])
    assert _studentised(effects, variances).tolist() == [0.0, 0.0, 0.0, 0.5]


@pytest.mark.parametrize(
    ("p", "checked", "apart"),
    [
        (0.04, 0.11, True),
        (0.04, 0.09, False),
        (0.04, 0.14, True),
        (0.06, 0.11, False),
        (0.11, 0.04, True),
        (0.09, 0.04, False),
        (0.14, 0.04, True),
    ],
)
def test_a_check_disagrees_where_one_p_is_under_five_per_cent_and_one_over_ten(
    p: float, checked: float, apart: bool
):
    assert _on_two_sides(p, checked) is apart


def shrunk(low: float, high: float) -> Any:
    """A player drawn in to this interval; as she came out the change is sure."""
    drawn = _drawn()
    return structs.replace(drawn, change=(low + high) / 2, low=low, high=high)


def _drawn(p_apart: float = 0.5) -> Any:
    changes, variance = np.array([-0.1, 0.0, 0.1]), np.full(3, 0.01)
    group = Group("spin", [0, 1, 2], shrink(changes, variance), None)
    return _shrunk(group, 0, p_apart, 0.05)


@pytest.mark.parametrize(
    ("difference", "ends", "moved"),
    [
        (0.4, (0.02, 0.2), True),
        (0.4, (0.0, 0.2), False),
        (0.4, (-0.02, 0.2), False),
        (-0.4, (-0.2, -0.02), True),
        (-0.4, (-0.2, 0.0), False),
        (-0.4, (0.02, 0.2), False),
        (0.4, (-0.2, -0.02), False),
    ],
)
def test_a_player_moved_whose_drawn_interval_is_clear_of_none_on_her_own_side(
    difference: float, ends: tuple[float, float], moved: bool
):
    told = effect(difference / 4, difference)
    player = answer(Player, "b.economy.q", effect=told, shrunk=shrunk(*ends))
    judged([player])
    assert player.shrunk.moved is moved


def test_apart_is_under_the_level_and_not_at_it():
    """As every other p is asked."""
    assert [_drawn(p).apart for p in (0.0499, 0.05, 0.0501)] == [True, False, False]


def test_a_point_of_one_ball_is_a_point():
    days = [date(2020, 6, at) for at in (1, 2, 3)]
    points = Points(
        ["a", "b", "c"], np.ones(3), np.array([1.0, 0.0, 9.0]), days, days, np.arange(3.0)
    )
    assert points.kept().labels == ["a", "c"] and points.undefined


@pytest.mark.parametrize(("innings", "stretch"), [(0, Stretch(3, "season")), (7, None), (0, None)])
def test_no_season_is_made_of_no_innings(innings: int, stretch: Stretch | None):
    """A number of innings a season is felt only where there is one."""
    assert _a_season(innings, stretch) is None
    assert _a_season(7, Stretch(2, "season")) == (4, 1, "innings", "season")
    assert _a_season(7, Stretch(2.5, "year")) == (3, 1, "innings", "year")
    assert _a_season(1, Stretch(9, "year")) is None


@pytest.mark.parametrize(
    ("value", "error", "told"),
    [
        (0.5, 0.1, True),
        (0.1, 0.1, False),
        (0.5, np.inf, False),
        (0.5, 0.0, False),
        (1e-12, 1e-15, False),
    ],
)
def test_a_part_is_told_only_where_it_has_an_error_and_is_no_rounding(
    value: float, error: float, told: bool
):
    """Of a ratio of one: what is under a thousand-millionth of it is none."""
    part = Estimate(np.array([value]), np.array([error]), np.array([30.0]))
    assert Split(part, part, part, level=1.0).told(part) is told


LEVELS = [0.9, 0.95, 0.99, 0.999, 1 - 499.97 / (DRAWS + 1), 1 - 499 / (DRAWS + 1)]


@pytest.mark.parametrize("level", LEVELS)
def test_a_steps_interval_counts_draws_as_its_p_does(level: float):
    """A step stays in with the fewest worse draws at which a p would not be under the level."""
    series = stepped(1, 0.05)
    hits = np.arange(DRAWS)
    (fewest, *_) = hits[(hits + 1) / (DRAWS + 1) >= 1 - level - 1e-12]
    assert _Asked(series, turning_point(series), level).place == fewest


@pytest.mark.parametrize("size", [0.3, -0.3])
def test_a_step_that_is_sure_has_both_ends_on_its_own_side(size: float):
    series = stepped(2, size, noise=0.01)
    found = turning_point(series)
    low, high = step_interval(series, found)
    assert found.p < 0.001 and low <= found.step <= high
    assert (low > 0) if size > 0 else (high < 0)


def test_a_gap_has_its_groups_cautions_and_not_their_checks():
    """Few matches of either group are few of the gap; its own shuffling is told by itself."""
    rng = np.random.default_rng(4)
    groups = []
    for _ in "ab":
        x = rng.integers(40, 90, (2, 10, 1)).astype(float)
        a, b = (Sums((each * rng.lognormal(0, 0.1, (10, 1))).round(), each, each > 0) for each in x)
        groups.append(paired(a, b))
    (found,) = gap_changes(*groups, scale("rate"), STATISTICS)
    assert found.effect and [type(note).__name__ for note in found.notes] == ["FewMatches"]


@pytest.mark.parametrize("lacking", ["se_log", "df", "detectable_change"])
def test_what_could_be_told_in_per_cent_is_not_made_of_half_its_numbers(lacking: str):
    """Of matches there may be no logarithm; what could be told in points is there all the same."""
    told = effect(0.1, 8.0, **{lacking: None})
    before = told.detectable_change
    _seen(told, 0.01)
    assert told.detectable_change == before
    assert told.detectable_difference == pytest.approx(float(detectable(told.se, 198.0, 0.01)))

"""One mix for both windows, over what both have; and a change shared out among three factors."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.significance.methods import ratio
from pipeline.significance.methods.clusters import gathered
from pipeline.significance.methods.like_for_like import like_for_like, parts, three_factors
from pipeline.significance.methods.ratio import Sums

# Das Gupta 1993, example 4.5: seven age groups in 1960 and 1970, as R's DasGuptR has it.
BEFORE = (
    np.array([393, 407, 369, 274, 184, 90, 16.0]),
    np.array([0.122, 0.622, 0.903, 0.930, 0.916, 0.873, 0.800]),
    np.array([0.043, 0.041, 0.036, 0.032, 0.026, 0.020, 0.018]),
)
LATER = (
    np.array([488, 452, 338, 156, 63, 22, 3.0]),
    np.array([0.082, 0.527, 0.866, 0.941, 0.942, 0.923, 0.876]),
    np.array([0.058, 0.038, 0.032, 0.030, 0.026, 0.023, 0.019]),
)


def changes(found) -> list[float]:
    return [float(of.after - of.before) for of in found]


def test_das_gupta_1993_example_4_5():
    """Parts -7.285632, -2.720633 and -1.565181 of 38.77463 to 27.20318, and their ends."""
    found = three_factors(BEFORE, LATER)
    published = [-7.285632, -2.720633, -1.565181]
    assert changes(found) == pytest.approx(published, abs=5e-7)
    assert sum(changes(found)) == pytest.approx(27.20318 - 38.77463, abs=1e-5)
    assert [float(of.before) for of in found] == pytest.approx(
        [36.72867, 34.47028, 33.83095], abs=5e-6
    )
    assert [float(of.after) for of in found] == pytest.approx(
        [29.44304, 31.74965, 32.26577], abs=5e-6
    )


def test_das_gupta_1993_example_2_3():
    """One cell: 12.51747 to 32.84534 by 10.4340333, 10.5608476 and -.6670084."""
    first = tuple(np.array([value]) for value in (51.78746, 0.45919, 0.52638))
    second = tuple(np.array([value]) for value in (84.90502, 0.75756, 0.51065))
    published = [10.4340333, 10.5608476, -0.6670084]
    assert changes(three_factors(first, second)) == pytest.approx(published, abs=5e-8)


def test_any_rate_may_be_split():
    """Not a product, and not alike in its factors: the mean over the six orders of changing."""

    def rate(share: np.ndarray, up: np.ndarray, down: np.ndarray) -> np.ndarray:
        return (share * up).sum(-1) / (share * down**2).sum(-1)

    found = changes(three_factors(BEFORE, LATER, rate))
    for place in range(3):
        moved = []
        for order in permutations(range(3)):
            gone = order[: order.index(place)]
            now = [LATER[at] if at in gone else BEFORE[at] for at in range(3)]
            then = [LATER[at] if at == place else now[at] for at in range(3)]
            moved.append(rate(*then) - rate(*now))
        assert found[place] == pytest.approx(np.mean(moved), rel=1e-12)


@given(seed=st.integers(0, 999), cells=st.integers(1, 5))
@settings(max_examples=40, deadline=None)
def test_parts_add_up_turn_round_and_follow_their_factors(seed: int, cells: int):
    rng = np.random.default_rng(seed)
    first, second = (tuple(rng.uniform(0, 2, (3, cells))) for _ in range(2))
    found = changes(three_factors(first, second))
    whole = np.prod(second, axis=0).sum() - np.prod(first, axis=0).sum()
    assert sum(found) == pytest.approx(whole, abs=1e-12)
    assert changes(three_factors(second, first)) == pytest.approx([-x for x in found], abs=1e-12)
    assert changes(three_factors(first[::-1], second[::-1])) == pytest.approx(found[::-1])
    still = (first[0], *second[1:])
    assert changes(three_factors(first, still))[0] == 0


def window(rng: np.random.Generator, matches: int, rates: np.ndarray, mix: np.ndarray) -> Sums:
    """Matches with balls in every cell as the mix has it, and runs at the cells' rates."""
    x = rng.poisson(300 * mix, (matches, len(mix))).astype(float)
    y = x * rates * np.exp(rng.normal(0, 0.1, (matches, 1)))
    return Sums(y, x, x > 0)


EVEN, LEANING = np.array([0.4, 0.4, 0.2]), np.array([0.1, 0.5, 0.4])
RATES = np.array([0.6, 0.9, 1.4])


def factors_of(sums: Sums) -> tuple:
    """(mix, rate, balls a match) of a window, and the same without each of its matches."""
    y, x = sums.y.sum(0), sums.x.sum(0)

    def made(y, x, matches):
        balls = x.sum(-1, keepdims=True)
        return x / balls, y / x, np.broadcast_to(balls / matches, x.shape)

    return made(y, x, len(sums.y)), made(y - sums.y, x - sums.x, len(sums.y) - 1)


def test_errors_of_the_three_parts_are_as_large_as_they_should_be():
    """Runs a match = balls x mix x rates: intervals hold the truth nineteen times in twenty."""
    rng = np.random.default_rng(1)
    held, truth = np.zeros(3), None
    for _ in range(400):
        a, b = window(rng, 25, RATES, EVEN), window(rng, 20, RATES * 1.1, LEANING)
        found = parts((a, b), factors_of(a), factors_of(b))
        if truth is None:
            ends = [
                (mix, rates * np.exp(0.005), 300.0)
                for mix, rates in ((EVEN, RATES), (LEANING, RATES * 1.1))
            ]
            truth = np.array(changes(three_factors(*ends)))
        bounds = np.array([part.interval(0.95) for part in found])[:, :, 0]
        held += (bounds[:, 0] < truth) & (truth < bounds[:, 1])
    assert np.all((held > 366) & (held < 393))


def test_parts_add_up_to_the_change_with_its_own_error():
    rng = np.random.default_rng(2)
    a, b = window(rng, 9, RATES, EVEN), window(rng, 8, RATES, LEANING)
    found = parts((a, b), factors_of(a), factors_of(b))
    whole = b.y.sum() / 8 - a.y.sum() / 9
    assert sum(part.value[0] for part in found) == pytest.approx(whole, abs=1e-10)
    assert all(part.se[0] > 0 and 7 <= part.df[0] <= 15 for part in found)
    same = parts((a, a), factors_of(a), factors_of(a))
    assert [part.value[0] for part in same] == [0, 0, 0]


def test_berkeley_like_for_like():
    """Bickel, Hammel & O'Connell 1975: admitted 44.5 % of men and 30.4 % of women (from memory);
    like for like, women a little more often."""
    admitted = np.array([[512, 353, 120, 138, 53, 22], [89, 17, 202, 131, 94, 24]], float)
    refused = np.array([[313, 207, 205, 279, 138, 351], [19, 8, 391, 244, 299, 317]], float)
    asked = admitted + refused
    men, women = (Sums(admitted[[row]], asked[[row]], np.ones((1, 6), bool)) for row in range(2))
    assert [100 * side.y.sum() / side.x.sum() for side in (men, women)] == pytest.approx(
        [44.5, 30.4], abs=0.05
    )
    found = like_for_like(men, women)
    share = (asked / asked.sum(1, keepdims=True)).mean(0)
    assert found.ends.after == pytest.approx((share * admitted[1] / asked[1]).sum())
    assert found.units.value[0] == pytest.approx(
        (share * (admitted / asked)[1] - share * (admitted / asked)[0]).sum()
    )
    assert found.units.value[0] > 0.02


def test_das_gupta_1993_example_5_1():
    """Householder rates of 1970 and 1985 at one mix: the rate part, 1.7403, from 45.3309."""
    size = [
        [12.9, 10.9, 9.5, 8, 7.8, 8.4, 8.6, 7.8, 7, 5.9, 4.7, 3.6, 4.9],
        [10.1, 11.2, 11.6, 10.9, 9.4, 7.7, 6.3, 6, 6.3, 5.9, 5.1, 4, 5.5],
    ]
    rate = [
        [1.9, 25.8, 45.7, 49.6, 51.2, 51.6, 51.8, 54.9, 58.7, 60.4, 62.8, 66.6, 66.8],
        [2.2, 24.3, 45.8, 52.5, 56.1, 55.6, 56, 57.4, 57.2, 61.2, 63.9, 68.6, 72.2],
    ]
    x, r = np.array(size), np.array(rate)
    sides = [Sums((x * r)[[row]], x[[row]], np.ones((1, 13), bool)) for row in range(2)]
    found = like_for_like(*sides)
    assert float(found.ends.before) == pytest.approx(45.3309, abs=5e-5)
    assert float(found.ends.after) == pytest.approx(47.0712, abs=5e-5)
    assert found.units.value[0] == pytest.approx(1.7403, abs=5e-5)


def test_cells_of_one_window_only_are_left_out_and_told():
    rng = np.random.default_rng(3)
    a, b = window(rng, 12, RATES, EVEN), window(rng, 12, 1.2 * RATES, LEANING)
    a.x[:, 2], a.y[:, 2] = 0, 0
    found = like_for_like(a, b)
    assert list(found.cells) == [True, True, False]
    assert float(found.kept.before) == 1
    assert float(found.kept.after) == pytest.approx(b.x[:, :2].sum() / b.x.sum())
    both = [Sums(*(each[:, :2] for each in side)) for side in (a, b)]
    alone = like_for_like(*both)
    for own, other in ((found.log, alone.log), (found.units, alone.units)):
        for one, two in zip(vars(own).values(), vars(other).values(), strict=True):
            assert one == pytest.approx(two, rel=1e-12)
    assert found.log.value[0] == pytest.approx(np.log(1.2), abs=0.12)
    back = like_for_like(b, a)
    assert list(back.cells) == [True, True, False] and float(back.kept.after) == 1
    b.x[:, 0], b.x[0, 0] = 0, 1  # one ball is enough to be met
    assert like_for_like(a, b).cells[0]
    a.x[:, :2] = 0
    assert like_for_like(a, b) is None


def test_a_mix_that_moves_is_no_change():
    """The crude rate goes up by a third with no rate of its own gone up; like for like it holds."""
    rng = np.random.default_rng(4)
    held, crude = 0, 0
    for _ in range(400):
        a, b = window(rng, 25, RATES, EVEN), window(rng, 20, RATES, LEANING)
        low, high = like_for_like(a, b).log.interval(0.95)
        held += low[0] < 0 < high[0]
        whole = [Sums(s.y.sum(1)[:, None], s.x.sum(1)[:, None], s.here[:, :1]) for s in (a, b)]
        crude += ratio.change(*whole).p_value()[0] < 0.05
    assert 367 < held < 393
    assert crude == 400


def test_one_cell_is_the_change_itself():
    rng = np.random.default_rng(5)
    a, b = (window(rng, n, np.array([0.8]), np.array([1.0])) for n in (9, 7))
    found = like_for_like(a, b)
    for own, log in ((found.log, True), (found.units, False)):
        plain = ratio.change(a, b, log)
        for one, other in zip(vars(own).values(), vars(plain).values(), strict=True):
            assert one == pytest.approx(other, rel=1e-12)


def test_a_cell_that_hangs_on_one_match_goes_with_it():
    """Without that match the cell is in neither window: by leaving out and doing all again."""
    rng = np.random.default_rng(6)
    a, b = window(rng, 6, RATES, EVEN), window(rng, 6, 1.3 * RATES, LEANING)
    a.x[1:, 2], a.y[1:, 2] = 0, 0
    found = like_for_like(a, b)
    again = []
    for side in range(2):
        for match in range(6):
            rest = [a, b]
            rest[side] = Sums(*(np.delete(each, match, axis=0) for each in rest[side]))
            again.append(like_for_like(*rest).log.value[0])
    spread = [5 / 6 * np.sum((half - np.mean(half)) ** 2) for half in (again[:6], again[6:])]
    assert found.log.se[0] == pytest.approx(np.sqrt(sum(spread)))
    assert found.cells.all() and not like_for_like(Sums(*(e[1:] for e in a)), b).cells[2]


def test_rows_may_be_clusters():
    """Grounds as rows, each of two matches: fewer degrees of freedom, the same change."""
    rng = np.random.default_rng(7)
    a, b = (window(rng, 12, RATES, EVEN) for _ in range(2))
    labels = np.repeat(np.arange(6), 2)
    by_ground = like_for_like(gathered(a, labels), gathered(b, labels))
    by_match = like_for_like(a, b)
    assert by_ground.log.value == pytest.approx(by_match.log.value)
    assert 5 <= by_ground.log.df[0] <= 10 < by_match.log.df[0]


@given(seed=st.integers(0, 999))
@settings(max_examples=30, deadline=None)
def test_windows_swap_and_the_order_of_matches_is_nothing(seed: int):
    rng = np.random.default_rng(seed)
    a, b = window(rng, 7, RATES, EVEN), window(rng, 9, RATES, LEANING)
    order = rng.permutation(7)
    found, back = like_for_like(a, b), like_for_like(b, a)
    mixed = like_for_like(Sums(*(each[order] for each in a)), b)
    for other, sign in ((back, -1), (mixed, 1)):
        for own, one in ((found.log, other.log), (found.units, other.units)):
            assert one.value == pytest.approx(sign * own.value, abs=1e-12)
            assert one.se == pytest.approx(own.se, rel=1e-9)

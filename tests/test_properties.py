"""What every implementation of these methods must show, whatever the data."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec
import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.significance.arrays import Pair
from pipeline.significance.change import compare
from pipeline.significance.methods import inference, permutation, ratio
from pipeline.significance.methods.ratio import Estimate, Sums
from pipeline.significance.methods.refusal import refusals
from tests.view_makers import STATISTICS, scale

SEEDS = st.integers(0, 10**6)


def matches(seed: int, count: int, level: float = 0.8) -> Sums:
    """Invented match totals of one cell: unequal sizes, a match effect."""
    rng = np.random.default_rng(seed)
    x = rng.integers(30, 300, count)
    y = rng.poisson(x * level * rng.lognormal(0, 0.1, count))
    y[0] += 1
    return Sums(y[:, None].astype(float), x[:, None].astype(float), np.ones((count, 1), bool))


EXAMPLES = settings(max_examples=25, deadline=None)


def one_cell(y: np.ndarray, x: np.ndarray) -> Sums:
    """Columns of match totals, every row a match of the cell."""
    totals = (np.asarray(part, float)[:, None] for part in (y, x))
    return Sums(*totals, np.ones((len(y), 1), bool))


def invented(seed: int, level: float = 0.8) -> Sums:
    """Five to forty matches of one cell with a match effect, every total above nothing."""
    rng = np.random.default_rng(seed)
    x = rng.integers(30, 300, rng.integers(5, 41))
    return one_cell(1 + rng.poisson(x * level * rng.lognormal(0, 0.1, len(x))), x)


def same(found: Estimate, expected: Estimate) -> None:
    for ours, theirs in zip(vars(found).values(), vars(expected).values(), strict=True):
        assert ours == pytest.approx(theirs, rel=1e-7, abs=1e-10)


def test_every_match_twice_shrinks_the_linearised_error():
    sums = invented(1)
    twice, count = Sums(*(np.tile(part, (2, 1)) for part in sums)), len(sums.y)
    assert ratio.ratio(twice) == pytest.approx(ratio.ratio(sums), rel=1e-12)
    factor = np.sqrt((count - 1) / (2 * count - 1))
    assert ratio.linearised_se(twice) == pytest.approx(ratio.linearised_se(sums) * factor)


def test_equal_matches_give_the_mean_and_its_standard_error():
    values = np.random.default_rng(2).normal(10, 2, 23)
    found = ratio.plain_ratio(one_cell(values, np.ones(23)))
    assert found.value[0] == pytest.approx(values.mean(), rel=1e-12)
    assert found.se[0] == pytest.approx(values.std(ddof=1) / np.sqrt(23), rel=1e-9)


@EXAMPLES
@given(seed=SEEDS, log=st.booleans())
def test_swapping_the_windows_flips_the_value_and_keeps_p(seed: int, log: bool):
    a, b = invented(seed), invented(seed + 1, 0.9)
    there, back = ratio.change(a, b, log), ratio.change(b, a, log)
    same(Estimate(-back.value, back.se, back.df), there)
    assert back.p_value() == pytest.approx(there.p_value(), rel=1e-9)


@pytest.mark.parametrize("scale", [0.01, 6.0, 100.0])
def test_scaling_the_numerator_changes_nothing(scale: float):
    a, b = invented(3), invented(4, 0.9)
    scaled = ratio.change(a._replace(y=a.y * scale), b._replace(y=b.y * scale))
    same(scaled, ratio.change(a, b))
    assert scaled.p_value() == pytest.approx(ratio.change(a, b).p_value(), rel=1e-7)


@EXAMPLES
@given(seed=SEEDS, log=st.booleans())
def test_the_order_of_matches_changes_nothing(seed: int, log: bool):
    a, b, rng = invented(seed), invented(seed + 1), np.random.default_rng(seed)
    orders = [rng.permutation(len(sums.y)) for sums in (a, b)]
    mixed = [Sums(*(part[o] for part in s)) for s, o in zip((a, b), orders, strict=True)]
    same(ratio.change(*mixed, log), ratio.change(a, b, log))
    assert ratio.linearised_se(mixed[0]) == pytest.approx(ratio.linearised_se(a), rel=1e-9)


def test_holm_is_at_least_benjamini_hochberg():
    rng = np.random.default_rng(5)
    for count in (1, 2, 15, 200):
        p = rng.random(count) ** 3
        assert (inference.holm(p) >= inference.benjamini_hochberg(p) - 1e-15).all()


@EXAMPLES
@given(seed=SEEDS)
def test_equivalent_exactly_when_the_interval_is_inside(seed: int):
    found = ratio.change(invented(seed), invented(seed + 1))
    low, high = found.interval(0.90)
    widest = max(abs(low[0]), abs(high[0]))
    for margin in (0.5 * widest, 0.999 * widest, 1.001 * widest, 2 * widest):
        p = inference.tost(found, np.array([-margin]), np.array([margin]))[0]
        assert (p < 0.05) == (-margin < low[0] and high[0] < margin)


@EXAMPLES
@given(seed=SEEDS)
def test_linearised_error_is_that_of_a_clustered_regression(seed: int):
    """statsmodels' factor G/(G-1) * (N-1)/(N-K) is our G/(G-1): N = G rows and K = 1."""
    sums = invented(seed)
    y, x, ones = sums.y[:, 0], sums.x[:, 0], np.ones(len(sums.y))
    model = sm.GLM(y, ones, family=sm.families.Poisson(), offset=np.log(x))
    clusters = {"groups": np.arange(len(y)), "use_correction": True}
    fit = model.fit(cov_type="cluster", cov_kwds=clusters, tol=1e-14)
    assert fit.params[0] == pytest.approx(np.log(ratio.ratio(sums)[0]), abs=1e-8)
    assert fit.bse[0] == pytest.approx(ratio.linearised_se(sums)[0], rel=1e-8)


@pytest.mark.parametrize("effect", [1.0, 1.1, 3.0])
def test_permutation_between_windows_is_bounded_and_repeats(effect: float):
    a, b = invented(6), invented(7, 0.8 * effect)
    blocks = np.arange(len(a.y) + len(b.y)) % 2
    draw = [
        permutation.permute_windows(a, b, blocks, 199, np.random.default_rng(8))[0] for _ in "12"
    ]
    assert 1 / 200 <= draw[0] <= 1 and draw[0] == draw[1]


@pytest.mark.parametrize("effect", [1.0, 1.1, 3.0])
def test_permutation_within_matches_is_bounded_and_repeats(effect: float):
    a = invented(9)
    b = a._replace(y=np.random.default_rng(10).poisson(a.y * effect) + 1.0)
    draw = [permutation.permute_within(a, b, 199, np.random.default_rng(8))[0] for _ in "12"]
    assert 1 / 200 <= draw[0] <= 1 and draw[0] == draw[1]


def test_a_block_never_loses_or_gains_a_side():
    side, blocks = np.repeat([False, True], 10), np.tile([0, 1], 10)
    dealt = permutation._shuffled(side, blocks, 50, np.random.default_rng(2))
    for block in (0, 1):
        assert (dealt[:, blocks == block].sum(1) == side[blocks == block].sum()).all()
    assert len({row.tobytes() for row in dealt}) > 40  # every draw is dealt anew
    assert abs(dealt.mean(0) - 0.5).max() < 0.3  # and no match keeps its side


def test_shared_matches_cancel_what_they_share():
    """A match effect on both groups widens each value's interval and not the gap's."""
    effect = np.exp(np.random.default_rng(4).normal(0, 0.3, 80))[:, None]
    x, here = np.full((80, 1), 100.0), np.ones((80, 1), bool)
    a, b = Sums(80 * effect, x, here), Sums(88 * effect, x, here)
    together, apart = ratio.change_within(a, b), ratio.change(a, b)
    assert together.se[0] < apart.se[0] / 100
    assert np.exp(together.value[0]) == pytest.approx(1.1)


def pair(a: Sums, b: Sums) -> Pair:
    blocks = np.zeros(len(a.y) + len(b.y), int)
    return Pair(a, b, a.x, b.x, blocks, False)


@pytest.mark.parametrize(
    ("a", "reason"),
    [
        (matches(1, 5), "few_matches"),
        (matches(1, 30)._replace(y=np.zeros((30, 1))), "none_counted"),
        (matches(1, 30)._replace(y=np.eye(30)[:, :1]), "one_match_holds_all"),
        (matches(1, 30)._replace(here=np.zeros((30, 1), bool)), "no_balls"),
        (matches(1, 30)._replace(x=np.r_[1e6, np.ones(29)][:, None]), "few_effective"),
    ],
)
def test_refusals_have_a_reason_and_no_interval(a: Sums, reason: str):
    assert refusals(a, 6) == [reason]
    (found,) = compare(pair(a, matches(2, 30)), scale(), STATISTICS)
    assert found.refused == reason and found.effect is None
    assert (found.a.refused, found.a.low, found.a.high) == (reason, None, None)


@given(seed=SEEDS, count=st.integers(1, 12))
@settings(max_examples=30, deadline=None)
def test_no_finding_holds_an_undefined_number(seed: int, count: int):
    a = matches(seed, count)
    a.y[:] = np.where(np.random.default_rng(seed).random(a.y.shape) < 0.7, 0, a.y)
    (found,) = compare(pair(a, matches(seed + 1, 12)), scale(), STATISTICS)
    told = msgspec.to_builtins([found.a, found.b, found.effect, found.notes])
    numbers = list(floats(told))
    assert len(numbers) >= 2 and np.isfinite(numbers).all()
    assert bool(found.refused) is (found.effect is None)


def floats(value: object) -> Iterator[float]:
    """Every number with a fraction in plain data."""
    if isinstance(value, float):
        yield value
    elif isinstance(value, dict | list):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from floats(inner)

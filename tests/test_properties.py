"""What every implementation of these methods must show, whatever the data."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.significance import inference, ratio
from pipeline.significance.compare import compare
from pipeline.significance.frames import Pair
from pipeline.significance.ratio import Sums
from pipeline.significance.refusal import refusals

SEEDS = st.integers(0, 10**6)
COUNTS = st.integers(6, 60)
STATISTICS = {"least_matches": 6, "few_matches": 20, "permutations": 99}
MEASURE = {"per": 6, "kind": "rate", "margin": {"size": 5.0, "unit": "percent"}}


def matches(seed: int, count: int, level: float = 0.8) -> Sums:
    """Invented match totals of one cell: unequal sizes, a match effect."""
    rng = np.random.default_rng(seed)
    x = rng.integers(30, 300, count)
    y = rng.poisson(x * level * rng.lognormal(0, 0.1, count))
    y[0] += 1
    return Sums(y[:, None].astype(float), x[:, None].astype(float), np.ones((count, 1), bool))


@given(seed=SEEDS, count=COUNTS)
def test_every_match_twice_leaves_the_ratio_and_shrinks_the_error(seed: int, count: int):
    once = matches(seed, count)
    twice = Sums(*(np.concatenate([part, part]) for part in once))
    assert ratio.ratio(twice) == pytest.approx(ratio.ratio(once))
    factor = np.sqrt((count - 1) / (2 * count - 1))
    assert ratio.linearised_se(twice) == pytest.approx(ratio.linearised_se(once) * factor)


@given(seed=SEEDS, count=COUNTS)
def test_equal_denominators_give_the_mean_and_its_error(seed: int, count: int):
    values = np.random.default_rng(seed).normal(10, 2, count)
    estimate = ratio.plain_ratio(
        Sums(values[:, None], np.ones((count, 1)), np.ones((count, 1), bool))
    )
    assert estimate.value[0] == pytest.approx(values.mean())
    assert estimate.se[0] == pytest.approx(values.std(ddof=1) / np.sqrt(count))


@given(seed=SEEDS, count=COUNTS, scale=st.floats(0.1, 50))
def test_swapping_flips_and_scaling_changes_nothing(seed: int, count: int, scale: float):
    a, b = matches(seed, count), matches(seed + 1, count + 3, 0.9)
    there, back = ratio.change(a, b), ratio.change(b, a)
    assert there.value == pytest.approx(-back.value)
    assert there.p_value() == pytest.approx(back.p_value())
    scaled = ratio.change(a._replace(y=a.y * scale), b._replace(y=b.y * scale))
    assert scaled.value == pytest.approx(there.value, abs=1e-9)
    assert scaled.p_value() == pytest.approx(there.p_value())


@given(seed=SEEDS, count=COUNTS)
def test_the_order_of_matches_changes_nothing(seed: int, count: int):
    sums = matches(seed, count)
    order = np.random.default_rng(seed).permutation(count)
    shuffled = Sums(*(part[order] for part in sums))
    assert ratio.log_ratio(shuffled).se == pytest.approx(ratio.log_ratio(sums).se)


@given(seed=SEEDS, count=COUNTS, margin=st.floats(0.01, 0.4))
def test_inside_the_margin_if_and_only_if_both_tests_pass(seed: int, count: int, margin: float):
    found = ratio.change(matches(seed, count), matches(seed + 7, count))
    low, high = found.interval(0.90)
    inside = bool(low[0] > -margin and high[0] < margin)
    assert inside == bool(inference.tost(found, np.float64(-margin), np.float64(margin))[0] < 0.05)


@given(values=st.lists(st.floats(0, 1), min_size=1, max_size=30))
def test_holm_is_never_under_benjamini_hochberg(values: list[float]):
    p = np.array(values)
    holm, bh = inference.holm(p), inference.benjamini_hochberg(p)
    assert (holm >= bh - 1e-12).all() and (bh >= p - 1e-12).all() and (holm <= 1).all()


@given(seed=SEEDS, count=COUNTS)
@settings(max_examples=20, deadline=None)
def test_linearised_error_agrees_with_a_clustered_regression(seed: int, count: int):
    """statsmodels: Poisson GLM of y on a constant, offset log x, clusters = matches."""
    import statsmodels.api as sm

    sums = matches(seed, count)
    y, x = sums.y[:, 0], sums.x[:, 0]
    model = sm.GLM(y, np.ones(count), family=sm.families.Poisson(), offset=np.log(x))
    covariance = {"groups": np.arange(count), "use_correction": False}
    fit = model.fit(cov_type="cluster", cov_kwds=covariance, tol=1e-12)
    factor = np.sqrt(count / (count - 1))
    assert ratio.linearised_se(sums)[0] == pytest.approx(fit.bse[0] * factor, rel=1e-6)


@given(seed=SEEDS)
@settings(max_examples=15, deadline=None)
def test_permutation_p_values_are_never_zero_and_repeat(seed: int):
    a, b = matches(seed, 20), matches(seed + 3, 25, 1.6)
    blocks = np.zeros(45, int)
    first, again = (
        inference.permute_windows(a, b, blocks, 99, np.random.default_rng(5)) for _ in range(2)
    )
    assert 0.01 <= first[0] <= 1 and first[0] == again[0]


def test_a_block_never_loses_or_gains_a_side():
    side, blocks = np.repeat([False, True], 10), np.tile([0, 1], 10)
    dealt = inference._shuffle(side, blocks, np.random.default_rng(2))
    for block in (0, 1):
        assert dealt[blocks == block].sum() == side[blocks == block].sum()


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
    return Pair(a, b, a.x.sum(0), b.x.sum(0), blocks, False)


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
    (found,) = compare(pair(a, matches(2, 30)), MEASURE, STATISTICS)
    assert found["refused"] == reason and found["p"] is None and found["change_low"] is None


@given(seed=SEEDS, count=st.integers(1, 12))
@settings(max_examples=30, deadline=None)
def test_no_finding_holds_an_undefined_number(seed: int, count: int):
    a = matches(seed, count)
    a.y[:] = np.where(np.random.default_rng(seed).random(a.y.shape) < 0.7, 0, a.y)
    (found,) = compare(pair(a, matches(seed + 1, 12)), MEASURE, STATISTICS)
    numbers = [v for part in (found, found["a"], found["b"]) for v in part.values()]
    assert all(np.isfinite(v) for v in numbers if isinstance(v, float))
    assert found["refused"] or found["p"] is not None

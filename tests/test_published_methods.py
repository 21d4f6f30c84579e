"""More published examples through the project's own functions: permutation, shrinkage, steps."""

from __future__ import annotations

import numpy as np
import pytest
import scipy.stats
import statsmodels.api as sm
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from statsmodels.stats.proportion import confint_proportions_2indep

from pipeline.significance.methods import inference, permutation, ratio
from pipeline.significance.methods.drift import of_gaps, of_rates, step_and_drift
from pipeline.significance.methods.fieller import share_of
from pipeline.significance.methods.ratio import Estimate, Sums
from pipeline.significance.methods.shrinkage import heterogeneity, paule_mandel, shrink

# Darwin 1876, maize: heights in inches of crossed and self-fertilised plants, fifteen pairs
# (values from memory; their differences in eighths are those of Fisher 1935).
CROSSED = [23.5, 12, 21, 22, 19.125, 21.5, 22.125, 20.375, 18.25, 21.625, 23.25, 21, 22.125, 23, 12]
SELFED = [
    *(17.375, 20.375, 20, 20, 18.375, 18.625, 18.625, 15.25, 16.5, 18, 16.25, 18, 12.75, 15.5, 18),
]
# Efron & Tibshirani 1993, table 2.1: survival of treated and control mice, in days.
TREATED = [94, 197, 16, 38, 99, 141, 23]
CONTROL = [52, 104, 146, 10, 50, 31, 40, 27, 46]


def mean(values: list[float]) -> Sums:
    y = np.array(values, float)[:, None]
    return Sums(y, np.ones_like(y), np.ones_like(y, bool))


def test_darwins_maize_differences():
    """Fisher 1935, section 3: differences in eighths, their sum 314, t 2.148 (from memory)."""
    eighths = 8 * (np.array(CROSSED) - SELFED)
    assert list(eighths) == [49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48]
    assert eighths.sum() == 314
    found = ratio.change_within(mean(SELFED), mean(CROSSED), log=False)
    assert found.value[0] / found.se[0] == pytest.approx(2.148, abs=5e-4)


def test_darwins_maize_shuffled():
    """Fisher 1935, section 21: 863 of 32,768 sign changes reach 314, so p is 1726 in 32,768.

    (from memory.) Ours draws the signs at random and studentises the log: near it, not at it.
    """
    found = permutation.permute_within(
        mean(SELFED), mean(CROSSED), 20_000, np.random.default_rng(1)
    )
    assert found[0] == pytest.approx(2 * 863 / 32768, abs=0.01)


def test_mouse_data():
    """Efron & Tibshirani 1993: difference 30.63, t test 0.141 one-sided (from memory), permutation
    1,608 in 11,440 one-sided (computed: no outside authority)."""
    a, b = mean(CONTROL), mean(TREATED)
    found = ratio.change(a, b, log=False)
    assert found.value[0] == pytest.approx(30.63, abs=6e-3)
    assert found.p_value()[0] / 2 == pytest.approx(0.141, abs=0.02)  # theirs pools the variance
    blocks = np.zeros(16, int)
    p = permutation.permute_windows(a, b, blocks, 20_000, np.random.default_rng(2))[0]
    assert p == pytest.approx(2 * 1608 / 11440, abs=0.04)  # studentised, on the log


HITS = np.array([18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7.0]) / 45
REST = np.array(
    [
        *(0.346, 0.298, 0.276, 0.222, 0.273, 0.270, 0.263, 0.210, 0.269),
        *(0.230, 0.264, 0.256, 0.303, 0.264, 0.226, 0.285, 0.316, 0.200),
    ]
)


def scaled(share: np.ndarray) -> np.ndarray:
    return np.sqrt(45) * np.arcsin(2 * share - 1)


def test_efron_and_morris_1975_shrinkage():
    """Eighteen batters of another game: the estimator draws in by .791 = 15 / S (from memory).

    Ours solves S / (1 + tau^2) = 17, so it draws in by 17 / S, which is .791 times 17 / 15.
    """
    assert HITS.mean() == pytest.approx(0.265, abs=5e-4)
    found = shrink(scaled(HITS), np.ones(18))
    drawn = 1 - (found.value - found.mean) / (scaled(HITS) - found.mean)
    assert drawn == pytest.approx(np.full(18, 0.791 * 17 / 15), abs=2e-3)


def test_efron_and_morris_1975_loss():
    """Squared error against the rest of the season: 17.56 raw, 5.01 drawn in (from memory).

    Ours draws in a little more than theirs and loses about as much.
    """
    raw, drawn = scaled(HITS), shrink(scaled(HITS), np.ones(18)).value
    truth = scaled(REST)
    assert ((raw - truth) ** 2).sum() == pytest.approx(17.56, abs=0.015)
    assert ((drawn - truth) ** 2).sum() == pytest.approx(5.01, abs=0.3)


def test_paule_and_mandel_never_below_nought():
    """Rubin 1981, eight schools: the untruncated estimate is negative, ours is nought."""
    effect = np.array([28, 8, -3, 7, -1, 1, 18, 12.0])
    variance = np.array([15, 10, 16, 11, 9, 11, 10, 18.0]) ** 2
    assert paule_mandel(effect, variance) == 0.0


def test_cochrans_q_of_the_bcg_trials():
    """Colditz et al. 1994, thirteen trials of a vaccine, as in metafor's dat.bcg: Q 152.23 on 12,
    p < .0001; log risk ratios (counts and Q from memory)."""
    treated = np.array([4, 6, 3, 62, 33, 180, 8, 505, 29, 17, 186, 5, 27.0])
    of = [123, 306, 231, 13598, 5069, 1541, 2545, 88391, 7499, 1716, 50634, 2498, 16913]
    control = np.array([11, 29, 11, 248, 47, 372, 10, 499, 45, 65, 141, 3, 29.0])
    against = [139, 303, 220, 12867, 5808, 1451, 629, 88391, 7277, 1665, 27338, 2341, 17854]
    estimate = np.log(treated / of) - np.log(control / against)
    variance = 1 / treated - 1 / np.array(of) + 1 / control - 1 / np.array(against)
    found = heterogeneity(estimate, variance)
    assert (found.q, found.df) == (pytest.approx(152.2330, abs=5e-4), 12)
    assert found.p < 1e-4
    assert paule_mandel(estimate, variance) == pytest.approx(0.3181, abs=5e-4)


def test_cochrans_q_of_the_eight_schools():
    """Rubin 1981: Q 4.7 on 7, nothing but luck between the schools."""
    effect = np.array([28, 8, -3, 7, -1, 1, 18, 12.0])
    found = heterogeneity(effect, np.array([15, 10, 16, 11, 9, 11, 10, 18.0]) ** 2)
    assert (found.q, found.df, found.p) == (
        pytest.approx(4.7, abs=0.05),
        7,
        pytest.approx(0.7, abs=0.01),
    )


def test_welchs_f_of_two_groups_is_welchs_t():
    """Student's sleep data: F is 1.8608 squared, p .07939."""
    a = np.array([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2.0])
    b = np.array([1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4])
    variance = np.array([each.var(ddof=1) / 10 for each in (a, b)])
    found = heterogeneity(np.array([a.mean(), b.mean()]), variance, np.full(2, 9.0))
    assert found.q == pytest.approx(1.8608**2, abs=1e-3)
    assert found.p == pytest.approx(0.07939, abs=5e-5)


def test_fiellers_interval_of_the_patch_data():
    """Efron & Tibshirani 1993, ch. 25: ratio of means -.0713, 90 % -.249 to .170 (memory)."""
    z = np.array([8406, 2342, 8187, 8459, 4795, 3516, 4796, 10238.0])
    y = np.array([-1200, 2601, -2705, 1982, -1290, 351, -638, -2719.0])
    (of_y, both), (_, of_z) = np.cov(y, z) / 8
    found = share_of(y.mean(), z.mean(), (of_y, of_z), both, scipy.stats.t.ppf(0.95, 7))
    assert found == pytest.approx((-0.0713, -0.249, 0.170), abs=5e-4)
    assert share_of(1.0, 0.1, (0.1, 0.1), 0.0, 2.0) is None


def test_cohen_1988_sample_size():
    """d = .5, power .8, 5 % two-sided: 63.766 a group, 64 in the table (from memory)."""
    found = inference.detectable(np.sqrt(2 / 63.766), 2 * 63.766 - 2, 0.05)
    assert found == pytest.approx(0.5, abs=5e-4)


@pytest.mark.parametrize(("alpha", "near"), [(0.05, 0.01), (0.01, 0.02), (0.0005, 0.05)])
@pytest.mark.parametrize("df", [10, 12, 20, 50, 198])
def test_the_detectable_change_is_nearly_that_of_the_non_central_t(
    df: int, alpha: float, near: float
):
    """The shift of scipy's noncentral t whose lower fifth is the edge of the test."""
    edge = scipy.stats.t.isf(alpha / 2, df)
    exact = brentq(lambda shift: scipy.stats.nct.cdf(edge, df, shift) - 0.2, edge / 2, 2 * edge + 3)
    assert inference.detectable(1.0, df, alpha) == pytest.approx(exact, rel=near)


def test_lopez_bernal_2017_sicily():
    """Heart admissions before and after a smoking ban: a step of .894 beside the trend.

    (Published rate ratio from memory; theirs is a Poisson regression month by month, ours weighted
    least squares of the log rate: the same step to a hundredth.)
    """
    aces = [
        *(728, 659, 791, 734, 757, 726, 760, 740, 720, 814, 795, 858, 887, 766, 851, 769, 781, 756),
        *(766, 752, 765, 831, 879, 928, 914, 808, 937, 840, 916, 828, 845, 818, 860, 839, 887, 886),
        *(831, 796, 833, 820, 877, 758, 767, 738, 781, 843, 850, 908, 1021, 859, 976, 888, 962),
        *(838, 810, 876, 843, 936, 912),
    ]
    people = [
        *(379875.3, 376495.5, 377040.8, 377116.4, 377383.4, 374113.1, 379513.3, 376295.5),
        *(374653.2, 378485.6, 375955.5, 378349.7, 376762.4, 379032.3, 379360.4, 376162.0),
        *(377972.4, 381830.7, 379888.6, 380872.2, 380966.9, 381240.4, 382104.9, 381802.7),
        *(381656.3, 383680.0, 383504.2, 386462.9, 383783.1, 380836.8, 383483.0, 380906.2),
        *(382926.8, 384052.4, 384449.6, 383428.4, 388153.2, 388373.2, 386470.1, 386033.2),
        *(383686.4, 385509.3, 385901.9, 386516.6, 388436.5, 383255.2, 390148.7, 385874.9),
        *(391613.6, 391750.4, 394005.6, 391364.9, 391664.6, 389022.3, 391878.5, 388575.3),
        *(392989.0, 390018.8, 390712.3),
    ]
    months = np.arange(59.0)
    y, x = (np.array(column, float)[:, None] for column in (aces, people))
    step, slope = (one.estimate for one in step_and_drift(of_rates(y, x, months), months >= 36))
    assert np.exp(step.value[0]) == pytest.approx(0.894, abs=0.01)
    assert slope.interval(0.95)[0][0] > 0 and step.p_value()[0] < 0.01


@given(seed=st.integers(0, 5_000), count=st.integers(1, 60))
@settings(max_examples=30, deadline=None)
def test_adjusted_p_values_are_those_of_reference_libraries(seed: int, count: int):
    """scipy.stats.false_discovery_control and statsmodels' Holm, on random p-values with ties."""
    p = np.round(np.random.default_rng(seed).random(count) ** 2, 2)
    assert inference.benjamini_hochberg(p) == pytest.approx(scipy.stats.false_discovery_control(p))
    wanted = sm.stats.multipletests(p, method="holm")[1]
    assert inference.holm(p) == pytest.approx(wanted)


def test_no_family_has_no_adjusted_values():
    assert len(inference.benjamini_hochberg(np.array([]))) == len(inference.holm(np.array([]))) == 0


@given(seed=st.integers(0, 5_000))
@settings(max_examples=60, deadline=None)
def test_distributions_are_those_of_a_reference_library(seed: int):
    """scipy.stats.t: intervals and p-values of an estimate, and of two one-sided tests."""
    rng = np.random.default_rng(seed)
    value, se, df = rng.normal(0, 1, 5), rng.uniform(0.1, 2, 5), rng.uniform(3, 300, 5)
    found = Estimate(value, se, df)
    t = scipy.stats.t
    assert found.p_value() == pytest.approx(2 * t.sf(np.abs(value) / se, df), rel=1e-9)
    low, high = found.interval(0.95)
    half = t.ppf(0.975, df) * se
    assert low == pytest.approx(value - half) and high == pytest.approx(value + half)
    edge = np.full(5, 0.7)
    both = np.maximum(t.sf((value + edge) / se, df), t.cdf((value - edge) / se, df))
    assert inference.tost(found, -edge, edge) == pytest.approx(both)


@pytest.mark.parametrize(
    ("a", "m", "b", "n"), [(5, 12, 9, 12), (56, 70, 48, 80), (1, 29, 4, 31), (10, 10, 3, 20)]
)
def test_proportions_differ_as_a_reference_library_s_interval_does(a: int, m: int, b: int, n: int):
    """statsmodels' Newcombe interval, halved until its nearer end is at no difference."""

    def nearer(alpha: float) -> float:
        low, high = confint_proportions_2indep(a, m, b, n, method="newcomb", alpha=alpha)
        return low if a / m > b / n else -high

    assert inference.newcombe_differ(a, m, b, n) == pytest.approx(
        brentq(nearer, 1e-7, 0.999, xtol=1e-10), abs=1e-8
    )


@given(
    counts=st.tuples(*[st.integers(1, 40)] * 2).flatmap(
        lambda n: st.tuples(
            st.integers(0, n[0]), st.just(n[0]), st.integers(0, n[1]), st.just(n[1])
        )
    ),
    alpha=st.floats(0.0005, 0.5),
)
@settings(max_examples=60, deadline=None)
def test_proportions_differ_exactly_when_the_interval_leaves_none_out(
    counts: tuple[int, int, int, int], alpha: float
):
    """And the test of a - b is that of b - a."""
    p = inference.newcombe_differ(*counts)
    low, high = inference.newcombe(*counts, confidence=1 - alpha)
    assert (p < alpha) == (low > 0 or high < 0)
    assert inference.newcombe_differ(*counts[2:], *counts[:2]) == p


@pytest.mark.parametrize("edge", [0.05, 0.2, 0.6])
def test_equal_proportions_exactly_when_the_interval_fits(edge: float):
    counts = (
        np.array([30.0, 50]),
        np.array([60.0, 100]),
        np.array([28.0, 20]),
        np.array([60.0, 100]),
    )
    p = inference.newcombe_equal(*counts, edge)
    low, high = inference.newcombe(*counts, confidence=0.90)
    assert list(p < 0.05) == list((low > -edge) & (high < edge))


def test_the_step_of_a_gap_agrees_with_a_reference_library():
    """statsmodels WLS of the log ratio of two rates, weights the harmonic sum."""
    rng = np.random.default_rng(3)
    time, after = np.arange(14.0), np.arange(14) >= 8
    x = rng.uniform(5_000, 9_000, (2, 14, 1))
    y = x * np.exp(rng.normal(0, 0.02, (2, 14, 1)))
    gaps = of_gaps(*(of_rates(y[g], x[g], time) for g in (0, 1)))
    step, slope = (one.plain for one in step_and_drift(gaps, after))
    design = np.column_stack([np.ones(14), time, after.astype(float)])
    weight = (x[0] * x[1] / (x[0] + x[1]))[:, 0]
    fit = sm.WLS(np.log(y[1] / x[1] / (y[0] / x[0]))[:, 0], design, weights=weight).fit()
    assert (step.value[0], step.se[0]) == pytest.approx((fit.params[2], fit.bse[2]), rel=1e-8)
    assert (slope.value[0], slope.se[0]) == pytest.approx((fit.params[1], fit.bse[1]), rel=1e-8)
    assert slope.df[0] == step.df[0] == fit.df_resid == 11


def invented(seed: int, matches: int, cells: int) -> Sums:
    rng = np.random.default_rng(seed)
    here = rng.random((matches, cells)) < 0.9
    x = np.where(here, rng.integers(20, 120, here.shape), 0).astype(float)
    return Sums(x * rng.uniform(0.5, 1.2, here.shape), x, here)


def test_shuffling_all_cells_at_once_is_shuffling_one_by_one():
    """Sums of every draw as one matrix product, against the statistic made match by match."""
    a, b = invented(1, 20, 3), invented(2, 20, 3)
    blocks = np.arange(40) % 3
    together = permutation.permute_windows(a, b, blocks, 99, np.random.default_rng(4))
    rng = np.random.default_rng(4)
    side = np.repeat([False, True], 20)
    deals = [side, *permutation._shuffled(side, blocks, 99, rng)]
    whole = Sums(*(np.concatenate(parts) for parts in zip(a, b, strict=True)))
    for cell in range(3):
        values = []
        for dealt in deals:
            halves = [Sums(*(part[keep][:, [cell]] for part in whole)) for keep in (~dealt, dealt)]
            effect = np.log(ratio.ratio(halves[1]) / ratio.ratio(halves[0]))[0]
            error = np.hypot(*(ratio.linearised_se(half)[0] for half in halves))
            values.append(abs(effect / error))
        hits = sum(value >= values[0] * (1 - 1e-9) for value in values[1:])
        assert together[cell] == pytest.approx((hits + 1) / 100)


def test_swapping_groups_of_all_cells_at_once_is_swapping_one_by_one():
    a, b = invented(5, 15, 2), invented(6, 15, 2)
    b = Sums(b.y, b.x, a.here | b.here)
    a = Sums(a.y, a.x, b.here)
    together = permutation.permute_within(a, b, 99, np.random.default_rng(7))
    swaps = np.random.default_rng(7).random((99, 15)) < 0.5
    for cell in range(2):
        values = []
        for swap in [np.zeros(15, bool), *swaps]:
            one, other = (
                Sums(
                    *(
                        np.where(swap, q[:, cell], p[:, cell])[:, None]
                        for p, q in zip(x, y, strict=True)
                    )
                )
                for x, y in ((a, b), (b, a))
            )
            parts = ratio.influence(other) - ratio.influence(one)
            count = one.here.sum()
            error = np.sqrt(count / (count - 1) * (parts**2).sum())
            effect = np.log(ratio.ratio(other) / ratio.ratio(one))[0]
            values.append(abs(effect / error))
        hits = sum(value >= values[0] * (1 - 1e-9) for value in values[1:])
        assert together[cell] == pytest.approx((hits + 1) / 100)


def test_a_shuffled_gap_is_bounded_and_follows_its_t_test():
    rng = np.random.default_rng(9)
    sides = [invented(seed, 60, 1) for seed in (11, 12, 13, 14)]
    strong = Sums(sides[3].y * 1.6, *sides[3][1:])
    blocks = np.zeros(120, int)
    weak_p = permutation.permute_gap(tuple(sides[:2]), tuple(sides[2:]), blocks, 499, rng)[0]
    strong_p = permutation.permute_gap(tuple(sides[:2]), (sides[2], strong), blocks, 499, rng)[0]
    told = ratio.gap(*(sides[place] for place in (0, 2, 1, 3))).p_value()[0]
    assert weak_p == pytest.approx(told, abs=0.1) and strong_p == pytest.approx(1 / 500)

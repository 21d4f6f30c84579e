"""The project's own statistics against published examples; the source stands beside each check.

Values marked "from memory" were typed from memory of the publication; the rest were found in a
stored copy, or lie in the files of the package named.
"""

from __future__ import annotations

import numpy as np
import pytest

from pipeline.significance import inference, ratio
from pipeline.significance.ratio import Estimate, Sums


def one(y, x) -> Sums:
    """One cell in which every row is a match."""
    y, x = (np.asarray(v, float)[:, None] for v in (y, x))
    return Sums(y, x, np.ones(y.shape, bool))


def mean(values) -> Sums:
    """With x = 1 everywhere the ratio is the mean."""
    return one(values, np.ones(len(values)))


# Davison & Hinkley 1997, table 2.1: populations of ten cities in 1920 (u) and 1930 (x).
CITY_U = np.array([138, 93, 61, 179, 48, 37, 29, 23, 30, 2.0])
CITY_X = np.array([143, 104, 69, 260, 75, 63, 50, 48, 111, 50.0])


def test_city_ratio():
    """Davison & Hinkley 1997, example 2.1."""
    assert ratio.ratio(one(CITY_X, CITY_U))[0] == pytest.approx(1.5203, abs=5e-5)


def test_city_influence_values():
    """Davison & Hinkley 1997, empirical influence values of the ratio (n times ours)."""
    sums = one(CITY_X, CITY_U)
    published = [
        *(-1.04367815, -0.58417763, -0.37092459, -0.18958996, 0.03164142),
        *(0.10544878, 0.09236345, 0.20365074, 1.02178280, 0.73381132),
    ]
    ours = ratio.influence(sums)[:, 0] * ratio.ratio(sums)[0] * len(CITY_U)
    assert ours == pytest.approx(published, abs=2e-4)


def test_city_delta_variance_and_interval():
    """Davison & Hinkley 1997: nonparametric delta variance (1/n^2 form) and normal interval."""
    sums, n = one(CITY_X, CITY_U), len(CITY_U)
    value = ratio.ratio(sums)[0]
    variance = (ratio.linearised_se(sums)[0] * value) ** 2 * (n - 1) / n
    assert variance == pytest.approx(0.03248701, abs=2e-6)
    ends = value + np.array([-1.959964, 1.959964]) * np.sqrt(variance)
    assert ends == pytest.approx([1.167046, 1.873579], abs=1e-4)


# Efron & Tibshirani 1993, table 10.1: the patch data (z and y of eight people); from memory.
PATCH_Z = np.array([8406, 2342, 8187, 8459, 4795, 3516, 4796, 10238.0])
PATCH_Y = np.array([-1200, 2601, -2705, 1982, -1290, 351, -638, -2719.0])


def test_patch_ratio_bias_and_error():
    """Efron & Tibshirani 1993, section 10.3 and chapter 11 (values from memory)."""
    sums = one(PATCH_Y, PATCH_Z)
    estimate, n = ratio.plain_ratio(sums), len(PATCH_Y)
    bias = (n - 1) * (ratio.delete_one(sums).mean() - estimate.value[0])
    assert estimate.value[0] == pytest.approx(-0.0713, abs=5e-5)
    assert bias == pytest.approx(0.0080, abs=5e-5)
    assert estimate.se[0] == pytest.approx(0.1055, abs=5e-5)


def test_law_school_correlation():
    """Efron & Tibshirani 1993, law school data: jackknife error of a correlation."""
    lsat = [576, 635, 558, 578, 666, 580, 555, 661, 651, 605, 653, 575, 545, 572, 594.0]
    gpa = [3.39, 3.30, 2.81, 3.03, 3.44, 3.07, 3.00, 3.43, 3.36, 3.13, 3.12, 2.74, 2.76, 2.88, 2.96]
    data = np.array([lsat, gpa])
    replicates = np.array([np.corrcoef(np.delete(data, i, 1))[0, 1] for i in range(15)])[:, None]
    variance = ratio.jackknife_variance(replicates, np.ones((15, 1), bool))[0]
    whole = np.corrcoef(data)[0, 1]
    assert whole == pytest.approx(0.7763745, abs=5e-8)
    assert np.sqrt(variance) == pytest.approx(0.1425186, abs=5e-8)
    assert 14 * (replicates.mean() - whole) == pytest.approx(-0.006473623, abs=5e-8)


# "Student" 1908: extra hours of sleep with two drugs, ten patients.
SLEEP_1 = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2.0]
SLEEP_2 = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]


def test_sleep_welch():
    """Student's sleep data: Welch's t, df, p and interval as R's t.test gives them."""
    found = ratio.change(mean(SLEEP_2), mean(SLEEP_1), log=False)
    assert found.value[0] / found.se[0] == pytest.approx(-1.8608, abs=5e-4)
    assert found.df[0] == pytest.approx(17.776, abs=5e-4)
    assert found.p_value()[0] == pytest.approx(0.07939, abs=5e-5)
    low, high = found.interval(0.95)
    assert (low[0], high[0]) == pytest.approx((-3.3654832, 0.2054832), abs=1e-6)


def test_sleep_paired():
    """Student's sleep data, paired: the same matches on both sides, left out together."""
    found = ratio.change_within(mean(SLEEP_2), mean(SLEEP_1), log=False)
    assert found.value[0] / found.se[0] == pytest.approx(-4.0621, abs=5e-5)
    assert found.p_value()[0] == pytest.approx(0.002833, abs=5e-6)


@pytest.mark.parametrize(
    ("successes", "trials", "low", "high"),
    [
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0, 0.1611),
        (1, 29, 0.0061, 0.1718),
    ],
)
def test_wilson(successes: int, trials: int, low: float, high: float):
    """Newcombe 1998a, Statistics in Medicine 17, table I, method 3."""
    assert inference.wilson(successes, trials) == pytest.approx((low, high), abs=5e-5)


@pytest.mark.parametrize(
    ("a", "m", "b", "n", "low", "high"),
    [
        (56, 70, 48, 80, 0.0524, 0.3339),
        (9, 10, 3, 10, 0.1705, 0.8090),
        (6, 7, 2, 7, 0.0582, 0.8062),
        (5, 56, 0, 29, -0.0381, 0.1926),
        (0, 10, 0, 20, -0.1611, 0.2775),
        (0, 10, 0, 10, -0.2775, 0.2775),
        (10, 10, 0, 20, 0.6791, 1.0),
        (10, 10, 0, 10, 0.6075, 1.0),  # from memory
    ],
)
def test_newcombe(a: int, m: int, b: int, n: int, low: float, high: float):
    """Newcombe 1998b, Statistics in Medicine 17, table II, method 10."""
    assert inference.newcombe(a, m, b, n) == pytest.approx((low, high), abs=6e-5)


# Benjamini & Hochberg 1995, section 3.2: fifteen p-values (as in scipy's documentation).
BH = np.array(
    [
        *(0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459),
        *(0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0),
    ]
)


def test_benjamini_hochberg_example():
    """Benjamini & Hochberg 1995: four rejections at 5 %; Bonferroni and Holm have three."""
    assert (inference.benjamini_hochberg(BH) < 0.05).sum() == 4
    assert (inference.holm(BH) < 0.05).sum() == 3
    assert (BH * 15 < 0.05).sum() == 3


def test_benjamini_hochberg_adjusted():
    """Adjusted values printed in the documentation of scipy.stats.false_discovery_control."""
    published = [
        *(0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.06385714, 0.06385714, 0.0645, 0.0765),
        *(0.486, 0.58118182, 0.714875, 0.75323077, 0.81321429, 1.0),
    ]
    assert inference.benjamini_hochberg(BH) == pytest.approx(published, abs=5e-9)


# The test vector of R's multtest, as kept in statsmodels' own tests.
MULTTEST = np.sort(
    [
        *(0.838541367553, 0.642193923795, 0.680845947633, 0.967833824309, 0.71626938238),
        *(0.177096952723, 5.23656777208e-5, 0.0202732688798, 0.00028140506198, 0.0149877310796),
    ]
)


@pytest.mark.parametrize(
    ("method", "published"),
    [
        (
            inference.holm,
            [5.23656777208e-04, 2.53264555782e-03, 1.1990184863680e-01, 1.4191288215860e-01, 1.0],
        ),
        (
            inference.benjamini_hochberg,
            [5.23656777208e-04, 1.40702530991e-03, 4.99591036e-02, 5.06831722e-02, 3.541939054e-01],
        ),
    ],
)
def test_multtest_vector(method, published: list[float]):
    """R's multtest, values in statsmodels/stats/tests/test_multi.py (first five)."""
    assert method(MULTTEST)[:5] == pytest.approx(published, abs=1e-9)


def test_equivalence_of_two_means():
    """Lakens 2017, TOSTER's worked example: both one-sided tests, df and 90 % interval."""
    a = Estimate(np.array([5.22]), np.array([0.83 / np.sqrt(89)]), np.array([88.0]))
    b = Estimate(np.array([5.25]), np.array([0.95 / np.sqrt(95)]), np.array([94.0]))
    found = ratio.welch(a, b)
    assert found.df[0] == pytest.approx(181.1344, abs=5e-5)
    assert (found.value[0] + 0.384) / found.se[0] == pytest.approx(3.153015, abs=5e-6)
    low, high = np.float64(-0.384), np.float64(0.384)
    assert inference.tost(found, low, high)[0] == pytest.approx(0.003838994, abs=5e-8)
    ends = [end[0] for end in found.interval(0.90)]
    assert ends == pytest.approx([-0.1870843, 0.2470843], abs=5e-7)


def test_detectable_change_is_two_point_eight_errors():
    """Cohen 1988: 80 % power at 5 % two-sided needs 2.80 standard errors (from memory)."""
    assert inference.detectable(np.array([1.0]))[0] == pytest.approx(2.80, abs=5e-3)

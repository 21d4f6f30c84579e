"""The project's own statistics against published examples; the source stands beside each check.

Unmarked values were found in a public copy of the source. Tables, examples and sections are named
from memory.
"""

from __future__ import annotations

import numpy as np
import pytest

from pipeline.significance.methods import inference, ratio
from pipeline.significance.methods.levels import picked_share
from pipeline.significance.methods.ratio import Estimate, Sums


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


def city_delta_variance() -> float:
    """The 1/n^2 form: ours has n/(n-1) in it, and is relative to the ratio."""
    sums, n = one(CITY_X, CITY_U), len(CITY_U)
    return ratio.linearised_se(sums)[0] ** 2 * ratio.ratio(sums)[0] ** 2 * (n - 1) / n


def test_city_delta_variance():
    """Davison & Hinkley 1997, nonparametric delta variance of the ratio."""
    assert city_delta_variance() == pytest.approx(0.03248701, abs=2e-6)


def test_city_normal_interval():
    """Davison & Hinkley 1997, normal 95 % interval of the ratio."""
    half = 1.959964 * np.sqrt(city_delta_variance())
    value = ratio.ratio(one(CITY_X, CITY_U))[0]
    assert (value - half, value + half) == pytest.approx((1.167046, 1.873579), abs=1e-4)


# Cochran 1977, chapter 6: 49 of 196 large cities, populations in 1920 and 1930, in thousands
# (value from memory of the publication).
LARGE_U, LARGE_X = np.array(
    [
        *((138, 143), (93, 104), (61, 69), (179, 260), (48, 75), (37, 63), (29, 50)),
        *((23, 48), (30, 111), (2, 50), (38, 52), (46, 53), (71, 79), (25, 57)),
        *((298, 317), (74, 93), (50, 58), (76, 80), (381, 464), (387, 459), (78, 106)),
        *((60, 57), (507, 634), (50, 64), (77, 89), (64, 77), (40, 60), (136, 139)),
        *((243, 291), (256, 288), (94, 85), (36, 46), (45, 53), (67, 67), (120, 115)),
        *((172, 183), (66, 86), (46, 65), (121, 113), (44, 58), (64, 63), (56, 142)),
        *((40, 64), (116, 130), (87, 105), (43, 61), (43, 50), (161, 232), (36, 54)),
    ],
    float,
).T


def test_large_cities_total():
    """Cochran 1977, ch. 6: total of 1930 (value from memory of the publication)."""
    assert (LARGE_U.sum(), LARGE_X.sum()) == (5054, 6262)
    assert ratio.ratio(one(LARGE_X, LARGE_U))[0] * 22919 == pytest.approx(28397, abs=0.5)


def test_large_cities_error():
    """Cochran 1977, ch. 6: error of that total, 49 of 196 drawn without replacement.

    (value from memory of the publication)
    """
    sums = one(LARGE_X, LARGE_U)
    error = ratio.linearised_se(sums)[0] * ratio.ratio(sums)[0] * LARGE_U.mean()
    assert 196 * np.sqrt(1 - 49 / 196) * error == pytest.approx(604, abs=0.5)


# Efron & Tibshirani 1993, table 10.1: the patch data, z and y of eight people
# (value from memory of the publication).
PATCH_Z = np.array([8406, 2342, 8187, 8459, 4795, 3516, 4796, 10238.0])
PATCH_Y = np.array([-1200, 2601, -2705, 1982, -1290, 351, -638, -2719.0])


def test_patch_ratio():
    """Efron & Tibshirani 1993, patch data: ratio (value from memory of the publication)."""
    estimate = ratio.plain_ratio(one(PATCH_Y, PATCH_Z))
    assert estimate.value[0] == pytest.approx(-0.0713, abs=5e-5)


def test_patch_jackknife_bias():
    """Efron & Tibshirani 1993, patch data: bias (value from memory of the publication)."""
    sums = one(PATCH_Y, PATCH_Z)
    bias = 7 * (ratio.delete_one(sums).mean() - ratio.ratio(sums)[0])
    assert bias == pytest.approx(0.0080, abs=5e-5)


def test_patch_jackknife_error():
    """Efron & Tibshirani 1993, patch data: error (value from memory of the publication)."""
    estimate = ratio.plain_ratio(one(PATCH_Y, PATCH_Z))
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
    """Student 1908, as R's t.test(extra ~ group) gives it: Welch's t, df, p."""
    found = ratio.change(mean(SLEEP_2), mean(SLEEP_1), log=False)
    assert found.value[0] / found.se[0] == pytest.approx(-1.8608, abs=5e-4)
    assert found.df[0] == pytest.approx(17.776, abs=5e-4)
    assert found.p_value()[0] == pytest.approx(0.07939, abs=5e-5)


def test_sleep_welch_interval():
    """Student 1908, as R's t.test(extra ~ group) gives it: 95 % interval."""
    low, high = ratio.change(mean(SLEEP_2), mean(SLEEP_1), log=False).interval(0.95)
    assert (low[0], high[0]) == pytest.approx((-3.3654832, 0.2054832), abs=1e-6)


def test_sleep_paired():
    """Student 1908, as R's t.test(paired = TRUE) gives it: matches left out of both sides."""
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
        (10, 10, 0, 10, 0.6075, 1.0),  # (value from memory of the publication)
    ],
)
def test_newcombe(a: int, m: int, b: int, n: int, low: float, high: float):
    """Newcombe 1998b, Statistics in Medicine 17, table II, method 10."""
    assert inference.newcombe(a, m, b, n) == pytest.approx((low, high), abs=6e-5)


@pytest.mark.parametrize(
    ("a", "m", "b", "n", "apart"),
    [
        *((56, 70, 48, 80, True), (9, 10, 3, 10, True), (6, 7, 2, 7, True)),
        *((5, 56, 0, 29, False), (0, 10, 0, 20, False), (10, 10, 0, 20, True)),
    ],
)
def test_newcombe_inverted(a: int, m: int, b: int, n: int, apart: bool):
    """Newcombe 1998b, table II: p is under 5 % where the published interval leaves none out.

    An interval a little narrower than that of p leaves none out, one a little wider holds it.
    """
    p = float(inference.newcombe_differ(a, m, b, n))
    assert (p < 0.05) is apart

    def leaves_none_out(rate: float) -> bool:
        low, high = inference.newcombe(a, m, b, n, confidence=1 - rate)
        return bool(low > 0 or high < 0)

    assert leaves_none_out(min(p + 1e-8, 1.0)) is (p < 1)
    assert not leaves_none_out(max(p - 1e-8, 1e-12))


# Benjamini & Hochberg 1995, section 3.2: fifteen p-values (lies in package scipy).
BH = np.array(
    [
        *(0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459),
        *(0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0),
    ]
)


def test_benjamini_hochberg_example():
    """Benjamini & Hochberg 1995: 4 rejected, 3 by Bonferroni (lies in package scipy)."""
    assert (inference.benjamini_hochberg(BH) < 0.05).sum() == 4
    assert (BH * 15 < 0.05).sum() == 3
    assert (inference.holm(BH) < 0.05).sum() == 3  # computed: not in the paper


def test_benjamini_hochberg_adjusted():
    """Adjusted values of false_discovery_control's docstring (lies in package scipy)."""
    published = [
        *(0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.06385714, 0.06385714, 0.0645, 0.0765),
        *(0.486, 0.58118182, 0.714875, 0.75323077, 0.81321429, 1.0),
    ]
    assert inference.benjamini_hochberg(BH) == pytest.approx(published, abs=5e-9)


def test_benjamini_yekutieli_level():
    """Benjamini & Yekutieli 2005: R of m picked at q have intervals of 1 - R q / m.

    (The rule from memory of the publication.) Picked at 5 %: the four of fifteen of 1995.
    """
    found = picked_share(BH, 0.05, 0.05)
    assert found.made.sum() == 4
    assert 1 - found.rate == pytest.approx(np.full(15, 1 - 4 * 0.05 / 15))


# The test vector of R's multtest (lies in package statsmodels).
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
            [
                5.2365677720800005e-04,
                2.5326455578199999e-03,
                0.11990184863680001,
                0.14191288215860001,
                1,
            ],
        ),
        (
            inference.benjamini_hochberg,
            [
                *(5.2365677720800005e-04, 1.4070253098999999e-03, 4.9959103598666670e-02),
                *(5.0683172199499998e-02, 3.5419390544599999e-01),
            ],
        ),
    ],
)
def test_multtest_vector(method, published: list[float]):
    """R's multtest, first five adjusted values (lies in package statsmodels)."""
    assert method(MULTTEST)[:5] == pytest.approx(published, abs=1e-10)


def lakens() -> Estimate:
    """Lakens 2017, the TOSTER example: 5.25 (SD .95, n 95) less 5.22 (SD .83, n 89)."""
    a = Estimate(np.array([5.22]), np.array([0.83 / np.sqrt(89)]), np.array([88.0]))
    b = Estimate(np.array([5.25]), np.array([0.95 / np.sqrt(95)]), np.array([94.0]))
    return ratio.welch(a, b)


def test_equivalence_statistics():
    """Lakens 2017, TOSTER: t of both one-sided tests, and Welch's df."""
    found = lakens()
    assert (found.value[0] + 0.384) / found.se[0] == pytest.approx(3.153015, abs=5e-6)
    assert (found.value[0] - 0.384) / found.se[0] == pytest.approx(-2.696056, abs=5e-6)
    assert found.df[0] == pytest.approx(181.1344, abs=5e-5)


def test_equivalence_p_values():
    """Lakens 2017, TOSTER: p1 and p2; tost is the larger, and p1 alone with no upper margin."""
    low, high = np.array([-0.384]), np.array([0.384])
    assert inference.tost(lakens(), low, np.array([np.inf]))[0] == pytest.approx(
        0.0009458745, abs=5e-9
    )
    assert inference.tost(lakens(), low, high)[0] == pytest.approx(0.003838994, abs=5e-8)


def test_equivalence_interval():
    """Lakens 2017, TOSTER: 90 % interval."""
    ends = [end[0] for end in lakens().interval(0.90)]
    assert ends == pytest.approx([-0.1870843, 0.2470843], abs=5e-7)


def test_detectable_change_is_two_point_eight_errors():
    """Cohen 1988: 80 % power at 5 % two-sided (value from memory of the publication)."""
    assert inference.detectable(1.0, 1e6, 0.05) == pytest.approx(2.80, abs=5e-3)


def test_the_rule_of_three():
    """Hanley & Lippman-Hand 1983 (from memory): none of n seen, at most 3/n, one-sided 95 %.

    Wilson's is the score interval, 2.7/n where n is large.
    """
    for count in (50, 100, 1000, 10_000):
        low, high = inference.wilson(0, count, confidence=0.90)
        assert low == 0 and 0.84 * 3 / count < high < 3 / count

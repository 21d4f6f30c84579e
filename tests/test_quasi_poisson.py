"""Counts on several things at once: published fits, published errors by clusters."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.significance.methods.log_linear import NoFit
from pipeline.significance.methods.quasi_poisson import by_cluster, quasi_poisson, sandwich
from pipeline.significance.methods.weighted import Indistinct, fit

# McCullagh & Nelder 1989, table 6.2: damage to ships by waves. Type, years of construction, years
# of operation, months of service, incidents; without the six that served no month (lies in
# package statsmodels: discrete/tests/results/ships.csv).
SHIPS = np.array(
    [
        *((1, 1, 1, 127, 0), (1, 1, 2, 63, 0), (1, 2, 1, 1095, 3), (1, 2, 2, 1095, 4)),
        *((1, 3, 1, 1512, 6), (1, 3, 2, 3353, 18), (1, 4, 2, 2244, 11), (2, 1, 1, 44882, 39)),
        *((2, 1, 2, 17176, 29), (2, 2, 1, 28609, 58), (2, 2, 2, 20370, 53), (2, 3, 1, 7064, 12)),
        *((2, 3, 2, 13099, 44), (2, 4, 2, 7117, 18), (3, 1, 1, 1179, 1), (3, 1, 2, 552, 1)),
        *((3, 2, 1, 781, 0), (3, 2, 2, 676, 1), (3, 3, 1, 783, 6), (3, 3, 2, 1948, 2)),
        *((3, 4, 2, 274, 1), (4, 1, 1, 251, 0), (4, 1, 2, 105, 0), (4, 2, 1, 288, 0)),
        *((4, 2, 2, 192, 0), (4, 3, 1, 349, 2), (4, 3, 2, 1208, 11), (4, 4, 2, 2051, 4)),
        *((5, 1, 1, 45, 0), (5, 2, 1, 789, 7), (5, 2, 2, 437, 7), (5, 3, 1, 1157, 5)),
        *((5, 3, 2, 2161, 12), (5, 4, 2, 542, 1)),
    ],
    float,
)
TYPE, BUILT, OPERATED, SERVICE, INCIDENTS = SHIPS.T
ONE = np.ones(len(SHIPS))
MAIN = np.column_stack(
    [
        ONE,
        *(each == TYPE for each in (2, 3, 4, 5)),
        *(each == BUILT for each in (2, 3, 4)),
        OPERATED == 2,
    ]
).astype(float)


def test_mccullagh_and_nelder_1989_ship_damage():
    """Deviance 38.695 on 25 df; spread 1.69; table 6.3's estimates and errors (from memory)."""
    found = quasi_poisson(INCIDENTS, SERVICE, MAIN)
    assert (found.deviance, found.df) == (pytest.approx(38.695, abs=5e-4), 25)
    assert found.spread == pytest.approx(1.69, abs=5e-3)
    published = [-6.41, -0.54, -0.69, -0.08, 0.33, 0.70, 0.82, 0.45, 0.38]
    errors = [0.28, 0.23, 0.43, 0.38, 0.31, 0.19, 0.22, 0.30, 0.15]
    assert found.coefficients == pytest.approx(published, abs=6e-3)
    assert found.estimate.se == pytest.approx(errors, abs=6e-3)
    assert set(found.estimate.df) == {25.0}


def test_ships_by_cluster_as_another_program_has_it():
    """Stata's poisson, exposure(service) vce(cluster ship) (lies in package statsmodels)."""
    columns = np.column_stack([BUILT, OPERATED == 2, ONE]).astype(float)
    found = by_cluster(quasi_poisson(INCIDENTS, SERVICE, columns), TYPE)
    published = [0.30633819450439, 0.35592229608495, -6.974712802772]
    errors = [0.03817694295902, 0.09213163536669, 0.0968656626603]
    assert found.value == pytest.approx(published, rel=1e-6)
    assert found.se == pytest.approx(errors, rel=1e-5)
    assert set(found.df) == {4.0}


def ordinary(z: np.ndarray, x: np.ndarray, labels: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(plain errors, errors by cluster) of least squares, with the factor (N-1)/(N-k) as well."""
    found = fit(z[:, None], np.ones((len(z), 1)), x)
    scores = x * found.residual[0][:, None]
    covariance, _ = sandwich(found.inverse[0], scores, labels)
    plain = [found.term(term).se[0] for term in range(x.shape[1])]
    return np.array(plain), np.sqrt(np.diagonal(covariance) * (len(z) - 1) / found.df)


def test_petersen_2009():
    """500 firms in ten years: errors .0286 plain, .0506 by firm, .0334 by year.

    (Data and values lie in package statsmodels, stats/tests: the author's test data.)
    """
    path = Path(sm.__file__).parent / "stats" / "tests" / "test_data.txt"
    firm, year, x, y = np.loadtxt(path).T
    columns = np.column_stack([np.ones(len(x)), x])
    plain, by_firm = ordinary(y, columns, firm)
    _, by_year = ordinary(y, columns, year)
    assert plain[1] == pytest.approx(0.0286, abs=5e-5)
    assert by_firm == pytest.approx([0.0670, 0.0506], abs=5e-5)
    assert by_year == pytest.approx([0.0234, 0.0334], abs=5e-5)


def test_grunfeld_by_firm():
    """Stata's vce(cluster), ten firms (lies in package statsmodels)."""
    data = sm.datasets.grunfeld.load_pandas().data
    data = data[data["firm"] != "American Steel"]
    columns = np.column_stack([data[["value", "capital"]].to_numpy(), np.ones(len(data))])
    _, found = ordinary(data["invest"].to_numpy(), columns, data["firm"].to_numpy(str))
    published = [0.01589433647768, 0.08496711097464, 20.425202580078]
    assert found == pytest.approx(published, rel=1e-6)


# Weil 1970, table 1: pups alive at four days, and at twenty-one, a litter a pair (R's aod).
CONTROL = [
    *((13, 13), (12, 12), (9, 9), (9, 9), (8, 8), (8, 8), (13, 12), (12, 11)),
    *((10, 9), (10, 9), (9, 8), (13, 11), (5, 4), (7, 5), (10, 7), (10, 7)),
]
TREATED = [
    *((12, 12), (11, 11), (10, 10), (9, 9), (11, 10), (10, 9), (10, 9), (9, 8)),
    *((9, 8), (5, 4), (9, 7), (7, 4), (10, 5), (6, 3), (10, 3), (7, 0)),
]


@pytest.mark.parametrize(("litters", "published"), [(CONTROL, 1.232495), (TREATED, 3.952861)])
def test_rao_and_scott_1992_rats(litters, published):
    """Design effects of the survival of pups, litters of one mother (R's PF, rsb)."""
    alive, weaned = np.array(litters, float).T
    found = by_cluster(quasi_poisson(weaned, alive, np.ones((16, 1))), np.arange(16))
    p, n = np.exp(found.value[0]), alive.sum()
    assert p == pytest.approx(weaned.sum() / n)
    assert (found.se[0] * p) ** 2 / (p * (1 - p) / n) == pytest.approx(published, abs=1e-5)


@pytest.mark.parametrize("seed", range(3))
def test_a_reference_library_agrees(seed: int):
    """statsmodels' Poisson GLM with its spread by Pearson, and by cluster, on random counts."""
    rng = np.random.default_rng(seed)
    x = rng.uniform(50, 400, 60)
    columns = np.column_stack([np.ones(60), rng.normal(size=60), rng.random(60) < 0.4])
    y = rng.poisson(x * np.exp(columns @ [-2, 0.3, -0.2] + rng.normal(0, 0.3, 60))).astype(float)
    labels = rng.integers(0, 9, 60)
    model = sm.GLM(y, columns, sm.families.Poisson(), offset=np.log(x))
    theirs, found = model.fit(scale="X2"), quasi_poisson(y, x, columns)
    assert found.coefficients == pytest.approx(theirs.params, abs=1e-7)
    assert found.estimate.se == pytest.approx(theirs.bse, rel=1e-5)
    assert found.estimate.p_value() == pytest.approx(
        model.fit(scale="X2", use_t=True).pvalues, rel=1e-4, abs=1e-12
    )
    assert (found.deviance, found.spread) == pytest.approx((theirs.deviance, theirs.scale))
    assert found.means == pytest.approx(theirs.mu, rel=1e-6)
    groups = {"groups": labels, "use_correction": False}
    robust = model.fit(cov_type="cluster", cov_kwds=groups)
    count = len(np.unique(labels))
    own = by_cluster(found, labels)
    assert own.se == pytest.approx(robust.bse * np.sqrt(count / (count - 1)), rel=1e-5)
    assert set(own.df) == {count - 1.0}


def test_errors_hold_where_counts_of_a_cluster_go_together():
    """Sixty clusters of five with a spread of their own: plain errors call one in four or more."""
    rng = np.random.default_rng(5)
    labels, calls = np.repeat(np.arange(60), 5), np.zeros(2)
    columns = np.column_stack([np.ones(300), labels % 2]).astype(float)
    for _ in range(500):
        shared = rng.normal(0, 0.3, 60)[labels]
        y = rng.poisson(30 * np.exp(shared)).astype(float)
        found = quasi_poisson(y, np.full(300, 100.0), columns)
        for at, each in enumerate((found.estimate, by_cluster(found, labels))):
            calls[at] += each.p_value()[1] < 0.05
    assert calls[0] > 125 and 14 < calls[1] < 40


@given(seed=st.integers(0, 99), scale=st.floats(0.01, 100))
@settings(max_examples=20, deadline=None)
def test_exposure_and_order_change_only_what_they_should(seed: int, scale: float):
    rng = np.random.default_rng(seed)
    x, labels = rng.uniform(50, 400, 30), rng.integers(0, 6, 30)
    columns = np.column_stack([np.ones(30), rng.normal(size=30)])
    y = rng.poisson(0.1 * x).astype(float)
    order = rng.permutation(30)
    found = quasi_poisson(y, x, columns)
    other = quasi_poisson(y[order], scale * x[order], columns[order])
    assert other.coefficients == pytest.approx(found.coefficients - [np.log(scale), 0], abs=1e-6)
    assert other.estimate.se == pytest.approx(found.estimate.se, rel=1e-4)
    one, two = by_cluster(found, labels), by_cluster(other, labels[order])
    assert two.se == pytest.approx(one.se, rel=1e-4)


def test_two_clusters_are_enough_for_the_sum():
    """Of a mean alone: the scores of the two cancel, and each is what the other is not."""
    found = quasi_poisson(np.array([4.0, 2, 1, 1]), np.ones(4), np.ones((4, 1)))
    own = by_cluster(found, np.array(["b", "b", "a", "a"]))
    assert (own.se[0], own.df[0]) == (pytest.approx(np.sqrt(2 * (2**2 + 2**2)) / 8), 1)


def test_what_can_t_be_fitted_is_said():
    none = np.where(TYPE == 4, 0, INCIDENTS)
    with pytest.raises(NoFit, match="a rate goes to nought"):
        quasi_poisson(none, SERVICE, MAIN)
    with pytest.raises(ValueError, match="an exposure above nought"):
        quasi_poisson(INCIDENTS, np.maximum(SERVICE - 45, 0), MAIN)
    with pytest.raises(Indistinct, match="made of the others"):
        quasi_poisson(INCIDENTS, SERVICE, np.column_stack([MAIN, MAIN[:, 1] + 2]))
    with pytest.raises(Indistinct, match="2 points bear no 2 terms"):
        quasi_poisson(INCIDENTS[2:4], SERVICE[2:4], np.array([[1.0, 0.0], [1.0, 1.0]]))
    found = quasi_poisson(INCIDENTS, SERVICE, MAIN)
    for labels in (np.zeros(34), np.arange(33)):
        with pytest.raises(ValueError, match="two clusters at least"):
            by_cluster(found, labels)

"""Mix, players and gaps: published examples, reference libraries, properties."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import t as student
from statsmodels.stats.meta_analysis import combine_effects

from pipeline.contracts.notes import OneMatchDominates, ScaleDisagrees
from pipeline.contracts.parts import Side
from pipeline.significance.arrays import Pair
from pipeline.significance.change import compare
from pipeline.significance.effects import Compared
from pipeline.significance.methods.kitagawa import (
    jackknifed,
    standardised,
    totals_of,
)
from pipeline.significance.methods.ratio import Estimate, Sums, change, gap, welch
from pipeline.significance.methods.shrinkage import paule_mandel, shrink
from pipeline.significance.notes import on_the_scales
from pipeline.significance.printed import widen
from pipeline.wording.noted import About, Noted
from pipeline.wording.notes import caution
from tests import finding_makers
from tests.mix_parts import Parts
from tests.view_makers import STATISTICS, scale

seeds = st.integers(0, 10_000)


def window(seed: int, matches: int = 30, groups: int = 3) -> Sums:
    rng = np.random.default_rng(seed)
    x = rng.integers(20, 120, (matches, groups)).astype(float)
    rates = np.linspace(0.6, 1.4, groups) if groups > 1 else np.ones(1)
    return Sums(x * rates * rng.uniform(0.5, 1.5, x.shape), x, np.ones_like(x, bool))


def test_das_gupta_1993_example_5_1():
    """Household heads by age, 1970 and 1985 (the same as Kitagawa's two components)."""
    share = np.array(
        [
            [12.9, 10.9, 9.5, 8, 7.8, 8.4, 8.6, 7.8, 7, 5.9, 4.7, 3.6, 4.9],
            [10.1, 11.2, 11.6, 10.9, 9.4, 7.7, 6.3, 6, 6.3, 5.9, 5.1, 4, 5.5],
        ]
    )
    rate = np.array(
        [
            [1.9, 25.8, 45.7, 49.6, 51.2, 51.6, 51.8, 54.9, 58.7, 60.4, 62.8, 66.6, 66.8],
            [2.2, 24.3, 45.8, 52.5, 56.1, 55.6, 56, 57.4, 57.2, 61.2, 63.9, 68.6, 72.2],
        ]
    )
    mix, rates = Parts.of((share[0] * rate[0], share[0], share[1] * rate[1], share[1]))
    assert (mix, rates) == pytest.approx((1.2269, 1.7403), abs=5e-5)
    assert 100 * mix / (mix + rates) == pytest.approx(41.35, abs=5e-3)


def test_charig_1986_points_two_ways():
    """Kidney stones (from memory): B is worse for small and for large stones, better in all."""
    treated = {"A": np.array([87.0, 263.0]), "B": np.array([270.0, 80.0])}
    cured = {"A": np.array([81.0, 192.0]), "B": np.array([234.0, 55.0])}
    a, b = (
        Sums(
            np.repeat(cured[k][None] / 10, 10, 0),
            np.repeat(treated[k][None] / 10, 10, 0),
            np.ones((10, 2), bool),
        )
        for k in "AB"
    )
    found = Parts.of(totals_of(a, b))
    assert found.mix + found.rates == pytest.approx(289 / 350 - 273 / 350)
    assert found.rates < 0 < found.mix


def test_fleiss_1981_direct_standardisation():
    """Birth order and mongolism by maternal age, per 100,000 (Fleiss 1981, p. 249; the data as in
    Fay & Feuer 1997): each birth order at the ages of all births together."""
    people = [
        [230061, 329449, 114920, 39487, 14208, 3052],
        [72202, 326701, 208667, 83228, 28466, 5375],
        [15050, 175702, 207081, 117300, 45026, 8660],
        [2293, 68800, 132424, 98301, 46075, 9834],
        [327, 30666, 123419, 149919, 104088, 34392],
    ]
    cases = [
        [107, 141, 60, 40, 39, 25],
        [25, 150, 110, 84, 82, 39],
        [3, 71, 114, 103, 108, 75],
        [1, 26, 64, 89, 137, 96],
        [0, 8, 63, 112, 262, 295],
    ]
    rates = np.array(cases) / np.array(people)
    found = 1e5 * standardised(rates, np.array(people).sum(0))
    assert found == pytest.approx([92.3, 91.2, 85.1, 92.7, 75.5], abs=0.05)


def test_bickel_1975_points_two_ways():
    """Berkeley admissions (counts as in R's UCBAdmissions; crude per cent from memory).

    Women are let in less often overall, by more than the departments' own rates explain.
    """
    tables = [
        *([[512, 313], [89, 19]], [[353, 207], [17, 8]], [[120, 205], [202, 391]]),
        *([[138, 279], [131, 244]], [[53, 138], [94, 299]], [[22, 351], [24, 317]]),
    ]
    counts = np.array(tables, float)
    admitted, applied = counts[:, :, 0].T, counts.sum(2).T
    totals = (admitted[0], applied[0], admitted[1], applied[1])
    crude = 100 * admitted.sum(1) / applied.sum(1)
    assert crude == pytest.approx([44.5, 30.4], abs=0.05)
    found = Parts.of(totals)
    assert found.mix < found.mix + found.rates < 0 < found.rates


def windows(seed: int, groups: int = 3) -> tuple[Sums, Sums]:
    return window(seed, groups=groups), window(seed + 1, groups=groups)


@given(seed=seeds)
@settings(max_examples=60, deadline=None)
def test_mix_and_rates_add_up_and_change_sign_with_the_windows(seed: int):
    a, b = windows(seed)
    found, back = Parts.of(totals_of(a, b)), Parts.of(totals_of(b, a))
    crude = b.y.sum() / b.x.sum() - a.y.sum() / a.x.sum()
    assert found.mix + found.rates == pytest.approx(crude, abs=1e-12)
    assert (back.mix, back.rates) == pytest.approx((-found.mix, -found.rates), abs=1e-12)
    for name in ("mix", "rates"):
        (_, there, units), (_, again, _) = jackknifed(a, b, name), jackknifed(b, a, name)
        assert again.value[0] == pytest.approx(-there.value[0], abs=1e-12)
        assert again.se[0] == pytest.approx(there.se[0], rel=1e-9)
        assert units.value[0] == pytest.approx(getattr(found, name), abs=1e-12)


@given(seed=seeds)
@settings(max_examples=30, deadline=None)
def test_one_group_has_no_mix(seed: int):
    a, b = windows(seed, groups=1)
    _, logs, units = jackknifed(a, b, "mix")
    assert (logs.value[0], units.value[0], units.se[0]) == pytest.approx((0, 0, 0), abs=1e-12)


def test_the_error_of_the_rate_part_is_that_of_many_drawn_splits():
    """Against the spread of 2,000 independent draws of both windows."""
    drawn = [
        jackknifed(*windows(2 * n), name)[2] for n in range(2_000) for name in ("mix", "rates")
    ]
    for part in range(2):
        spread = np.std([each.value[0] for each in drawn[part::2]])
        error = np.mean([each.se[0] for each in drawn[part::2]])
        assert error == pytest.approx(spread, rel=0.08)


def test_a_group_of_one_window_adds_to_the_mix_alone_and_one_of_none_nothing():
    y, x = np.array([50.0, 0.0]), np.array([100.0, 0.0])
    found = Parts.of((y, x, np.array([50.0, 90.0]), np.array([100.0, 100.0])))
    assert found.rates == pytest.approx(0) and found.mix == pytest.approx(0.7 - 0.5)
    rng = np.random.default_rng(3)
    some = [rng.integers(20, 90, 3).astype(float) for _ in range(4)]
    assert Parts.of(tuple(np.append(part, 0.0) for part in some)) == Parts.of(tuple(some))


def test_rubin_1981_eight_schools():
    """Coaching effects in eight schools (pooled mean 7.7, error 4.1; from memory)."""
    effect = np.array([28, 8, -3, 7, -1, 1, 18, 12.0])
    variance = np.array([15, 10, 16, 11, 9, 11, 10, 18.0]) ** 2
    found = shrink(effect, variance)
    assert (found.mean, found.mean_se) == pytest.approx((7.7, 4.1), abs=0.05)
    assert found.between == 0 and (found.p == 1).all()
    assert found.value == pytest.approx(np.full(8, found.mean))


def test_efron_and_morris_1975_baseball():
    """Eighteen batters after 45 at-bats: shrinking beats the raw averages threefold."""
    hits = np.array([18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7.0])
    truth = [0.346, 0.298, 0.276, 0.222, 0.273, 0.270, 0.263, 0.210, 0.269]
    truth += [0.230, 0.264, 0.256, 0.303, 0.264, 0.226, 0.285, 0.316, 0.200]
    raw, true = (np.sqrt(45) * np.arcsin(2 * np.array(p) - 1) for p in (hits / 45, truth))
    found = shrink(raw, np.ones(18))
    lost = ((raw - true) ** 2).sum()
    assert lost == pytest.approx(17.56, abs=0.05)  # published
    assert ((found.value - true) ** 2).sum() < lost / 3
    assert (found.p > 0.05).all()


@given(seed=seeds, spread=st.floats(0.0, 0.5))
@settings(max_examples=40, deadline=None)
def test_the_spread_between_agrees_with_a_reference_library(seed: int, spread: float):
    """statsmodels' Paule-Mandel estimate."""
    rng = np.random.default_rng(seed)
    variance = rng.uniform(0.01, 0.2, 12)
    estimate = rng.normal(0, spread, 12) + rng.normal(0, np.sqrt(variance))
    wanted = combine_effects(estimate, variance, method_re="pm").tau2
    assert paule_mandel(estimate, variance) == pytest.approx(max(0.0, wanted), abs=1e-4)


def test_shrunk_intervals_cover_and_few_are_told_apart_where_nobody_differs():
    rng = np.random.default_rng(7)
    inside, apart = [], []
    for _ in range(400):
        variance = rng.uniform(0.5, 2, 40)
        truth = rng.normal(0, 1, 40)
        found = shrink(truth + rng.normal(0, np.sqrt(variance)), variance)
        inside.append(np.abs(found.value - truth) < student.ppf(0.975, found.df) * found.se)
        apart.append(shrink(rng.normal(0, np.sqrt(variance)), variance).p < 0.05)
    assert 0.92 < np.mean(inside) < 0.97  # the spread between players is itself estimated
    assert np.mean(apart) < 0.01


def test_gelman_and_stern_2006():
    """25 with error 10 and 10 with error 10: one is significant, the difference (z 1.1) is not."""
    big, small = (Estimate(np.array([v]), np.array([10.0]), np.array([1e9])) for v in (25.0, 10.0))
    difference = welch(small, big)
    assert difference.se[0] == pytest.approx(14.1, abs=0.05)
    assert difference.value[0] / difference.se[0] == pytest.approx(1.1, abs=0.05)
    assert big.p_value()[0] == pytest.approx(0.012, abs=5e-4)
    assert difference.p_value()[0] > 0.28


def test_card_and_krueger_1994_difference_of_changes():
    """Table 3: 0.59 (0.54) against -2.16 (1.25) is 2.76 (1.36), to the table's rounding."""
    rows = ((-2.16, 1.25), (0.59, 0.54))
    one, other = (Estimate(np.array([v]), np.array([s]), np.array([1e9])) for v, s in rows)
    difference = welch(one, other)
    assert (difference.value[0], difference.se[0]) == pytest.approx((2.76, 1.36), abs=0.011)


@given(seed=seeds)
@settings(max_examples=40, deadline=None)
def test_a_gap_is_the_difference_of_the_two_changes(seed: int):
    a0, a1, b0, b1 = (window(seed + n, groups=2) for n in range(4))
    found = gap(a0, a1, b0, b1)
    separate = change(b0, b1).value - change(a0, a1).value
    assert found.value == pytest.approx(separate)
    back = gap(b0, b1, a0, a1)
    assert back.value == pytest.approx(-found.value) and back.p_value() == pytest.approx(
        found.p_value()
    )
    assert gap(a0, a1, a0, a1).value == pytest.approx(np.zeros(2), abs=1e-12)


def test_what_a_match_does_to_both_groups_cancels_in_the_gap():
    """Match effects shared by two groups: the joint jackknife sees a fifth of the noise."""
    rng = np.random.default_rng(11)

    def pair() -> tuple[Sums, Sums]:
        pitch = rng.normal(1, 0.2, (40, 1))
        x = np.full((40, 1), 100.0)
        here = np.ones((40, 1), bool)
        return tuple(Sums(x * pitch * rng.normal(1, 0.02, (40, 1)), x, here) for _ in range(2))

    (a0, b0), (a1, b1) = pair(), pair()
    joint = gap(a0, a1, b0, b1).se[0]
    apart = welch(change(a0, a1), change(b0, b1)).se[0]
    assert joint < apart / 5


def compared(a: Sums, b: Sums) -> Compared[Side]:
    matches = len(a.y) + len(b.y)
    pair = Pair(a, b, a.x, b.x, np.zeros(matches, int), False)
    return compare(pair, scale(), STATISTICS)[0]


def test_one_match_that_holds_a_quarter_is_a_note():
    a, b = window(1, groups=1), window(2, groups=1)
    assert not [n for n in compared(a, b).notes if isinstance(n, OneMatchDominates)]
    a.y[0] = a.y[1:].sum() / 2  # a third of the whole
    (note,) = [n for n in compared(a, b).notes if isinstance(n, OneMatchDominates)]
    assert note.share == pytest.approx(1 / 3)
    assert "One match holds 33% of the count" in caution(Noted(note, About()))


def test_scales_that_disagree_about_no_change_are_a_note():
    """Small skewed windows, moved step by step until one interval lets nought go first.

    It is asked of the intervals as they are printed, at the level of their verdict.
    """
    rng = np.random.default_rng(12)
    x = np.full((8, 1), 60.0)
    here = np.ones((8, 1), bool)
    base, other = (x * rng.lognormal(0, 0.5, (8, 1)) for _ in range(2))
    seen = set()
    for factor in np.linspace(1.0, 3.0, 400):
        found = compared(Sums(base, x, here), Sums(other * factor, x, here))
        told = finding_makers.change(effect=found.effect)
        for level in (0.95, 0.99):
            widen(told.effect, level)
            edges = [told.effect.difference.low > 0, told.effect.change.low > 0]
            noted = on_the_scales(told) == [ScaleDisagrees()]
            assert noted == (edges[0] != edges[1])
            seen.add((level, noted))
        assert not any(isinstance(n, ScaleDisagrees) for n in found.notes)
    assert len(seen) == 4
    assert on_the_scales(finding_makers.change(refused="few_matches")) == []
    assert on_the_scales(finding_makers.change(effect=finding_makers.effect(None))) == []
    assert "only one leaves no change out" in caution(Noted(ScaleDisagrees(), About()))

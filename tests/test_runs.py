"""Runs of an outcome: every arrangement, published counts, properties, shuffled sequences."""

from __future__ import annotations

import itertools
from fractions import Fraction
from math import comb, perm

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.significance.methods.runs import count_runs, expected_runs


@st.composite
def counts(draw: st.DrawFn, most: int = 1000) -> tuple[int, int]:
    """Trials, and successes among them."""
    trials = draw(st.integers(1, most))
    return trials, draw(st.integers(0, trials))


def arrangements(trials: int, successes: int) -> list[list[bool]]:
    """Every order of so many successes among so many trials."""
    chosen = itertools.combinations(range(trials), successes)
    return [[place in places for place in range(trials)] for places in chosen]


def by_hand(sequence: list[bool], least: int) -> int:
    """Runs counted as a scorer would: group by group."""
    groups = itertools.groupby(sequence)
    return sum(came and len(list(group)) >= least for came, group in groups)


def exactly(trials: int, successes: int, least: int) -> Fraction:
    """The formula in whole numbers."""
    return Fraction((trials - successes + 1) * perm(successes, least), perm(trials, least) or 1)


@given(st.lists(st.booleans(), max_size=60), st.integers(1, 8))
def test_runs_are_counted_once_each(sequence: list[bool], least: int):
    assert count_runs(sequence, least) == by_hand(sequence, least)


@pytest.mark.parametrize(
    ("sequence", "least", "count"),
    [
        ("110111", 3, 1),
        ("110111", 2, 2),
        ("111111", 3, 1),
        ("111111", 7, 0),
        ("", 1, 0),
        ("0", 1, 0),
    ],
)
def test_what_a_run_is(sequence: str, least: int, count: int):
    """Twelve in a row are one run of six or more; both ends of the sequence end a run."""
    assert count_runs([mark == "1" for mark in sequence], least) == count


@pytest.mark.parametrize("trials", range(1, 11))
def test_expected_is_the_mean_over_every_arrangement(trials: int):
    for successes in range(trials + 1):
        orders = arrangements(trials, successes)
        for least in range(1, 6):
            mean = Fraction(sum(by_hand(order, least) for order in orders), len(orders))
            assert exactly(trials, successes, least) == mean
            assert expected_runs(trials, successes, least) == pytest.approx(float(mean), rel=1e-12)


def test_longest_streaks_of_five_successes_in_seven_trials():
    """Counted by hand in "Longest streaks of successes" (physicsforums.com, thread 629855): of the
    21 orders, 3 have five in a row at most, 6 four, 9 three. With five successes there is at most
    one run of three or more, so that the orders with one are 21 times the number expected.
    """
    assert 21 * expected_runs(7, 5, 5) == pytest.approx(3)
    assert 21 * expected_runs(7, 5, 4) == pytest.approx(3 + 6)
    assert 21 * expected_runs(7, 5, 3) == pytest.approx(3 + 6 + 9)


# Sloane's A050227 as in MathWorld, "Run": of 2^n rows of heads and tails, those with r or more
# heads in a row. (n, r) where two such runs do not fit, so that rows and runs are the same number.
A050227 = {
    **{(8, 4): 48, (8, 5): 20, (8, 6): 8, (8, 7): 3, (8, 8): 1, (7, 4): 20, (7, 5): 8},
    **{(6, 3): 20, (6, 4): 8, (5, 3): 8, (4, 2): 8, (3, 2): 3, (2, 1): 3, (1, 1): 1},
}


@pytest.mark.parametrize(("trials", "least"), A050227)
def test_heads_in_a_row(trials: int, least: int):
    heads = np.arange(trials + 1)
    rows = np.array([comb(trials, int(count)) for count in heads])
    total = (rows * expected_runs(trials, heads, least)).sum()
    assert total == pytest.approx(A050227[trials, least])


# Runs of both kinds are counted, and expected, together: n1, n2, the row, observed, expected.
PUBLISHED = {
    # Siegel 1956, p. 142, and Swed & Eisenhart 1943, as in the tests of the Perl module
    # Statistics::Sequences::Runs 0.10; its synopsis (11 and 9) is the third.
    "Siegel": (21, 8, "1" * 14 + "0" + "1" * 6 + "0" + "1" + "0" * 6, 6, 12.5862),
    "Swed & Eisenhart": (20, 5, "1" * 10 + "0" + "1" + "0" * 4 + "1" * 9, 5, 9.0),
    "Sequences::Runs": (11, 9, "10001101100100111101", 11, 10.9),
    # Koopman 2005, mathgroup archive mg53905.
    "Koopman": (11, 14, "0001011001100110001011100", 13, 13.32),
}


@pytest.mark.parametrize("name", PUBLISHED)
def test_runs_of_both_kinds(name: str):
    ones, noughts, row, observed, expected = PUBLISHED[name]
    marks = np.array(list(row)) == "1"
    assert (marks.sum(), (~marks).sum()) == (ones, noughts)
    assert count_runs(marks, 1) + count_runs(~marks, 1) == observed
    both = expected_runs(ones + noughts, [ones, noughts], 1).sum()
    assert both == pytest.approx(expected, abs=5e-5)


@given(counts(), st.integers(1, 20))
def test_runs_of_exactly_a_length(given_counts: tuple[int, int], length: int):
    """Mood 1940, the mean of runs of i among n1 and n2 (formula from memory of the publication):
    (n2 + 1)(n2) [n1]_i / [n]_(i+1)."""
    trials, successes = given_counts
    failures = trials - successes
    of_that_length = expected_runs(trials, successes, length) - expected_runs(
        trials, successes, length + 1
    )
    if trials > length and failures:
        mood = Fraction(
            (failures + 1) * failures * perm(successes, length), perm(trials, length + 1)
        )
        assert of_that_length == pytest.approx(float(mood), rel=1e-9, abs=1e-9)
    else:
        assert of_that_length == (successes == length == trials)


@given(counts())
def test_one_or_more_in_a_row(given_counts: tuple[int, int]):
    """Wald & Wolfowitz 1940: k (n - k + 1) / n runs of successes, of any length."""
    trials, successes = given_counts
    expected = successes * (trials - successes + 1) / trials
    assert expected_runs(trials, successes, 1) == pytest.approx(expected)


@given(counts(300))
def test_every_success_is_in_one_run(given_counts: tuple[int, int]):
    """A run of L is one of r or more for r from 1 to L, so over all r they add up to k."""
    trials, successes = given_counts
    total = sum(expected_runs(trials, successes, least) for least in range(1, trials + 1))
    assert total == pytest.approx(successes)


@given(counts(), st.integers(1, 40), st.floats(0.01, 0.99))
def test_over_a_rate_it_is_that_of_independent_balls(
    given_counts: tuple[int, int], least: int, rate: float
):
    """Averaged over a binomial number of successes: p^r ((n - r)(1 - p) + 1)."""
    trials, _ = given_counts
    successes = np.arange(trials + 1)
    logs = np.concatenate([[0], np.log(np.arange(1, trials + 1)).cumsum()])
    log_weights = logs[trials] - logs - logs[::-1]
    weights = np.exp(
        log_weights + successes * np.log(rate) + (trials - successes) * np.log1p(-rate)
    )
    found = (weights * expected_runs(trials, successes, least)).sum()
    plain = rate**least * ((trials - least) * (1 - rate) + 1) if trials >= least else 0
    assert found == pytest.approx(plain, rel=1e-9, abs=1e-12)


@given(counts(), st.integers(1, 60))
def test_as_exact_as_numbers_go(given_counts: tuple[int, int], least: int):
    trials, successes = given_counts
    found = expected_runs(trials, successes, least)
    assert found == pytest.approx(float(exactly(trials, successes, least)), rel=1e-12)
    assert found >= expected_runs(trials, successes, least + 1)


@given(counts(), st.integers(1, 60))
def test_more_successes_make_more_runs_until_they_join(given_counts: tuple[int, int], least: int):
    trials, successes = given_counts
    if not least <= successes < trials:
        return
    fewer, more = expected_runs(trials, [successes, successes + 1], least)
    turn = least * (trials - successes + 1) - (successes + 1)
    assert np.sign(round((more - fewer) / fewer, 9)) == np.sign(turn)


def test_arrays_keep_their_shape_and_what_is_too_short_has_none():
    found = expected_runs([[5, 300, 1000], [6, 6, 0]], [[5, 150, 1000], [5, 6, 0]], 6)
    assert found.shape == (2, 3)
    assert found.tolist()[1] == [0, 1, 0]
    assert found[0] == pytest.approx([0, float(exactly(300, 150, 6)), 1])
    assert not np.signbit(found).any()


def test_shuffled_innings_come_to_what_is_expected():
    """4,000 shuffles of innings of 300 with 155 dot balls, and of 120 with 45; within four of the
    shuffles' own standard errors."""
    rng = np.random.default_rng(17)
    for trials, successes, least in ((300, 155, 6), (120, 45, 4)):
        row = np.arange(trials) < successes
        found = [count_runs(rng.permutation(row), least) for _ in range(4000)]
        error = np.std(found) / np.sqrt(len(found))
        assert abs(np.mean(found) - expected_runs(trials, successes, least)) < 4 * error
        assert error < 0.03


@pytest.mark.parametrize("least", [0, -1])
def test_a_run_has_a_length(least: int):
    with pytest.raises(ValueError, match="at least one success"):
        count_runs([True], least)
    with pytest.raises(ValueError, match="at least one success"):
        expected_runs(5, 3, least)


@pytest.mark.parametrize("successes", [-1, 6, [2, 6]])
def test_successes_are_among_the_trials(successes):
    with pytest.raises(ValueError, match="as many successes as trials"):
        expected_runs(5, successes, 2)

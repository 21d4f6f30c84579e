"""A verdict says what its printed interval says: of any effects, in any family, in any order."""

from __future__ import annotations

from unittest.mock import patch

import numpy as np
import pytest
import scipy.stats
from hypothesis import example, given, settings
from hypothesis import strategies as st
from statsmodels.stats.multitest import multipletests

from pipeline.contracts.finding import Change
from pipeline.contracts.parts import Span
from pipeline.significance.methods import inference
from pipeline.significance.methods.levels import holm_steps, of_change, picked_share, printed
from pipeline.significance.printed import widen
from tests.look_makers import (
    LOOKS,
    RATE,
    Asked,
    at_level,
    findings,
    found,
    judged,
    leaves_none_out,
    outcome,
    told_of,
)


@given(looks=LOOKS, alpha=RATE, rate=RATE)
@settings(max_examples=80, deadline=None)
def test_no_verdict_contradicts_the_interval_beside_it(looks, alpha: float, rate: float):
    mine, _ = judged(*findings(looks), alpha, rate)
    for each in mine:
        if each.refused:
            assert (each.verdict, each.because, each.effect) == ("can't tell", "refused", None)
            continue
        told, margin = told_of(each, each.told)
        inside = -margin < told.low and told.high < margin
        verdict = "held" if inside else "changed" if leaves_none_out(told) else "can't tell"
        assert each.verdict == verdict
        assert each.told.level >= 1 - alpha
        assert leaves_none_out(told) or each.because != "moved_within_margin"
        if verdict == "can't tell":
            assert each.because == reason_why_not(at_level(each, each.told, 1 - alpha), margin)


def reason_why_not(alone: Span, margin: float) -> str:
    """Of one that carries no claim: the claim that its plain interval would carry alone."""
    if -margin < alone.low and alone.high < margin:
        return "held_lost_among_many"
    return "lost_among_many" if leaves_none_out(alone) else "interval_too_wide"


@given(looks=LOOKS, alpha=RATE, rate=RATE)
@settings(max_examples=40, deadline=None)
def test_one_question_has_one_answer_and_counts_once(looks, alpha: float, rate: float):
    mine, family = judged(*findings(looks), alpha, rate)
    named: dict[str, list[Change]] = {}
    for each in mine:
        named.setdefault(each.asks.look, []).append(each)
    for same in named.values():
        assert all(outcome(each) == outcome(same[0]) for each in same)
        assert [each.again for each in same] == [None] + [same[0].id] * (len(same) - 1)
    chosen = sum(look.headline for look in looks)
    assert len(named) == family.looked_at == len(looks)
    assert (family.headlines, family.tables) == (chosen, len(looks) - chosen)
    assert family.again == len(mine) - len(looks)
    assert family.refused == sum(look.refused for look in looks)
    assert family.changed + family.held + family.cant_tell == len(looks)
    written = [(part.looks, part.again) for part in family.looks]
    assert [sum(count) for count in zip(*written, strict=True)] == [len(looks), family.again]


@given(looks=LOOKS, alpha=RATE, rate=RATE, order=st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_the_order_of_the_beats_changes_nothing(looks, alpha: float, rate: float, order):
    """Nor where two looks are as sure as each other, as the two sides of a toss are."""
    made, headlines = findings([*looks, *looks[:2]])
    turned = list(made)
    order.shuffle(turned)
    one, other = (
        {each.id: outcome(each) for each in judged(some, headlines, alpha, rate)[0]}
        for some in (made, turned)
    )
    assert one == other


@given(looks=LOOKS, alpha=RATE, rate=RATE)
@settings(max_examples=60, deadline=None)
def test_the_calls_are_those_of_reference_libraries(looks, alpha: float, rate: float):
    """statsmodels' Holm at alpha; scipy's false discovery control at the tables' rate.

    Of the rows only those under alpha are candidates: no other may help one of them to be called.
    'Held' is called in the same way, of the p that the interval lies inside the margin, and only
    so. Each call has the interval of its own rate: Holm's step, or the tables' rate times the share
    that is called. A change whose interval would lie inside the margin, and may not, is no call.
    """
    mine, _ = judged(*findings(looks), alpha, rate)
    for by in ("holm", "bh"):
        family = [each for each in mine if each.adjusted_by == by and each.again is None]
        effects = [each.effect for each in family]
        p = np.array([told.p if told else 1.0 for told in effects])
        p_inside = np.array([min(2 * told.p_equal, 1.0) if told else 1.0 for told in effects])
        called, inside = (called_by(by, each, alpha, rate) for each in (p, p_inside))
        for at, each in enumerate(family):
            if not each.effect:
                continue
            rates = [
                own_rate(by, which, calls, at, alpha, rate)
                for which, calls in ((p, called), (p_inside, inside))
            ]
            moved = each.because in ("beyond_chance", "moved_within_margin")
            if inside[at] or not called[at] or p_inside[at] >= rates[0]:
                assert moved == called[at]
                assert (each.verdict == "held") == (inside[at] and p_inside[at] < told_at(each))
            else:
                assert moved == (p[at] < told_at(each)) and each.verdict != "held"
            if called[at] and (inside[at] or p_inside[at] >= rates[0]):
                assert told_at(each) == pytest.approx(rates[0], abs=1e-12)
            elif inside[at]:
                assert told_at(each) == pytest.approx(rates[1], abs=1e-12)


def told_at(finding: Change) -> float:
    """The error rate of its printed interval."""
    return 1 - finding.told.level


def own_rate(
    by: str, p: np.ndarray, calls: list[bool], at: int, alpha: float, rate: float
) -> float:
    """The error rate of a call: Holm's step, or the tables' rate times the share called."""
    if by == "holm":
        return alpha / (p >= p[at]).sum()
    return min(rate * sum(calls) / len(p), alpha)


def called_by(by: str, p: np.ndarray, alpha: float, rate: float) -> list[bool]:
    """Which of a family's p-values are called."""
    if not len(p):
        return []
    if by == "holm":
        with patch("gc.collect"):  # which it calls each time
            return list(multipletests(p, alpha, "holm")[0])
    control = scipy.stats.false_discovery_control
    found_of = control(np.where(p < alpha, p, 1.0)) < rate
    assert not (found_of & ~((control(p) < rate) & (p < alpha))).any()
    return list(found_of)


PICKED = [0.0001, 0.004, 0.01, 0.02, 0.03, 0.04, 0.06, 0.5, 1.0]


@given(pairs=st.lists(st.tuples(*[st.sampled_from(PICKED)] * 2), max_size=9))
@example(pairs=[(0.0001, 1.0), (0.0001, 1.0), (0.04, 0.04)])  # the last may be called, not held
@example(pairs=[(0.0001, 1.0), (0.0001, 1.0), (0.004, 0.04)])
@example(pairs=[(0.001, 1.0), (0.03, 0.04)])  # changed, between the two
@example(pairs=[(0.001, 1.0), (0.04, 0.03)])  # as it widens it holds none before it leaves
@settings(max_examples=80, deadline=None)
def test_a_printed_interval_carries_the_claims_that_are_made_and_no_others(pairs):
    """`p` is where it stops leaving none out, `p_inside` where it stops lying inside the margin."""
    p, p_inside = np.array(pairs, float).reshape(-1, 2).T
    for way in (lambda p: holm_steps(p, 0.05), lambda p: picked_share(p, 0.1, 0.05)):
        change, inside = way(p), way(p_inside)
        told = printed(p, p_inside, change, inside, 0.05)
        assert list(told.inside) == list(p_inside < told.rate)
        assert not (told.inside & ~inside.made).any() and not (told.moved & ~change.made).any()
        assert not (told.moved & (p >= told.rate)).any()
        bare = ~told.moved & ~told.inside
        assert not (bare & (p < told.rate)).any() and not (bare & inside.made).any()
        lost = change.made & ~told.moved
        assert not (lost & (p_inside >= change.rate)).any() and not (lost & inside.made).any()
        assert not (lost & (p < p_inside)).any()
        plain = ~change.made & ~inside.made & (p_inside >= change.rate)
        asked = np.where(p < 0.05, change.rate, np.minimum(inside.rate, 0.05))
        wide = np.where((p < 0.05) | (p_inside < 0.05), asked, 0.05)
        assert list(told.rate[plain]) == list(wide[plain])
        assert (told.rate <= np.where(change.made, change.rate, 0.05)).all()


@given(p=st.lists(st.sampled_from(PICKED), max_size=9))
@settings(max_examples=60, deadline=None)
def test_where_no_margin_is_asked_of_only_the_change_sets_the_level(p: list[float]):
    """Lost, it is as wide as those that were picked, and no wider."""
    values = np.array(p)
    for asked in (holm_steps(values, 0.05), picked_share(values, 0.1, 0.05)):
        rate = of_change(values, asked, 0.05)
        assert list(values < rate) == list(asked.made)
        assert list(rate) == [
            own if one < 0.05 else 0.05 for one, own in zip(values, asked.rate, strict=True)
        ]


@given(p=st.lists(st.sampled_from(PICKED), max_size=9))
@settings(max_examples=60, deadline=None)
def test_a_claim_may_be_made_exactly_where_p_is_under_the_rate_it_is_asked_at(p: list[float]):
    """Ties have one rate, and none is above alpha."""
    values = np.array(p)
    for asked in (holm_steps(values, 0.05), picked_share(values, 0.1, 0.05)):
        assert list(asked.made) == list(values < asked.rate)
        assert (asked.rate <= 0.05).all()
        assert len(set(zip(p, asked.rate, strict=True))) == len(set(p))


@pytest.mark.parametrize("level", [0.95, 0.99, 1 - 0.05 / 7])
def test_both_scales_are_widened_about_their_values(level: float):
    """A tenth of the log, so four points of a share; their errors are a fiftieth and two points."""
    quantile = scipy.stats.t.ppf(0.5 + level / 2, 30)
    for measure, value, error in (("rates", 6 * np.expm1(0.1), 0.12), ("shares", 4, 2)):
        told = found(Asked(measure, 0.1, 0.02))[2]
        widen(told, level)
        logs = np.expm1([0.1 - quantile * 0.02, 0.1, 0.1 + quantile * 0.02])
        relative = [told.change.low, told.change.value, told.change.high]
        assert relative == pytest.approx(list(logs))
        ends = [told.difference.low, told.difference.value, told.difference.high]
        assert ends == pytest.approx([value - quantile * error, value, value + quantile * error])
        assert told.level == level


def test_shares_of_matches_keep_newcombe_s_interval_at_every_level():
    a, b, told = found(Asked("wins", won=(30, 40, 18, 40)))
    for level in (0.95, 0.99):
        widen(told, level, (a, b), 100)
        wanted = [100 * float(end) for end in inference.newcombe(30, 40, 18, 40, level)]
        assert [told.difference.low, told.difference.high] == pytest.approx(wanted)
        assert (told.difference.value, told.level) == (pytest.approx(30.0), level)

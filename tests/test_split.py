"""The parts of a change against the change: their share, their own error, and when to warn."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.contracts.finding import Change, Mix, Rates
from pipeline.contracts.notes import MixMoved
from pipeline.contracts.parts import OfWhole
from pipeline.significance.arrays import Pair
from pipeline.significance.kinds import mix
from pipeline.significance.methods.kitagawa import totals_of
from pipeline.significance.methods.ratio import Floats, Sums
from pipeline.significance.methods.split import Split, Weighed, split
from pipeline.wording import of_kinds
from pipeline.wording.noted import About, Noted
from pipeline.wording.notes import caution
from tests.finding_makers import side, span
from tests.mix_parts import Parts
from tests.view_makers import scale
from tests.word_makers import ECONOMY, FORM, MIX, moved, part, said

seeds = st.integers(0, 10_000)
GROUPS = (1.1, 0.9)  # pace and spin


def window(
    rng: np.random.Generator, matches: int, share: float, spin: float = 1.0, noise: float = 0.1
) -> Sums:
    """Pace and spin of each match, whose lengths differ; some have no spin at all."""
    balls = rng.integers(40, 200, (matches, 1)).astype(float)
    part = np.clip(rng.normal(share, 0.08, (matches, 1)), 0.0, 1.0)
    x = np.hstack([balls * (1 - part), balls * part]).round()
    level = np.array(GROUPS) * [1, spin] * rng.lognormal(0, noise, (matches, 1))
    return Sums((x * 0.8 * level).round(), x, x > 0)


def paired(a: Sums, b: Sums, balls: tuple[Floats, Floats] | None = None) -> Pair:
    one, other = balls or (a.x, b.x)
    return Pair(a, b, one, other, np.zeros(len(a.x) + len(b.x), int), False)


def found(a: Sums, b: Sums) -> Split:
    return split(Weighed(a, a.x), Weighed(b, b.x))


def whole(pair: Pair) -> Change:
    sides = [
        side(5.0, matches=len(s.x), denominator=int(s.x.sum()), numerator=int(s.y.sum()))
        for s in (pair.a, pair.b)
    ]
    return moved(0.1, 0.03, a=sides[0], b=sides[1], values={})


@given(seed=seeds, share=st.floats(0.2, 0.6))
@settings(max_examples=40, deadline=None)
def test_with_balls_below_it_is_kitagawas_split(seed: int, share: float):
    rng = np.random.default_rng(seed)
    a, b = window(rng, 12, 0.4), window(rng, 15, share, 0.9)
    ours, parts = found(a, b), Parts.of(totals_of(a, b))
    assert ours.mix.value[0] == pytest.approx(parts.mix, abs=1e-12)
    assert ours.rates.value[0] == pytest.approx(parts.rates, abs=1e-12)
    assert ours.mix.value + ours.rates.value == pytest.approx(ours.whole.value, abs=1e-12)


@given(seed=seeds)
@settings(max_examples=40, deadline=None)
def test_the_shares_of_both_parts_are_all_of_it(seed: int):
    """And an interval leaves none out as its part does: no share says more than its part."""
    rng = np.random.default_rng(seed)
    ours = found(window(rng, 40, 0.3), window(rng, 40, 0.5, 0.85))
    mix_share, rates_share = (
        ours.share(*two) for two in ((ours.mix, ours.rates), (ours.rates, ours.mix))
    )
    assert (mix_share is None) == (rates_share is None) == (not ours.told(ours.whole))
    if mix_share and rates_share:
        assert mix_share.value + rates_share.value == pytest.approx(1)
        assert mix_share.low <= mix_share.value <= mix_share.high
        assert mix_share.low == pytest.approx(1 - rates_share.high)


def test_the_share_covers():
    """A third of the change is who bowled it."""
    rng, inside = np.random.default_rng(2), []
    for _ in range(300):
        share = (s := found(window(rng, 150, 0.36), window(rng, 150, 0.44, 0.9))).share(
            s.mix, s.rates
        )
        if share:
            rates = np.array([GROUPS, [1.1, 0.81]]) * 0.8
            shares = np.array([[0.64, 0.36], [0.56, 0.44]])
            made = (shares[1] - shares[0]) @ rates.mean(0)
            true = made / (shares[1] @ rates[1] - shares[0] @ rates[0])
            inside.append(share.low <= true <= share.high)
    assert len(inside) > 150 and 0.91 <= np.mean(inside) <= 0.99


def test_where_nothing_changed_nothing_is_warned_of():
    """Point values alone would warn in one of seven, and of opposite ways in one of fourteen."""
    rng = np.random.default_rng(5)
    noted, opposed, bare = 0, 0, 0
    for _ in range(300):
        pair = paired(window(rng, 40, 0.4), window(rng, 40, 0.4))
        parts = found(pair.a, pair.b)
        noted += bool(mix.mix_moved(pair, whole(pair), scale("rate")))
        opposed += parts.opposed
        bare += abs(parts.mix.value[0]) >= abs(parts.whole.value[0]) / 2
    assert noted + opposed <= 3 and bare > 20


def test_a_mix_that_moved_is_warned_of_with_its_error():
    rng = np.random.default_rng(6)
    pair = paired(window(rng, 60, 0.2, noise=0.03), window(rng, 60, 0.5, noise=0.03))
    (note,) = mix.mix_moved(pair, whole(pair), scale("rate", per=6))
    assert isinstance(note, MixMoved) and note.low < note.mix < note.high < 0
    assert not note.simpson
    assert note.change == whole(pair).told.difference.value  # with the balls of unknown kind
    assert "a change of +0.50 in all" in caution(Noted(note, About()))


def test_constant_data_point_nowhere():
    """27 to 33 per cent of spin, every match alike and both kinds as cheap: no rounding is told."""
    x = [np.repeat([[100.0 - spin, spin]], 10, 0) for spin in (27.0, 33.0)]
    a, b = (Sums(each * 0.7, each, each > 0) for each in x)
    assert not found(a, b).opposed
    assert not mix.mix_moved(paired(a, b), whole(paired(a, b)), scale("rate"))
    refused = mix.part(whole(paired(a, b)), paired(a, b), "mix", scale("rate"))
    assert refused.refused == "no_spread"  # the mix did move
    assert not refused.notes
    same = mix.part(whole(paired(a, a)), paired(a, a), "mix", scale("rate"))
    assert same.refused == "mix_alike"


def test_simpson_is_told_where_whole_and_rates_are_sure_and_opposed():
    """Both kinds dearer, the whole cheaper, since much more of it is spin."""
    rng = np.random.default_rng(7)
    a = window(rng, 60, 0.1, noise=0.02)
    b = window(rng, 60, 0.8, noise=0.02)
    b = Sums((b.y * 1.05).round(), b.x, b.here)
    assert found(a, b).opposed


def test_of_runs_a_wicket_who_did_what_is_a_share_of_balls():
    """Spin takes twice the wickets it took, off as many balls: none of that is who bowled."""
    rng = np.random.default_rng(8)
    balls = [np.repeat([[120.0, 80.0]], 30, 0) for _ in "ab"]
    runs = [each * 0.8 * rng.lognormal(0, 0.05, each.shape) for each in balls]
    wickets = [rng.poisson([3.0, spin], (30, 2)) + 1.0 for spin in (2.0, 5.0)]
    a, b = (Sums(y, x, x > 0) for y, x in zip(runs, wickets, strict=True))
    pair = paired(a, b, (balls[0], balls[1]))
    by_wickets = split(Weighed(a, a.x), Weighed(b, b.x))
    by_balls = split(Weighed(a, balls[0]), Weighed(b, balls[1]))
    assert abs(by_balls.mix.value[0]) < 1e-9 < abs(by_wickets.mix.value[0])
    assert not mix.mix_moved(pair, whole(pair), scale("average", per_wicket=True))


def test_groups_that_do_not_divide_the_whole_are_no_mix():
    """Pace and spin both bowl in every innings: their innings are twice as many."""
    rng = np.random.default_rng(9)
    pair = paired(window(rng, 60, 0.2, noise=0.03), window(rng, 60, 0.5, noise=0.03))
    half = whole(pair)
    half.a.denominator //= 2
    assert not mix.mix_moved(pair, half, scale("rate"))


def of(
    share: tuple[float, float, float] | None, verdict: Any = "changed", half: float = 0.1
) -> OfWhole:
    return OfWhole(
        whole=span(-0.5, half),
        share=span(share[0], (share[2] - share[1]) / 2) if share else None,
        verdict=verdict,
    )


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (
            (0.5, 0.4, 0.6),
            "Between forty and sixty per cent of that comes from the change in who was bowling.",
        ),
        (
            (0.1, 0.0, 0.2),
            "Hardly any of that comes from the change in who was bowling: under a quarter of it.",
        ),
        (
            (0.8, 0.5, 1.1),
            "At least fifty per cent of that comes from the change in who was bowling",
        ),
        (
            (0.3, -0.1, 0.7),
            "We can’t call how much of that comes from the change in who was bowling: anything",
        ),
        ((1.5, 1.2, 1.8), "A change in who was bowling by itself would have made more than that, "),
        ((-0.5, -0.8, -0.2), "A change in who was bowling by itself took it the other way, down: "),
    ],
)
@pytest.mark.parametrize("verdict", ["changed", "held"])
def test_a_mix_is_told_against_the_change_that_it_is_part_of(share, words: str, verdict: str):
    told = said(part(Mix, -0.01, 0.005, verdict, of_whole=of(share)), MIX)
    assert told.startswith("On the plain figures, economy in the middle overs went down overall: ")
    assert words in told and "hardly matters" not in told


def test_a_part_of_no_change_is_told_by_itself():
    open_ = of(None, "held", half=0.6)
    sure = said(part(Mix, -0.01, 0.005, "held", of_whole=open_), MIX)
    assert "down by itself, but only a little: " in sure and "changed overall." in sure
    lost = said(part(Mix, -0.06, 0.01, of_whole=of((0.5, 0.4, 0.6), "can't tell")), MIX)
    assert "of that" not in lost
    unsure = said(part(Mix, -0.01, 0.02, "held"), MIX)
    assert unsure == "By itself, a change in who was bowling is worth under five per cent."


def test_each_part_hears_the_verdict_of_its_whole():
    parts = [part(kind, 0.1, 0.03, of_whole=of(None)) for kind in (Mix, Rates)]
    mix.judged([moved(0.01, 0.02, "held", cell="all", values={}), *parts])
    assert [each.of_whole.verdict for each in parts if each.of_whole] == ["held", "held"]


def test_rates_that_held_are_not_the_whole_that_held():
    rates = part(Rates, 0.01, 0.02, "held", id="b.economy.rates", cell="rates")
    named = "economy in the middle overs with the same mix"
    assert of_kinds.measured(rates, MIX, ECONOMY, FORM) == named
    aside = "economy in the middle overs once you set aside who was bowling"
    assert of_kinds.named_open(rates, MIX, ECONOMY, FORM) == aside
    title = of_kinds.title([rates], MIX, ECONOMY, [rates.id], FORM, None)
    assert title == "With the same mix, economy in the middle overs held"


@pytest.mark.parametrize(("mix_", "change"), [(0.18, -0.18), (0.2, 0.1)])
def test_a_caution_never_says_that_more_of_a_change_is_mix_than_it_is(mix_: float, change: float):
    note = MixMoved(mix=mix_, change=change, simpson=False, low=mix_ - 0.05, high=mix_ + 0.05)
    assert caution(Noted(note, About())).startswith(
        f"Who did what, not how well, is worth +{mix_:.2f} (+0."
    )
    assert " by itself, beside a change of " in caution(
        Noted(note, About())
    ) and "Of a" not in caution(Noted(note, About()))


@pytest.mark.parametrize(("verdict", "half"), [("changed", 0.6), ("changed", 0.1), ("held", 0.1)])
def test_a_whole_that_is_told_from_none_is_not_called_open(verdict: str, half: float):
    """By its verdict, which is of another scale than the units, or by its own interval."""
    told = said(part(Mix, -0.06, 0.01, of_whole=of(None, verdict, half)), MIX)
    assert "show that it changed" not in told
    assert told.endswith("We can’t say what part of the whole change that is.")

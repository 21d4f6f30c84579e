"""Errors at the level of the question: periods of a change, what two groups are made of."""

from __future__ import annotations

import numpy as np
import pytest

from pipeline.contracts.notes import CheckDisagrees, FewClusters
from pipeline.significance.arrays import Pair
from pipeline.significance.change import compare
from pipeline.significance.kinds.gap import gap_changes
from pipeline.significance.kinds.mix import part
from pipeline.significance.level import (
    Errors,
    by_cluster,
    by_period,
    gap_by_period,
    leveled,
    part_by_period,
)
from pipeline.significance.methods import clusters
from pipeline.significance.methods.kitagawa import ends
from pipeline.significance.methods.ratio import Estimate, Sums, change, gap
from pipeline.significance.verdicts import judge
from pipeline.wording.clusters import few_said
from tests import finding_makers
from tests.view_makers import STATISTICS, scale

CELLS = 1_000


def played(
    rng: np.random.Generator, sizes: list[int], effects: np.ndarray
) -> tuple[Sums, np.ndarray]:
    """Matches of clusters of these sizes, with effects (clusters, cells) on the log rate."""
    labels = np.repeat(np.arange(len(sizes)), sizes)
    x = rng.integers(200, 320, (len(labels), effects.shape[1])).astype(float)
    y = x * 0.8 * np.exp(effects[labels] + rng.normal(0, 0.1, x.shape))
    return Sums(y, x, np.ones(x.shape, bool)), labels.astype(str)


def windows(
    rng: np.random.Generator,
    before: list[int],
    after: list[int],
    shock: float = 0.0,
    step: float = 0.0,
    cells: int = CELLS,
) -> Pair:
    """Two windows of periods of so many matches, with a shock to each."""
    (a, of_a), (b, of_b) = (
        played(rng, sizes, rng.normal(moved, shock, (len(sizes), cells)))
        for sizes, moved in ((before, 0.0), (after, step))
    )
    return paired(a, of_a, b, of_b)


def paired(a: Sums, of_a: np.ndarray, b: Sums, of_b: np.ndarray, shared: bool = False) -> Pair:
    blocks = np.zeros(len(of_a) + len(of_b), int)
    return Pair(a, b, a.x, b.x, blocks, shared, (of_a, of_b))


def match_errors(pair: Pair) -> Errors:
    return Errors(change(pair.a, pair.b), change(pair.a, pair.b, log=False))


def false(estimate: Estimate) -> float:
    """How many of a hundred cells a 5 % test calls."""
    return float(100 * (estimate.p_value() < 0.05).mean())


def by_season(pair: Pair):
    return by_period(pair, "season")


@pytest.mark.parametrize(
    ("sizes", "shock", "by_match", "told"),
    [
        (([40] * 5, [40] * 5), 0.0, (3, 8), (1, 5)),
        (([40] * 5, [40] * 5), 0.02, (16, 26), (3, 7)),
        (([60, 50, 40, 30, 20], [20, 60, 10, 5]), 0.02, (15, 27), (2.5, 7.5)),
    ],
)
def test_years_that_differ_are_no_change(sizes, shock, by_match, told):
    """By its matches alone one null change in five is called; told is one in twenty."""
    pair = windows(np.random.default_rng(1), *sizes, shock)
    match = match_errors(pair)
    found = leveled(match, by_season(pair), scale())
    assert by_match[0] < false(match.logs) < by_match[1]
    assert told[0] < false(found.errors.logs) < told[1]


def test_the_choice_is_made_once_on_the_log_scale_and_kept_in_units():
    pair = windows(np.random.default_rng(2), [12] * 5, [12] * 4, 0.03)
    match, cluster = match_errors(pair), by_season(pair)
    found = leveled(match, cluster, scale())
    by = np.array([one.wider for one in found.clusters if one], bool)
    assert len(by) == CELLS and 0.2 < by.mean() < 0.95
    for told, mine, theirs in zip(found.errors, match, cluster.errors, strict=True):
        assert told.value == pytest.approx(mine.value)
        assert (told.se == np.where(by, theirs.se, mine.se)).all()
        assert (told.df == np.where(by, theirs.df, mine.df)).all()
    widths = [np.subtract(*each.interval(0.95)[::-1]) for each in (match.logs, cluster.errors.logs)]
    assert ((widths[1] > widths[0]) == by).all()
    assert set(cluster.errors.logs.df) == {7.0}


def test_every_number_of_an_effect_follows_from_the_error_that_is_told():
    pair = windows(np.random.default_rng(3), [12] * 5, [12] * 5, 0.05, cells=40)
    plain = compare(pair, scale(), STATISTICS)
    told = compare(pair, scale(), STATISTICS, by_season)
    wider = [at for at, one in enumerate(told) if one.effect and one.effect.cluster.wider]
    assert len(wider) > 10
    for at in wider:
        match, effect = plain[at].effect, told[at].effect
        assert effect.cluster.p_match == match.p and effect.cluster.se_match == match.se_log
        assert effect.cluster.df_match == match.df and match.cluster is None
        assert (effect.cluster.a, effect.cluster.b, effect.cluster.of) == (5, 5, "season")
        assert effect.df == effect.df_units == 8 and effect.p > match.p / 2
        assert effect.change.half > match.change.half
        assert effect.change.value == match.change.value
    narrow = [at for at, one in enumerate(told) if one.effect and not one.effect.cluster.wider]
    for at in narrow:
        assert told[at].effect.se_log == plain[at].effect.se_log


def test_a_share_keeps_its_matches_error_in_points():
    pair = windows(np.random.default_rng(4), [12] * 5, [12] * 5, 0.05, cells=10)
    asked = scale("share")
    plain = compare(pair, asked, STATISTICS)
    for one, other in zip(compare(pair, asked, STATISTICS, by_season), plain, strict=True):
        assert one.effect.cluster.se_match == pytest.approx(other.effect.se)
        assert one.effect.p_match == other.effect.p


def test_matches_that_are_shuffled_are_held_against_matches():
    """A check by matches is no check of an error by periods."""
    pair = windows(np.random.default_rng(5), [30] * 3, [30] * 3, 0.06, cells=60)
    found = compare(pair, scale(), STATISTICS, by_season)
    apart = [one for one in found if one.effect.p > 0.1 and one.effect.p_permutation < 0.05]
    assert len(apart) > 5
    assert not [note for one in apart for note in one.notes if isinstance(note, CheckDisagrees)]


@pytest.mark.parametrize(("sizes", "few"), [(([12] * 2, [12]), True), (([12] * 3, [12]), False)])
def test_too_few_periods_leave_the_matches_error_and_say_so(sizes, few):
    pair = windows(np.random.default_rng(6), *sizes, 0.05, cells=3)
    plain = compare(pair, scale(), STATISTICS)
    for one, other in zip(compare(pair, scale(), STATISTICS, by_season), plain, strict=True):
        told = [note for note in one.notes if isinstance(note, FewClusters)]
        assert bool(told) == few
        if few:
            assert one.effect.se == other.effect.se and not one.effect.cluster.wider
            (note,) = told
            assert few_said(note) == (
                "With two seasons before and one after, the interval leaves out how it swings from "
                "season to season."
            )


def test_a_period_that_holds_all_of_it_bears_no_error():
    rng = np.random.default_rng(7)
    pair = windows(rng, [8] * 4, [8] * 4, cells=1)
    pair.a.y[8:] = 0
    (found,) = compare(pair, scale(), STATISTICS, by_season)
    (note,) = [each for each in found.notes if isinstance(each, FewClusters)]
    assert note.few == "one_cluster_holds_all"
    assert few_said(note).startswith("One season holds all of it")


@pytest.mark.parametrize(
    ("sizes", "reason"),
    [
        ([[10] * 3, [10] * 5], "few_clusters"),
        ([[10] * 4, [10] * 4], None),
        ([[200, 2, 2, 2], [10] * 4], "uneven_clusters"),
    ],
)
def test_groups_of_too_few_grounds_are_refused(sizes, reason):
    rng = np.random.default_rng(8)
    (a, of_a), (b, of_b) = (played(rng, each, np.zeros((len(each), 1))) for each in sizes)
    both = clusters.aligned(a, np.char.add("a", of_a), b, np.char.add("b", of_b))
    (found,) = compare(
        paired(a, of_a, b, of_b), scale(), STATISTICS, lambda _: by_cluster("ground", *both)
    )
    assert found.refused == reason and (found.effect is None) == bool(reason)
    assert found.a.low is not None  # each side's own value stands


def test_shares_of_whole_matches_are_left_to_newcombe():
    pair = windows(np.random.default_rng(9), [12] * 5, [12] * 5, 0.05, cells=1)
    for side in (pair.a, pair.b):
        side.y[:], side.x[:] = (np.arange(len(side.y)) % 3 == 0)[:, None], 1.0
    (found,) = compare(pair, scale("share", by_match=True), STATISTICS, by_season)
    assert found.effect.cluster is None and found.effect.interval == "newcombe"


def test_what_a_year_does_to_both_groups_is_no_gap():
    rng = np.random.default_rng(10)
    sides = []
    for sizes in ([20] * 5, [20] * 5):
        year = rng.normal(0, 0.05, (5, CELLS))
        sides.append([played(rng, sizes, year) for _ in range(2)])
    first, second = (paired(*sides[0][at], *sides[1][at]) for at in range(2))
    totals = first.a, first.b, second.a, second.b
    found = gap_by_period(first, second, "season")
    match = Errors(gap(*totals), gap(*totals, log=False))
    told = leveled(match, found, scale()).errors.logs
    assert 1 < false(told) < 6
    assert false(leveled(match_errors(first), by_season(first), scale()).errors.logs) < 8
    assert np.median(told.se) < 0.75 * np.median(by_season(first).errors.logs.se)
    assert set(found.a) == set(found.b) == {5.0}


def test_years_that_part_two_groups_are_no_gap():
    rng = np.random.default_rng(11)
    pairs = [windows(rng, [40] * 5, [40] * 5, 0.03, cells=300) for _ in range(2)]
    plain = gap_changes(*pairs, scale(), STATISTICS)
    told = gap_changes(*pairs, scale(), STATISTICS, "season")
    rates = [100 * np.mean([one.effect.p < 0.05 for one in each]) for each in (plain, told)]
    assert rates[0] > 20 and rates[1] < 9
    assert all(one.effect.cluster.of == "season" for one in told)


def _by_hand(a: Sums, b: Sums, of_a: np.ndarray, of_b: np.ndarray, name: str) -> tuple:
    """(the part's log change, its pooled error by periods) with plain loops."""

    def value(y_a, x_a, y_b, x_b) -> float:
        found = ends((y_a, x_a, y_b, x_b), name)
        return float(np.log(found.after) - np.log(found.before))

    totals = a.y.sum(0), a.x.sum(0), b.y.sum(0), b.x.sum(0)
    spread, df, worth = 0.0, 0, 0.0
    for at, (side, of) in enumerate(((a, of_a), (b, of_b))):
        without, sizes = [], []
        for period in np.unique(of):
            rows = of == period
            left = list(totals)
            left[2 * at] = totals[2 * at] - side.y[rows].sum(0)
            left[2 * at + 1] = totals[2 * at + 1] - side.x[rows].sum(0)
            without.append(value(*left))
            sizes.append(side.x[rows].sum())
        count, sizes = len(without), np.array(sizes)
        variance = (count - 1) / count * ((np.array(without) - np.mean(without)) ** 2).sum()
        effective = sizes.sum() ** 2 / (sizes**2).sum()
        spread += (count - 1) * variance * effective
        worth += 1 / effective
        df += count - 1
    return value(*totals), np.sqrt(spread / df * worth), df


@pytest.mark.parametrize("name", ["mix", "rates"])
def test_a_part_of_a_mix_by_its_periods(name):
    rng = np.random.default_rng(12)
    pair = windows(rng, [9, 7, 8, 5], [6, 9, 4], 0.06, 0.03, cells=3)
    found = part_by_period(pair, name, "season")
    value, error, df = _by_hand(pair.a, pair.b, *pair.periods, name)
    assert found.errors.logs.value[0] == pytest.approx(value)
    assert found.errors.logs.se[0] == pytest.approx(error)
    assert found.errors.logs.df[0] == df == 5
    (whole,) = compare(_together(pair), scale(), STATISTICS, by_season)
    told = part(whole, pair, name, scale(), "season").effect
    plain = part(whole, pair, name, scale()).effect
    assert plain.cluster is None and told.cluster.se_match == plain.se_log
    assert told.se_log == pytest.approx(error if told.cluster.wider else plain.se_log)


def _together(pair: Pair) -> Pair:
    a, b = (
        Sums(side.y.sum(1, keepdims=True), side.x.sum(1, keepdims=True), side.here.any(1)[:, None])
        for side in (pair.a, pair.b)
    )
    return paired(a, pair.periods[0], b, pair.periods[1])


def test_rows_without_periods_have_no_error_by_them():
    pair = windows(np.random.default_rng(13), [6] * 4, [6] * 4, cells=1)
    bare = Pair(pair.a, pair.b, pair.ball_a, pair.ball_b, pair.blocks, False)
    with pytest.raises(ValueError, match="without their periods"):
        by_season(bare)


@pytest.mark.parametrize(
    ("of", "p", "p_match", "wider", "because"),
    [
        ("season", 0.2, 0.001, True, "usual_between_periods"),
        ("year", 0.2, 0.049, True, "usual_between_periods"),
        ("ground", 0.2, 0.001, True, "usual_between_clusters"),
        ("side", 0.05, 0.001, True, "usual_between_clusters"),
        ("season", 0.2, 0.05, True, "interval_too_wide"),
        ("season", 0.2, 0.2, False, "interval_too_wide"),
        ("season", 0.04, 0.001, True, "lost_among_many"),
    ],
)
def test_why_it_can_not_be_told(of, p, p_match, wider, because):
    """Usual is what matches alone would have told, and its seasons or grounds do not."""
    cluster = finding_makers.clusters(of, p_match=p_match, wider=wider)
    asked = [
        finding_makers.change(
            f"b.economy.c{at}",
            asks=finding_makers.asks(balls=(("ground", (f"{at}",)),)),
            effect=finding_makers.effect(p=each, cluster=cluster if not at else None),
        )
        for at, each in enumerate((p, 0.9, 0.9))
    ]
    judge(asked, [], STATISTICS, "topic.yaml")
    assert (asked[0].verdict, asked[0].because) == ("can't tell", because)

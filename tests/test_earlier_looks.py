"""Looks of earlier builds count as if they were headlines of today; which lines a build adds."""

from __future__ import annotations

import copy

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.build.looks import new_looks
from pipeline.config.project import Statistics
from pipeline.contracts.comparison import Against
from pipeline.contracts.files import as_json
from pipeline.ledger.today import as_counted, shown
from pipeline.significance.earlier import counted, versions
from pipeline.significance.methods import ratio
from pipeline.significance.second_family import judge_control, judge_drift
from pipeline.significance.verdicts import judge
from tests.brief_makers import findings_of
from tests.calibration.ledgers import ledgers
from tests.finding_makers import asks, change, control, drift, effect, step_test
from tests.ledger_makers import DAY, as_look, look
from tests.look_makers import LOOKS, Asked, findings, judged, outcome, question

HEAD = asks(sides=(("2014", "2015"), ("2016",)))
WIDER = asks(sides=(("2012", "2013", "2014", "2015"), ("2016",)))
HELD = asks(sides=HEAD.sides, control=Against(competition=("Sand Cup",)))
KNOWN = asks(sides=HEAD.sides, known=("bowler_kind",))


@given(looks=LOOKS, kept=st.integers(0, 10), alpha=st.floats(0.01, 0.3))
@settings(max_examples=80, deadline=None)
def test_an_earlier_look_counts_as_a_headline_of_today_would(looks, kept, alpha):
    """The outside check: the same verdicts, levels and p as in one family with all of them."""
    made, headlines = findings([one._replace(headline=True, beats=1) for one in looks])
    whole, _ = judged(made, headlines, alpha, 0.1)
    now, then = copy.deepcopy(made[:kept]), made[kept:]
    ids = headlines[:kept]
    earlier = counted([as_look(one) for one in then], now, ids)
    family = judge(now, ids, Statistics(alpha=alpha), "topic.yaml", earlier)
    for mine, other in zip(now, whole, strict=False):
        assert outcome(mine)[:-1] == outcome(other)[:-1]
        assert (mine.effect is None) == (other.effect is None)
        assert mine.effect is None or mine.effect.level == other.effect.level
    assert family.earlier == len(then) and family.headlines == len(now)
    assert family.looked_at == len(now)


def test_rows_of_tables_are_judged_as_without_a_ledger():
    made, headlines = findings([Asked("rates", 0.05, 0.02, headline=True), Asked("rates", 0.1)])
    plain, _ = judged(made, headlines, 0.05, 0.1)
    now = copy.deepcopy(made)
    judge(now, headlines, Statistics(), "t", counted([look(3), look(4)], now, headlines))
    assert [one.family_size for one in now] == [3, 1]
    assert outcome(now[1])[:-1] == outcome(plain[1])[:-1]


@pytest.mark.parametrize("p", [(0.01, 0.03), (0.03, 0.01), (0.04, 0.2), (0.001, 0.001)])
def test_steps_and_controls_of_earlier_looks_count_alike(p: tuple[float, float]):
    """Two of today in one family, or one beside the other of an earlier build."""

    def made(at: int) -> object:
        test = step_test(p=p[at], se=0.02, df=11.0)
        held = control()
        held.effect.p = p[at]
        asked = question("m", at, "Sand Cup")
        return change(f"b.m.c{at}", drift=drift(test=test), control=held, asks=asked)

    both, alone = [made(0), made(1)], [made(0)]
    earlier = counted([as_look(made(1))], alone, ["b.m.c0"])
    for judging in (judge_drift, judge_control):
        judging(both, ["b.m.c0", "b.m.c1"], 0.05)
        judging(alone, ["b.m.c0"], 0.05, earlier)
    assert alone[0].drift == both[0].drift and alone[0].control == both[0].control
    assert alone[0].drift.family_size == 2


def test_what_was_never_tested_beside_a_drift_counts_in_no_such_family():
    one = change("b.m.c0", drift=drift(test=step_test(p=0.03)), asks=question("m", 0))
    judge_drift([one], ["b.m.c0"], 0.05, counted([look(3, p_step=None)], [one], ["b.m.c0"]))
    assert one.drift.family_size == 1 and one.drift.verdict == "beyond the drift"


def test_only_headlines_count_each_number_once_and_none_of_todays():
    today = [change("b.economy", asks=HEAD), change("b.economy.spin", asks=KNOWN)]
    lines = [
        look(asks=WIDER, p=0.5),
        look(asks=WIDER, p=0.01),  # of later; the first stands
        look(asks=HELD),  # today's number, held against what it is not today
        look(asks=KNOWN),  # a row of today, a headline then
        look(9, role="expected"),
    ]
    found = counted(lines, today, ["b.economy"])
    assert [one.asks for one in found.looks] == [WIDER, KNOWN]
    assert list(found.changes) == [0.5, 0.02]
    assert [one.asks for one in found.controls] == [WIDER, HELD, KNOWN]


def test_a_refused_look_counts_with_a_p_of_one():
    found = counted([look(1, p=None, p_held=None, value=None, p_step=None)], [], [])
    assert list(found.changes) == [1.0] == list(found.helds)
    assert len(found.steps) == len(found.beyond) == 0


def test_a_version_is_the_same_measure_and_balls_otherwise_asked():
    today = [change("b.economy", asks=HEAD)]
    lines = [look(asks=one) for one in (WIDER, HELD, KNOWN, HEAD, WIDER)]
    other = [
        look(asks=asks("fours", sides=WIDER.sides)),
        look(asks=asks(balls=(("over", ("1",)),))),
    ]
    found = versions([*lines, *other], today, ["b.economy"])["b.economy"]
    assert (found.number, found.windows) == (4, 1)
    assert versions(other, today, ["b.economy"]) == {} == versions(lines, today, [])


def test_other_groups_are_another_question_and_other_windows_are_not():
    one, two = (asks(what="groups", sides=((a,), ("spin",))) for a in ("pace", "medium"))
    assert one.question != two.question
    assert HEAD.question == WIDER.question == HELD.question == KNOWN.question
    assert asks(divided=("phase",)).question != HEAD.question


def lines_of(headlines: list, expected: list, ledger: list) -> list[tuple[str, object]]:
    made = [
        change(f"b.economy.c{at}", asks=asked) for at, asked in enumerate([*headlines, *expected])
    ]
    ids = [one.id for one in made]
    chosen = findings_of(
        *made, headlines=ids[: len(headlines)], expected=ids[len(headlines) :] or ids[:1]
    )
    return [(one.role, one.asks) for one in new_looks(chosen, ledger, DAY)]


def test_a_build_adds_a_line_for_each_new_question_and_none_for_an_old_one():
    assert lines_of([HEAD], [], []) == [("headline", HEAD)]  # expected too, and a headline
    assert lines_of([HEAD], [], [look(asks=HEAD)]) == []
    assert lines_of([WIDER], [], [look(asks=HEAD)]) == [("headline", WIDER)]
    assert lines_of([HEAD], [WIDER], []) == [("headline", HEAD), ("expected", WIDER)]
    assert lines_of([HEAD, HEAD], [HEAD], []) == [("headline", HEAD)]
    assert lines_of([HELD], [], [look(asks=HEAD)]) == [("headline", HELD)]


def test_what_was_expected_is_a_line_again_as_a_headline_and_not_the_other_way():
    expected = look(asks=HEAD, role="expected")
    assert lines_of([HEAD], [], [expected]) == [("headline", HEAD)]
    assert lines_of([WIDER], [HEAD], [look(asks=HEAD), look(asks=WIDER)]) == []


def test_a_line_has_what_was_found_on_the_scale_that_is_told():
    test = drift(test=step_test(p=0.3))
    rate = change("b.economy", asks=HEAD, drift=test, control=control())
    rate.control.effect.p = 0.07
    share = change("b.fours", asks=asks("fours"), kind="share", effect=effect(0.1, 2.5, p=0.004))
    none = change("b.dots", asks=asks("dots"), refused="few_matches")
    all_ = findings_of(rate, share, none, headlines=["b.economy", "b.fours", "b.dots"])
    first, second, third = new_looks(all_, [], DAY)
    assert (first.value, first.p, first.p_held) == (0.1, 0.001, 1.0)
    assert (first.p_step, first.p_control, first.date) == (0.3, 0.07, DAY)
    assert (second.value, second.p, second.p_step) == (2.5, 0.004, None)
    assert (third.value, third.p, third.p_held, third.p_control) == (None,) * 4


def test_findings_are_as_counted_before_and_after_their_own_lines_are_added(tmp_path):
    """Else each build would make the next one necessary."""
    made = [change("b.economy", asks=HEAD), change("b.economy.x", asks=KNOWN)]
    ledger = [look(asks=WIDER), look(asks=KNOWN), look(asks=KNOWN, role="expected")]
    asked = {one.id: one.asks for one in made}
    earlier = shown(asked, ["b.economy"], ["b.economy.x"]).before(ledger)
    assert earlier == ledger[:2]  # what is expected today was a headline, and counts
    found = findings_of(*made, headlines=["b.economy"], expected=["b.economy.x"], earlier=earlier)
    path = tmp_path / "findings.json"
    path.write_text(as_json(found), "utf-8")
    after = [*ledger, *new_looks(found, ledger, DAY)]
    assert len(after) == 4 and as_counted(path, ledger) and as_counted(path, after)
    for other in ([], ledger[1:], [*after, look(8)], [msgspec.structs.replace(ledger[0], p=0.9)]):
        assert not as_counted(path, other)


def test_armitage_mcpherson_and_rowes_repeated_looks_are_as_published():
    """Their table of 1969: 5 % at every look comes to .142 with five looks and .193 with ten.

    Data that grow by the same at each look, tested by the project's own change of two windows.
    """
    alarms = repeated_looks(np.random.default_rng(1969), 4000, 10)
    for looks, published in ((1, 0.05), (2, 0.083), (5, 0.142), (10, 0.193)):
        share = alarms[:looks].any(0).mean()
        assert abs(share - published) < 3.5 * (published * (1 - published) / 4000) ** 0.5 + 0.004


def test_the_best_of_six_windows_is_called_falsely_no_more_often_than_one():
    """Some 14 % without a ledger, at most 5 % with it."""
    rows = {
        (row.scenario.rpartition(", ")[2], row.method): row.value
        for row in ledgers(np.random.default_rng(6), 3_200)
    }
    for tried, least in (("six windows", 0.1), ("three dates by four windows", 0.18)):
        assert rows[tried, "the best, without a ledger"] > least
        assert rows[tried, "the best, with a ledger"] <= 0.06  # of 400 topics: 0.03, give or take


def repeated_looks(rng: np.random.Generator, sims: int, looks: int) -> np.ndarray:
    """Whether each look at 40, 80, ... matches a window leaves no change out (looks, sims)."""
    y = [rng.normal(100.0, 10.0, (40 * looks, sims)) for _ in "ab"]
    ones, here = np.ones_like(y[0]), np.ones(y[0].shape, bool)
    sides = [ratio.Sums(one, ones, here) for one in y]
    found = []
    for at in range(1, looks + 1):
        grown = [ratio.Sums(*(part[: 40 * at] for part in side)) for side in sides]
        found.append(ratio.change(*grown).p_value() < 0.05)
    return np.array(found)

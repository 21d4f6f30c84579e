"""A turning point's finding: what its numbers are of, which points it keeps, what it refuses."""

from __future__ import annotations

from typing import Any
from unittest.mock import patch

import msgspec
import numpy as np
import pandas as pd
import pytest

from pipeline.contracts.finding import Turn
from pipeline.significance import searched
from pipeline.significance.kinds.turning_point import findings
from pipeline.significance.printed import print_at_levels
from pipeline.significance.searched import at_level
from pipeline.wording.tested import date_tested
from tests.seasons import event
from tests.view_makers import question, scale
from tests.word_makers import beat

SERIES = beat("turning_point", measure="economy")
YEARS = range(2009, 2023)
MATCHES = 8


def rows(counts: list[int], balls: int | list[int] = 200, **more: Any) -> pd.DataFrame:
    """Seasons of eight matches, each season's count and balls shared out unevenly."""
    against = balls if isinstance(balls, list) else [balls] * len(counts)
    table = []
    for year, count, x in zip(YEARS, counts, against, strict=False):
        for at in range(MATCHES):
            share = count // MATCHES + (at < count % MATCHES)
            table.append(
                {"match_id": f"{year}-{at}", "season": str(year), "date": f"{year}-06-{at + 1:02}"}
                | {"y": float(share), "x": float(x), "balls": x, "window": "season", "cell": "all"}
                | {"ground": "Moor Top", "reduced": False, "masked": 0, **more}
            )
    return pd.DataFrame(table)


def found(counts: list[int], balls: int | list[int] = 200, **more: Any) -> Turn:
    (turn,) = findings(question(SERIES.model_copy(update=more), rows(counts, balls)))
    return turn


STEPPED = [160, 150, 158, 163, 155, 149, 161, 157, 101, 96, 99, 104, 95, 103]


def test_both_levels_and_the_step_subtract():
    """All three are the model's, where it stands midway between the points beside the break."""
    turn = found(STEPPED)
    effect, (a, b) = turn.told, (turn.a.value, turn.b.value)
    assert turn.sides == ("level before", "level after")
    assert b - a == pytest.approx(effect.difference.value)
    assert b / a - 1 == pytest.approx(effect.change.value)
    fit = dict(turn.turn.fit)
    onward = (1 + turn.turn.trend) ** 0.5
    assert (turn.turn.last, turn.turn.next) == ("2016", "2017")
    assert (a, b) == pytest.approx((fit["2016"] * onward, fit["2017"] / onward))
    raw = sum(STEPPED[:8]) / (8 * MATCHES * 200) * 6
    assert a != pytest.approx(raw, rel=1e-3) and turn.a.numerator == sum(STEPPED[:8])
    assert turn.a.low is turn.a.high is turn.b.low is turn.b.high is None


def test_the_finding_keeps_what_its_interval_needs_at_any_level():
    """Read from its file, it gives the same ends again, and surer ones."""
    turn = msgspec.json.decode(msgspec.json.encode(found(STEPPED)), type=Turn)
    difference, relative = at_level(turn, 0.95)
    assert (difference, relative) == (turn.told.difference, turn.told.change)
    surer = at_level(turn, 0.999)[1]
    assert surer.low < relative.low < relative.high < surer.high < 0
    assert turn.told.p < 0.001
    with pytest.raises(ValueError, match="no date"):
        at_level(found([1] * 5), 0.95)


def test_a_season_without_any_is_kept():
    """Sixes were rare: three seasons had none, and say so as loudly as the others."""
    counts = [4, 2, 0, 3, 5, 3, 4, 2, 1, 0, 2, 0, 1, 1]
    turn = found(counts)
    assert turn.refused is None and turn.turn.points == 14
    assert [count for _, count, _ in turn.turn.counts] == counts
    assert [label for label, _ in turn.turn.fit] == [str(year) for year in YEARS]


def test_a_season_without_a_ball_is_left_out_and_named():
    balls = [200] * 14
    balls[4] = balls[10] = 0
    counts = [count if against else 0 for count, against in zip(STEPPED, balls, strict=True)]
    turn = found(counts, balls)
    assert turn.turn.left_out == ["2013", "2019"] and turn.turn.points == 12
    assert (turn.turn.last, turn.turn.next) == ("2016", "2017")
    turn.p_adjusted, turn.adjusted_by, turn.family_size = 0.01, "holm", 1
    said = date_tested(turn, turn.turn)
    assert said.endswith("; 2 seasons left out: nothing to count against")
    turn.turn.counts = []
    assert "left out" not in date_tested(turn, turn.turn)


@pytest.mark.parametrize(
    ("counts", "balls", "why"),
    [
        (STEPPED[:5], 200, "few_points"),
        ([160] * 14, 200, "no_scatter"),
        ([0] * 14, 200, "none_at_an_end"),
        ([0, 0, *STEPPED[2:]], 200, "none_at_an_end"),
        ([*STEPPED[:12], 0, 0], 200, "none_at_an_end"),
        (STEPPED, [200] * 5 + [0] + [200] * 8, "nothing_to_divide_by"),
    ],
)
def test_what_has_no_turning_point_is_refused(counts: list[int], balls: Any, why: str):
    turn = found(counts, balls)
    assert (turn.refused, turn.effect, turn.turn) == (why, None, None)
    assert turn.sides == ("earlier", "later")
    half = len(counts) // 2 * MATCHES
    assert turn.a.matches == half and turn.b.matches == len(counts) * MATCHES - half


@pytest.mark.parametrize("seed", range(12))
def test_its_interval_and_its_p_say_one_thing(seed: int):
    """Its printed interval leaves none out exactly where its p is under five per cent."""
    rng = np.random.default_rng(seed)
    counts = rng.poisson(150 * np.exp(-0.02 * seed * (np.arange(14) >= 8))).tolist()
    effect = found(counts).told
    assert (effect.change.low > 0 or effect.change.high < 0) == (effect.p < 0.05)
    assert np.sign(effect.change.low) == np.sign(effect.difference.low)
    assert np.sign(effect.change.high) == np.sign(effect.difference.high)


@pytest.mark.parametrize(
    ("day", "inside"),
    [
        ("2017-03-01", True),  # between the last match before the break and the first after it
        ("2017-06-05", True),  # within the season after it, so between the two or not
        ("2016-06-05", True),
        ("2017-10-01", False),  # when that season was over, the break had been
        ("2016-03-01", False),
    ],
)
def test_an_event_fits_a_break_that_it_may_have_come_between(day: str, inside: bool):
    asked = question(SERIES, rows(STEPPED))
    asked.view = asked.view.model_copy(update={"event": event(day)})
    (turn,) = findings(asked)
    assert (turn.turn.low, turn.turn.last, turn.turn.high) == ("2016", "2016", "2016")
    assert turn.turn.event.inside is inside


def test_ends_that_are_printed_at_the_level_they_were_made_at_are_made_once():
    """Each level costs a search over steps and dates."""
    counts = [*STEPPED[:-1], 107]  # a series of no other test
    with patch.object(searched, "step_interval", wraps=searched.step_interval) as made:
        turn = found(counts)
        first = turn.told.relative
        print_at_levels([turn], {"economy": scale()})
        assert (turn.told.relative, made.call_count) == (first, 1)
        turn.told.level = 0.99
        print_at_levels([turn], {"economy": scale()})
        assert turn.told.relative.low < first.low and made.call_count == 2

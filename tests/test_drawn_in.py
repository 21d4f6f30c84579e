"""Players in a list: who moved, who is apart from the mean, and what separates the others."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd
import pytest

from pipeline.contracts.finding import Player
from pipeline.contracts.selection import Cell
from pipeline.significance.drawn_in import grouped, player_changes
from pipeline.significance.kinds.players import judged
from pipeline.significance.methods.ratio import Estimate
from pipeline.significance.verdicts import judge
from pipeline.voice.line import Line
from pipeline.wording import of_kinds
from tests.finding_makers import answer, asks
from tests.view_makers import STATISTICS, scale
from tests.word_makers import ECONOMY, FORM, PLAYERS, players_list


def bowled(rng: np.random.Generator, changes: list[float], matches: int, noise: float) -> Any:
    """Rows of tallies: every bowler in as many matches of both windows, of untidy lengths."""
    rows = []
    for window in ("before", "after"):
        for match in range(matches):
            for name, change in enumerate(changes):
                balls = int(rng.integers(12, 61))
                level = 0.8 * (1 + change * (window == "after")) * rng.lognormal(0, noise)
                rows.append(
                    {
                        **{"match_id": f"{window}{match}", "window": window, "ground": "Moor Top"},
                        **{"cell": f"p{name}", "x": balls, "balls": balls},
                        "y": max(1, round(balls * level)),
                    }
                )
    return pd.DataFrame(rows)


def listed(changes: list[float], matches: int = 25, noise: float = 0.08, draw: int = 4):
    """The players' findings, judged as one topic."""
    rows = bowled(np.random.default_rng(draw), changes, matches, noise)
    cells = [Cell(id=f"p{n}", values={"bowler": f"P {n}"}, known=True) for n in range(len(changes))]
    told = player_changes(rows, cells, ["spin"] * len(cells), scale("rate"), STATISTICS)
    found: list[Any] = [
        answer(
            Player,
            f"b.economy.{cell.id}",
            **{"a": one.a, "b": one.b, "refused": one.refused, "effect": one.effect},
            **{"values": cell.values, "shrunk": drawn},
            asks=asks("economy", "player", balls=(("bowler", (cell.id,)),)),
        )
        for cell, (one, drawn) in zip(cells, told, strict=True)
    ]
    judge(found, [], STATISTICS, "a topic")
    judged(found)
    return found


def opening(found: list[Any]) -> str:
    return Line(tuple(of_kinds.opening(found, PLAYERS, FORM, players_list(len(found))))).text


def test_who_stayed_is_never_named_as_who_moved():
    """Eleven fell by a quarter and one stayed: the one is apart, the eleven moved."""
    found = listed([-0.25] * 11 + [0.0])
    moved, apart = ([f.shrunk for f in found if getattr(f.shrunk, c)] for c in ("moved", "apart"))
    assert len(moved) == 11 and not found[-1].shrunk.moved
    assert apart == [found[-1].shrunk]
    said = opening(found)
    assert "eleven of the twelve moved, each of them down." in said
    assert "One stands clear of the rest: P 11, whose own number can’t be told from no" in said
    title = of_kinds.title(found, PLAYERS, ECONOMY, [], FORM, None)
    assert title == "Eleven of twelve moved by more than luck; one stands clear of the rest"
    (line,) = {" ".join(of_kinds.said(found[-1], PLAYERS, ECONOMY, FORM, None))}
    assert "Alone it can’t be told from no change, but it’s apart from the spinners’ mean" in line


def test_all_of_a_list_that_rose_moved():
    changes = list(np.linspace(1.5, 5.0, 47))
    found = listed(changes, matches=15, noise=0.1)
    assert all(f.shrunk.moved for f in found)
    assert 0 < sum(f.shrunk.apart for f in found) < 47
    assert "all forty-seven moved, each of them up." in opening(found)


def test_equal_players_are_not_told_by_their_different_numbers():
    found = listed([0.0] * 12)
    assert not any(f.shrunk.moved or f.shrunk.apart for f in found)
    said = opening(found)
    assert "we can’t say that any one of them moved. No name stands clear" in said
    assert "different numbers" not in said


@pytest.mark.parametrize("changes", [[0.0] * 20, [-0.1] * 20, [0.0] * 10 + [-0.25] * 10])
def test_who_moved_changed_and_its_drawn_interval_is_clear_of_none(changes: list[float]):
    """And who is apart has an interval that is clear of the mean."""
    for draw in range(3):
        for finding in listed(changes, draw=draw):
            drawn = finding.shrunk
            if drawn.moved:
                assert finding.verdict == "changed"
                assert drawn.low > 0 or drawn.high < 0
                assert (drawn.low > 0) == (finding.told.difference.value > 0)
            if drawn.apart:
                assert not drawn.low <= drawn.mean <= drawn.high


def test_few_are_named_falsely():
    """Of lists in which half moved alike and half did not move at all."""
    false, named, apart = 0, 0, 0
    for draw in range(40):
        found = listed([0.0] * 8 + [-0.2] * 8, matches=16, noise=0.2, draw=draw)
        false += sum(f.shrunk.moved for f in found[:8])
        named += sum(f.shrunk.moved for f in found)
        apart += any(f.shrunk.apart for f in listed([0.0] * 12, 16, 0.3, draw))
    assert named > 40
    assert false <= 0.1 * named  # the share of false names that tables are held to
    assert apart <= 2  # of forty lists in which nobody differs


def test_luck_is_tested_at_its_level_with_spreads_that_are_estimated():
    """Cochran's Q alone would find a spread in an eighth of lists of forty that have none."""
    rng = np.random.default_rng(11)
    low, plain = [], []
    for _ in range(1500):
        noise = rng.normal(0, 0.2, (18, 40))
        errors = Estimate(noise.mean(0), noise.std(0, ddof=1) / np.sqrt(18), np.full(40, 17.0))
        (group,) = grouped(errors.value, errors, ["pace"] * 40)
        low.append(group.among.p < 0.05)
        plain.append(group.among.q > 54.57)  # chi-squared on 39, 95 %
    assert np.mean(low) < 0.075 and np.mean(plain) > 0.1


def test_one_alone_has_nothing_to_differ_from():
    (only,) = listed([-0.3])
    assert only.shrunk.among is None and not only.shrunk.apart
    assert "nobody to hold it against" in opening([only])

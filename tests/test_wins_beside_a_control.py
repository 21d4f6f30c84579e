"""A share of matches won, held against another competition's: its ends are t's, of a gap."""

from __future__ import annotations

import pandas as pd

from pipeline.config.project import Statistics
from pipeline.significance.arrays import WINDOWS, pair
from pipeline.significance.change import compare
from pipeline.significance.control import control_checks
from tests.view_makers import scale

WON = {"before": 18, "after": 30, "control before": 20, "control after": 22}  # of forty


def test_what_is_beyond_a_control_is_no_difference_of_two_shares():
    rows = pd.DataFrame(
        {"match_id": f"{window}-{at}", "window": window, "cell": "all", "ground": "Moor Top"}
        | {"season": "2017", "date": f"2017-06-{at % 28 + 1:02}", "balls": 1}
        | {"y": float(at < won), "x": 1.0}
        for window, won in WON.items()
        for at in range(40)
    )
    wins, statistics = scale("share", by_match=True), Statistics(permutations=100)
    (own,) = compare(pair(rows[rows["window"].isin(WINDOWS)], ["all"], WINDOWS), wins, statistics)
    assert own.effect and own.effect.interval == "newcombe"
    found = control_checks(rows, "the Shingle Cup", ["all"], {"all": "all"}, wins, statistics)
    beyond = found["all"].effect
    assert (beyond.interval, round(beyond.difference.value)) == ("t", 25)

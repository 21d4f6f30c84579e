"""If challenged: the sample, the test of what is said, the numbers behind both other verdicts."""

from __future__ import annotations

from typing import Any

import pytest

from pipeline.contracts.finding import Finding, Mix, Rates
from pipeline.contracts.findings import Sample
from pipeline.wording import challenged
from pipeline.wording.scales import POINTS, change_of, scaled
from tests.finding_makers import control, effect, span
from tests.word_makers import (
    BEAT,
    ECONOMY,
    FORM,
    GAP,
    MIX,
    SHARE_BEAT,
    TURN,
    beside,
    gap_between,
    moved,
    part,
    share_moved,
    turn,
    untested,
)

JUDGED: dict[str, Any] = {"p_adjusted": 0.0214, "adjusted_by": "holm", "family_size": 7}


def test_a_sample_is_counted_with_its_definition():
    assert challenged.sample_line(ECONOMY, Sample(matches=1, balls=12_345)) == (
        "Economy is runs off the bowler for every six valid balls: 12,345 balls in 1 match."
    )


@pytest.mark.parametrize(
    ("of", "finding", "line"),
    [
        (
            BEAT,
            moved(-0.10, 0.03, **JUDGED),
            "Spin, overs 11–40: −10.0%, 95% interval −13.0 to −7.0, p = 0.010, p = 0.021 among 7 "
            "(Holm); whole matches shuffled p = 0.001.",
        ),
        (
            SHARE_BEAT,
            share_moved(4.0, 0.9, p_adjusted=0.0004, adjusted_by="bh", family_size=40),
            "All balls: +4.0 pts, 95% interval +3.1 to +4.9, p = 0.010, p < 0.001 among 40 "
            "(Benjamini and Hochberg); whole matches shuffled p = 0.001.",
        ),
        (
            GAP,
            gap_between(0.03, -0.07, -0.10, 0.03, **JUDGED),
            "Spin against pace: −10.0%, 95% interval −13.0 to −7.0, p = 0.010, p = 0.021 among 7 "
            "(Holm); whole matches shuffled p = 0.001.",
        ),
        (
            MIX,
            part(Mix, -0.06, 0.01, **JUDGED),
            "Who did what: −6.0%, 95% interval −7.0 to −5.0, p = 0.010, p = 0.021 among 7 (Holm).",
        ),
        (
            MIX,
            part(Rates, 0.10, 0.03, "can't tell", refused="no_spread"),
            "The rates themselves: no interval, no test.",
        ),
    ],
)
def test_a_finding_that_is_said_has_its_test(of, finding: Finding, line: str):
    """The parts of a mix are not shuffled."""
    assert challenged.test_line(finding, of, FORM) == line


def test_a_date_is_the_largest_of_those_tried():
    found = turn()
    found.p_adjusted, found.adjusted_by, found.family_size = 0.0214, "holm", 7
    assert challenged.test_line(found, TURN, FORM) == (
        "All balls: largest of 9 dates (F 31.4), by simulation p = 0.010, p = 0.021 among 7 (Holm)."
    )


@pytest.mark.parametrize("verdict", ["changed", "held", "can't tell"])
def test_the_numbers_behind_the_drift_are_told_where_it_was_asked(verdict: str):
    """Whatever the first verdict is, with the confidence that the step was judged at."""
    found = moved(-0.10, 0.03, verdict, drift=beside("beyond the drift"))
    line = (
        "Spin, overs 11–40: drift +1.0% a season, +0.7 to +1.3 (8 before, 6 after); step beside it "
        "−13.0%, {}% interval −17.0 to −9.0, {} of 9 dates."
    )
    assert challenged.drift_line(found, BEAT, FORM) == line.format("95", "the largest")
    fourth = moved(
        -0.10, 0.03, verdict, drift=beside("in line with the drift", step=-0.13, rank=4, level=0.99)
    )
    assert challenged.drift_line(fourth, BEAT, FORM) == line.format("99", "number 4")
    refused = moved(0, 0, "can't tell", refused="no_balls", drift=beside("beyond the drift"))
    for other in (refused, moved(-0.10, 0.03), moved(-0.10, 0.03, verdict, drift=untested())):
        assert challenged.drift_line(other, BEAT, FORM) is None


@pytest.mark.parametrize("verdict", ["changed", "held", "can't tell"])
def test_the_numbers_behind_the_control_are_told_where_there_is_one(verdict: str):
    """Whatever the first verdict is, with the confidence that it was judged at."""
    beyond = control("overs 1 to 10", relative=span(-0.05, 0.02))
    beyond.effect.level = 0.975
    found = moved(-0.10, 0.03, verdict, control=beyond)
    assert challenged.control_line(found, BEAT, FORM) == (
        "Spin, overs 11–40 beyond overs 1 to 10: −5.0%, 97.5% interval −7.0 to −3.0."
    )
    points = control("overs 1 to 10", effect=effect(-0.05, -1.25, 0.5))
    found = share_moved(4.0, 0.9, verdict, control=points)
    assert challenged.control_line(found, SHARE_BEAT, FORM) == (
        "All balls beyond overs 1 to 10: −1.3 pts, 95% interval −1.8 to −0.8."
    )
    refused = moved(0, 0, "can't tell", refused="no_balls", control=beyond)
    for other in (refused, moved(-0.10, 0.03), turn()):
        assert challenged.control_line(other, BEAT, FORM) is None


def test_only_a_share_is_told_without_a_relative_change():
    """A share of matches may have been nought: it has points and no per cent."""
    assert scaled(span(4.0), None, "share").unit == POINTS
    with pytest.raises(ValueError, match="relative"):
        scaled(span(4.0), None, "rate")


@pytest.mark.parametrize("missing", ["p_adjusted", "adjusted_by"])
def test_a_finding_that_was_not_judged_has_no_test_to_tell(missing: str):
    with pytest.raises(ValueError, match="not judged"):
        challenged.test_line(moved(0.1, 0.03, **{**JUDGED, missing: None}), BEAT, FORM)


def test_a_size_is_said_to_what_its_interval_bears_and_no_finer_than_a_tenth():
    fine = moved(0.12345, 0.0001)
    assert change_of(fine).said() == "just over twelve point three per cent"
    assert [change_of(moved(change, 0.03)).way() for change in (0.005, -0.005)] == ["up", "down"]

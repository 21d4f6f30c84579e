"""What stands behind one number, in the order in which a challenge goes."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding, Mix
from pipeline.wording.provenance_lines import behind
from tests.fact_makers import fact
from tests.finding_makers import control, group_change, side
from tests.word_makers import (
    ECONOMY,
    SHARE,
    beside,
    gap_between,
    moved,
    part,
    share_moved,
    turn,
    untested,
)

JUDGED: dict[str, Any] = {"p_adjusted": 0.0214, "adjusted_by": "holm", "family_size": 7}
DEFINED = "runs off the bowler for every six valid balls"


def number(end: str = "change", **more: Any) -> Fact:
    return fact(f"b.economy.{end}", "−10.0%", definition=DEFINED, **more)


def lines(finding: Finding | None, measure: Any = ECONOMY, of: Fact | None = None) -> list[Any]:
    return list(behind(of or number(), finding, measure))


def test_a_number_of_no_finding_has_its_definition():
    assert lines(None) == [("what", f"{DEFINED}; in runs an over")]


@pytest.mark.parametrize(
    ("end", "made"),
    [
        ("change", "matches left out one at a time"),
        ("date", "the dates that the likelihood ratio leaves in"),
        ("luck-allowed-for", "drawn in towards players of the kind, as far as each error asks"),
        ("step", "weighted least squares over the seasons, t with seasons less three"),
        ("drift", "weighted least squares over the seasons, t with seasons less three"),
    ],
)
def test_an_interval_says_how_it_was_made(end: str, made: str):
    """And at which confidence; a fact of an older edition has that of its time."""
    for level, shown in ((None, "95%"), (0.95, "95%"), (0.99, "99%"), (1 - 0.05 / 6, "99.2%")):
        told = number(end, interval="1 to 2", arithmetic="−0.5 × 10 overs", level=level)
        assert lines(None, of=told)[1:] == [
            ("interval", f"1 to 2 ({shown}; {made})"),
            ("arithmetic", "−0.5 × 10 overs"),
        ]


def test_a_change_has_both_sides_as_their_sums_and_its_test():
    found = moved(-0.10, 0.03, **JUDGED, b=side(4.5, numerator=1_500, balls=1, matches=1))
    assert lines(found)[1:] == [
        (
            "before",
            "5 from 15,000 / 20,000 × 6 (runs_bowler / legal); 40 matches, 20,000 balls",
        ),
        ("after", "4.5 from 1,500 / 20,000 × 6 (runs_bowler / legal); 1 match, 1 ball"),
        ("test", "p = 0.010; p = 0.021 among 7 (Holm); whole matches shuffled p = 0.001"),
        ("verdict", "changed (beyond chance)"),
    ]
    assert lines(found, None)[2][1].startswith("4.5 from 1,500 / 20,000; 1 match")
    plain = ECONOMY.model_copy(update={"per": 1})
    assert "/ 20,000 (runs_bowler / legal)" in lines(found, plain)[1][1]


def test_what_is_no_ratio_of_two_sums_has_none():
    """Of a gap each side is a group's own change; of a mix the whole as it would have stood."""
    gap = gap_between(0.03, -0.07, -0.10, 0.03, **JUDGED)
    assert lines(gap)[1:3] == [
        ("pace", "0.15; 40 matches, 20,000 balls"),
        ("spin", "−0.35; 40 matches, 20,000 balls"),
    ]
    mix = lines(part(Mix, -0.06, 0.01, **JUDGED))
    assert mix[1] == ("before", "5; 40 matches, 20,000 balls")
    assert mix[3] == ("test", "p = 0.010; p = 0.021 among 7 (Holm)")


def test_a_refused_side_and_a_refused_finding_say_why():
    thin = {"matches": 3, "refused": "few_matches"}
    refused = moved(0.1, 0.1, "can't tell", refused="few_matches", b=side(5.0, **thin))
    assert lines(refused)[2:] == [
        ("after", "no number: few matches"),
        ("verdict", "can't tell: few matches"),
    ]
    none = msgspec.structs.replace(group_change(**thin), difference=None, change=None)
    gap = gap_between(0.03, -0.07, -0.1, 0.03, "can't tell", refused="few_matches", a=none)
    assert lines(gap)[1] == ("pace", "no number: few matches")


def test_both_other_verdicts_stand_with_what_they_rest_on():
    beyond = moved(-0.10, 0.03, **JUDGED, drift=beside("beyond the drift"), control=control())
    assert lines(beyond)[-2:] == [
        (
            "drift",
            "beyond the drift: drift +1.0% a season, +0.7 to +1.3 (8 before, 6 after); step beside "
            "it −13.0%, 95% interval −17.0 to −9.0, the largest of 9 dates.",
        ),
        (
            "control",
            "beyond the control: overs 1 to 10; −5.0%, 95% interval −6.0 to −4.0, p = 0.001",
        ),
    ]
    held = moved(0.01, 0.02, "held", **JUDGED, drift=beside("in line with the drift"))
    assert lines(held)[-2] == ("verdict", "held (inside margin)")
    assert lines(held)[-1][1].startswith("in line with the drift: drift +1.0% a season")
    untested_too = moved(0.01, 0.02, "held", **JUDGED, drift=untested())
    assert lines(untested_too)[-2:] == [
        ("verdict", "held (inside margin)"),
        ("drift", "not testable: we have five seasons from before, and the test needs eight"),
    ]


def test_what_is_lost_by_the_count_of_looks_names_it():
    many = {**JUDGED, "family_size": 40, "because": "lost_among_many"}
    drift = beside("in line with the drift")
    drift.because, drift.family_size = "step_lost_among_many", 9
    lost = {"verdict": "in line with the control", "because": "lost_among_many"}
    beside_control = control(**lost)
    found = moved(0.06, 0.07, "can't tell", **many, drift=drift, control=beside_control)
    told = dict(lines(found))
    assert told["verdict"] == "can't tell (lost among many: one of 40 looks)"
    assert told["drift"].startswith("in line with the drift (lost among many: one of 9 steps): ")
    assert told["control"].startswith("in line with the control (lost among many): overs 1 to 10; ")


def test_a_question_that_was_answered_before_points_to_where():
    again = moved(-0.10, 0.03, **JUDGED, again="a.economy.spin-middle")
    assert lines(again)[-1] == (
        "as in",
        "a.economy.spin-middle, which answers the same question: one look, one verdict",
    )
    assert "as in" not in dict(lines(moved(-0.10, 0.03, **JUDGED)))


def test_a_share_and_a_date_are_told_like_any_change():
    assert lines(share_moved(4.0, 0.9, **JUDGED), SHARE)[1][1].startswith(
        "25 from 15,000 / 20,000 × 100 (legal / legal)"
    )
    found = turn()
    found.p_adjusted, found.adjusted_by, found.family_size = 0.0214, "bh", 7
    assert ("test", "p = 0.010; p = 0.021 among 7 (Benjamini and Hochberg)") in lines(found)


def test_a_side_that_is_not_refused_has_a_value():
    with pytest.raises(ValueError, match="no value"):
        lines(moved(0.1, 0.03, **JUDGED, a=side(None)))

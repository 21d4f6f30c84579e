"""What a rebuild prints: numbers that moved, not those that are new or gone."""

from __future__ import annotations

from pipeline.brief.since_build import moved_lines
from tests.fact_makers import fact


def test_new_and_gone_facts_have_not_moved():
    both = [fact("a.change", "+1.0%", headline=True), fact("b.change", "+2.0%")]
    more = [*both, fact("new.change", "+3.0%", headline=True), fact("new.felt", "4")]
    assert moved_lines("demo", both, more) == moved_lines("demo", more, both) == []


def test_of_those_on_both_sides_the_moved_are_counted():
    before = [fact("a.change", "+1.0%", headline=True), fact("gone.change", "+2.0%")]
    after = [fact("a.change", "+1.5%", headline=True), fact("new.change", "+3.0%", headline=True)]
    lines = moved_lines("demo", before, after)
    assert lines[0].startswith("demo: moved since the last build: 1 headline figures, 0 others")
    assert not any("new" in line or "gone" in line for line in lines)
    assert sum("+1.0% -> +1.5%" in line for line in lines) == 1


def test_a_number_with_another_interval_has_not_moved():
    ends = {"value": 0.01, "headline": True}
    old = fact("a.change", "+1.0%", interval="0.0 to +2.0", level=0.95, **ends)
    wider = fact("a.change", "+1.0%", interval="−1.0 to +3.0", level=0.99, **ends)
    assert moved_lines("demo", [old], [wider]) == [
        "demo: 1 number is as it was, with a wider interval, which allows for how many numbers are "
        "tested together."
    ]
    other = fact(
        "a.change", "+1.1%", interval="−0.9 to +3.1", level=0.99, headline=True, value=0.011
    )
    assert moved_lines("demo", [old], [other])[1:] == [
        "  a.change: +1.0% -> +1.1%",
        "    said: about +1.0% -> about +1.1%",
        "    95% interval 0.0 to +2.0 -> 99% interval −0.9 to +3.1",
    ]

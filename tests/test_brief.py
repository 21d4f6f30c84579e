"""The brief's small print: coverage, cautions, and what a rebuild moved."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from pipeline.brief.coverage import known_line, thin
from pipeline.brief.since_build import facts_before, moved_lines
from pipeline.config.cuts import leant_on
from pipeline.config.kinds import KINDS
from pipeline.contracts.selection import Holdings
from pipeline.templating import embedded
from pipeline.wording.notes import caution
from tests.fact_makers import fact, write_facts


def holdings(**unknown: int) -> Holdings:
    """A thousand balls, so many of them unknown."""
    days = {"first": date(2009, 4, 11), "last": date(2022, 9, 4)}
    return Holdings(matches=5, balls=1000, targets_reduced=0, unknown_balls=unknown, **days)


def test_moved_names_what_changed_from_what_to_what():
    before = [
        fact("a.change", "+9.6%", spoken="nearly half", verdict="changed", headline=True),
        fact("b.change", "+1.0%", headline=True),
        fact("c.change", "+2.0%"),
    ]
    after = [
        fact("a.change", "+10.4%", spoken="over half", verdict="can't tell", headline=True),
        fact("b.change", "+1.0%", headline=True),
        fact("c.change", "+3.0%"),
        fact("d.change", "+4.0%"),
    ]
    assert moved_lines("rope", before, after) == [
        "rope: moved since the last build: 1 headline figures, 1 others",
        "  a.change: +9.6% -> +10.4%",
        "    said: nearly half -> over half",
        "    verdict: changed -> can't tell",
    ]


def test_nothing_is_said_where_nothing_moved_or_nothing_was_there(tmp_path: Path):
    after = [fact("a.change", "+9.6%")]
    assert moved_lines("rope", after, after) == [] == moved_lines("rope", [], after)
    path = tmp_path / "facts.json"
    assert facts_before(tmp_path) == []
    path.write_text("{", "utf-8")
    assert facts_before(tmp_path) == []
    write_facts(tmp_path, after)
    assert facts_before(tmp_path) == after
    path.write_text(json.dumps(msgspec.to_builtins(after)), "utf-8")
    assert facts_before(tmp_path) == after, "as version 0.8 wrote them"


def test_data_in_a_page_cannot_end_or_open_a_script():
    hostile = {"a": "<!-- <script> </script> & < >"}
    text = embedded(hostile)
    assert "<" not in text and json.loads(text) == hostile


def test_coverage_is_of_what_the_topic_leans_on():
    def leaning(kind: str, **beat: Any) -> list[str]:
        asked = {"id": "a", "kind": kind, "measure": "economy", **beat}
        return leant_on([KINDS[kind].model_validate(asked)])

    assert leaning("before_after", by=["bowler_kind", "phase"]) == ["bowler_kind"]
    assert leaning("groups", between={"region": ["a", "b"]}) == ["country"]
    assert leaning("before_after", where={"batter_hand": ["left"]}) == ["batter_hand"]
    assert leaning("players", role="bowler", at_least="300 balls") == ["bowler_kind"]
    assert leaning("before_after", by=["season"]) == []
    assert known_line(holdings(bowler_kind=69)) == "known, of the balls: bowling kind 93.1%"
    assert known_line(holdings()) == ""


def test_under_95_per_cent_is_a_caution():
    assert thin(holdings(bowler_kind=50)) == []
    (told,) = thin(holdings(bowler_kind=51))
    assert caution(told) == (
        "5.1% of the balls are from bowlers whose kind we don’t know; every row by kind of bowler "
        "leaves them out."
    )

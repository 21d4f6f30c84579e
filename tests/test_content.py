"""What a brief prints beside its beats: index, looks, definitions, corrections, method, summary."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from pipeline.brief.content import MOST_CAUTIONS, Content, context
from pipeline.brief.facts import facts_of
from pipeline.brief.method import method_lines
from pipeline.brief.since_edition import SincePage
from pipeline.brief.stage import sections, summary
from pipeline.config.kinds import KINDS, AnyBeat
from pipeline.contracts import notes
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings, Look, Point
from tests.brief_makers import brief_view, chart_made, family, findings_of, topic
from tests.chart_makers import SCORERS
from tests.fact_makers import fix
from tests.finding_makers import change, drift, side
from tests.seasons import season, selection, windows


def beat(identity: str, **more: Any) -> AnyBeat:
    asked = {"id": identity, "kind": "before_after", "measure": "economy", **more}
    return KINDS["before_after"].model_validate(asked)


BEATS = [beat("one", title="The first"), beat("two", measure=["economy", "fours"])]
CHARTS = [chart_made(name) for name in ("one.economy", "two.economy", "two.fours")]
JUDGED: dict[str, Any] = {"p_adjusted": 0.002, "adjusted_by": "bh", "family_size": 12}
ROWS: list[Finding] = [
    change("one.economy", **JUDGED),
    change("two.economy", **JUDGED),
    change("two.fours", kind="share", refused="few_matches"),
]


def made(found: Findings | None = None, **more: Any) -> Content:
    """The content of a brief of three findings, and of what else is given of its view."""
    found = found or findings_of(*ROWS)
    edition = more.pop("edition", None)
    view = brief_view(BEATS, **more)
    return context(view, found, CHARTS, facts_of(view, found), [], edition)


def test_it_says_whose_it_is_and_which_edition():
    content = made()
    assert (content.title, content.question) == ("A question", "What happened?")
    assert (content.publisher, content.paper, content.language) == ("Us", "A4", "en-GB")
    assert content.edition == "Working copy" and made(edition=3).edition == "Edition 3"
    assert content.since is None and content.fingerprint == "00000000"


def test_a_notice_stands_once_however_many_sources_ask_for_it():
    plain = SCORERS.model_copy(update={"notice": None})
    assert made(credits=[SCORERS, plain, SCORERS]).notices == ["Invented data"]
    assert made(credits=[plain]).notices == []


def test_headlines_have_cards_in_the_topic_s_order():
    content = made(headlines=["two.economy", "one.economy"])
    assert [card.id for card in content.cards] == ["two.economy", "one.economy"]
    assert content.answer[0].startswith("Economy rose")
    assert made().cards == []


def test_background_without_a_source_is_the_first_caution():
    careful = [notes.Simpson(), notes.FewMatches(matches=8)]
    found = findings_of(change("one.economy", notes=careful, **JUDGED), *ROWS[1:])
    words = topic(BEATS, background=[{"say": "It was asked for"}])
    told = made(found, words=words, headlines=["one.economy"]).cautions
    assert len(told) == MOST_CAUTIONS
    assert told[0] == "1 background statement needs a source before it is said on air."
    assert told[1].startswith("The whole went one way")
    assert told[2] == "1 comparison of 1234 can’t be called either way."


def test_the_index_has_each_fact_under_the_page_that_shows_it():
    """Points of a series are drawn and stand in no table: they are facts, but not in the index."""
    whole = side()
    values = {name: getattr(whole, name) for name in whole.__struct_fields__}
    point = Point(label="2016", first=None, last=None, **values)
    found = findings_of(*ROWS, series={"one.economy": [point]})
    assert "one.economy.2016" in {fact.id for fact in facts_of(brief_view(BEATS), found)}
    content = made(found)
    assert [(part.beat, part.anchor, part.name) for part in content.facts] == [
        (None, "top", "Top sheet"),
        ("one", "beat-one", "The first"),
        ("two", "beat-two", "Economy"),
    ]
    named = [[fact.id for fact in part.facts] for part in content.facts]
    assert named[0] == ["data.matches", "data.balls", "family.looked_at", "family.cant_tell"]
    assert all(name.startswith("one.economy.") for name in named[1]) and len(named[1]) == 4
    assert [fact.id for fact in content.listed] == [name for part in named for name in part]


def test_a_page_of_which_nothing_is_said_is_not_in_the_index():
    none = findings_of(*ROWS[1:])
    none.samples |= findings_of(*ROWS).samples
    assert [part.anchor for part in made(none).facts] == ["top", "beat-two"]


def test_looks_are_named_as_their_beats_are():
    counts = {"headlines": 1, "changed": 2, "held": 3, "cant_tell": 4, "looks": 10}
    looks = [
        Look(beat="one", measure="economy", **counts),
        Look(beat="two", measure="fours", **counts),
    ]
    first, second = made(findings_of(*ROWS, family=family(looks=looks))).looks
    assert (first["title"], first["name"]) == ("The first", "Economy")
    assert (second["title"], second["name"]) == ("two", "Fours")
    assert first.items() >= counts.items()


def test_measures_are_defined_with_what_counts_as_none():
    economy, fours = made().measures
    assert (economy["name"], economy["margin"]) == ("Economy", "5 per cent")
    assert economy["defined"] == "runs off the bowler for every six valid balls"
    assert (fours["name"], fours["margin"]) == ("Fours", "0.6 points")


def test_corrections_are_told_in_plain_words():
    fixes = [fix(), fix(old="", new="", field="bowler_id", date=date(2026, 1, 2))]
    bat, blank = made(findings_of(*ROWS, corrections=fixes)).corrections
    assert (bat["where"], bat["field"]) == ("match m1, innings 1", "runs off the bat")
    assert (bat["old"], bat["new"], bat["date"]) == ("1", "4", "2026-11-25")
    assert (blank["field"], blank["old"], blank["new"]) == ("bowler", "blank", "blank")
    assert (blank["reason"], blank["by"]) == ("A four, scored as a single", "R")


def test_sections_are_in_the_order_of_the_pages():
    content = made()
    assert sections(content) == ["top", "run-sheet", "beat-one", "beat-two", "method", "facts"]
    since = SincePage("What changed", [], [], "", [], [], "")
    assert sections(replace(content, since=since))[-3:] == ["since", "method", "facts"]


def test_the_summary_is_of_what_the_pages_say():
    found = findings_of(*ROWS)
    content = made(found, headlines=["one.economy"])
    told = summary(content, found)
    assert (told.topic, told.title, told.question) == ("asked", "A question", "What happened?")
    assert told.answer == content.answer and told.matches == "80 matches"
    assert (told.first, told.last) == (date(2016, 4, 1), date(2017, 9, 30))
    assert (told.looked_at, told.cant_tell, told.fingerprint) == (1234, 1, "00000000")


def method(found: Findings, **more: Any) -> str:
    return "\n".join(method_lines(brief_view(BEATS, **more), found))


def test_the_method_has_this_brief_s_own_numbers():
    told = method(findings_of(*ROWS, family=family(headlines=2, tables=1232)))
    for part in (
        "With fewer than 6 matches on a side",
        "1,234 comparisons were looked at. The 2 headline numbers are held to 5%",
        "the 1232 others to a 10% share of false calls",
        "whole matches were shuffled 999 times",
        "Before the long rope (2017-03-01) are the seasons 2016; after it, 2017.",
    ):
        assert part in told
    assert "came during" not in told and "on top of the drift" not in told
    assert "reduced target" not in told and "Rows that need what is unknown" not in told


def test_the_method_says_what_was_asked_of_the_drift_and_what_files_can_t_say():
    checked = change("one.economy", drift=drift(), **JUDGED)
    chosen = selection([season(2016), season(2017)], None).data
    chosen.unknown_balls, chosen.targets_reduced = {"bowler_kind": 480}, 1
    three = windows(["2015", "2016"], ["2018"], transition="2017")
    told = method(findings_of(checked, data=chosen, windows=three))
    assert "are the seasons 2015 and 2016; after it, 2018. It came during 2017" in told
    assert "the seasons 2009 to 2022 (8 before, 6 after) are asked" in told
    assert "Known, of the balls: bowling kind 99.0%. Rows that need" in told
    assert "1 match has a reduced target." in told
    chosen.targets_reduced = 3
    assert "3 matches have a reduced target." in method(findings_of(checked, data=chosen))


@pytest.mark.parametrize("missing", ["windows", "event"])
def test_without_an_event_nothing_is_said_of_before_and_after(missing: str):
    checked = change("one.economy", drift=drift(), **JUDGED)
    view = {"event": None} if missing == "event" else {}
    found = {"windows": None} if missing == "windows" else {}
    told = method(findings_of(checked, **found), **view)
    assert "Before the long rope" not in told and "on top of the drift" not in told

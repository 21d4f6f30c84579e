"""How a number is named and worded, and which lines are its own: of an edition with every kind."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from msgspec import structs

from pipeline.contracts.finding import Change
from pipeline.contracts.parts import Span
from pipeline.errata.made_lines import breath_of, line_of, sorted_lines
from pipeline.errata.naming import name_of
from pipeline.errata.number import OfBeat, OfFinding, OfTopic, number_of
from pipeline.errata.records import Record, archived_records
from pipeline.errata.search import moved_in
from pipeline.errata.sentences import sentences, verdict_moved
from pipeline.errata.wordings import by_kind, wordings
from tests.conftest import ROOT

SPIN = "middle.economy.spin"
NAMES = {
    "data.matches": "the count of matches in the topic's data",
    "when.economy.2009": "spin’s economy in the middle overs in 2009",
    "names.economy.players-kept": "the count of players with enough in both windows",
    f"{SPIN}.before": "spin’s economy in the middle overs before the long grass",
    f"{SPIN}.change": "the change in spin’s economy in the middle overs",
    f"{SPIN}.felt": "the change in spin’s economy in the middle overs, in a spell of ten overs,",
    f"{SPIN}.drift": "the drift of spin’s economy in the middle overs",
    f"{SPIN}.step": "the step in spin’s economy in the middle overs",
    f"{SPIN}.beyond-control": (
        "the change in spin’s economy in the middle overs, set against pace in the same overs,"
    ),
    "apart.economy.pace": "the change in pace’s economy",
    "apart.economy.change": "the change in spin’s economy, set against pace’s,",
    "captains.economy.mix.difference": "what a change in who bowled it did to economy",
    "captains.economy.rates.difference": "the change in economy, with the same mix,",
    "captains.economy.pace.share-before": "pace as a share of the balls before",
    "names.economy.a-sunthepell.luck-allowed-for": (
        "the change in A Sunthepell’s economy for Ostrel, with luck allowed for,"
    ),
    "when.economy.earlier": "spin’s economy in the middle overs before the break",
    "when.economy.date": "the date of the break in spin’s economy in the middle overs",
    "home.run_rate.away": "the run rate with the away side batting",
    "home.run_rate.difference": "the difference in the run rate with the home side batting",
}
WORDINGS = {
    "data.matches": {"number said": "five hundred and sixty", "shown": "560 matches"},
    f"{SPIN}.before": {"rounded": "four and a half an over", "number rounded": "four and a half"},
    f"{SPIN}.change": {
        **{"said": "just over seven per cent", "core": "seven per cent", "shown": "7.4%"},
        "interval": "between five and ten per cent down",
    },
    f"{SPIN}.beyond-control": {"interval": "between seven and thirteen per cent down"},
    "apart.economy.difference": {"size": "nearly half a run an over"},
    "share.spin-share.difference": {
        **{"size": "nearly six points", "size alone": "six points", "shown": "5.5 pts"},
        "interval": "between five and six points up",
    },
    "captains.economy.pace.share-after": {
        **{"number rounded": "sixty-seven", "fraction": "just over two thirds"},
    },
    "names.economy.a-sunthepell.luck-allowed-for": {
        "interval": "from eight per cent down to sixty-nine up",
    },
    "chases.win_share.before": {
        **{"rounded in per cent": "forty-four per cent", "shown in per cent": "44 per cent"},
    },
    "tail.batting_strike_rate.9.after": {"shown shortly": "61.9 a hundred balls"},
}


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Record:
    """The edition that is kept in tests/, alone in an archive."""
    archive: Path = tmp_path_factory.mktemp("archive")
    (archive / "spinners").mkdir()
    (archive / "spinners" / "1").symlink_to(ROOT / "tests" / "old_edition")
    (found,) = archived_records(archive, "spinners")
    return found


@pytest.mark.parametrize("fact", NAMES)
def test_a_number_is_named_by_what_it_is_of(record: Record, fact: str):
    number = number_of(record, fact)
    assert number and name_of(number) == NAMES[fact]


@pytest.mark.parametrize("fact", WORDINGS)
def test_a_number_may_have_been_said_in_several_ways(record: Record, fact: str):
    number = number_of(record, fact)
    found = by_kind(number) if number else {}
    assert {kind: found.get(kind) for kind in WORDINGS[fact]} == WORDINGS[fact]
    refused = isinstance(number, OfFinding) and number.finding.refused
    assert not refused or not {"rounded", "interval"} & set(found), "nothing the interval bears"


def test_every_number_has_a_name_and_what_to_look_for(record: Record):
    kinds = set()
    for fact in record.side.facts:
        number = number_of(record, fact.id)
        assert number and name_of(number) and by_kind(number)["said"]
        assert [one.old for one in wordings(number, None)]
        kinds.add(type(number))
    assert kinds == {OfTopic, OfBeat, OfFinding}
    assert number_of(record, "nobody") is None


def test_a_number_that_turned_is_said_with_its_way(record: Record):
    was, now = (number_of(record, f"{name}.change") for name in (SPIN, "middle.economy.pace"))
    assert was and now
    turned = {one.old: one for one in wordings(was, now)}
    assert turned["just over seven per cent"].new == "about three per cent up"
    assert not any(one.right for one in turned.values())
    same = wordings(was, was)
    assert all(one.right and one.new == one.old for one in same if one.old != "seven per cent")


def test_lines_are_the_finding_s_another_s_or_nobody_s(record: Record):
    lines = record.side.lines["In the middle"]
    made = {finding.id: line_of(record, finding) for finding in record.findings.findings}
    own, free = sorted_lines([*lines, "A line by hand."], SPIN, record, line_of)
    assert own == [line for line in lines if line.endswith(made[SPIN])] != []
    assert free == ["A line by hand."]
    assert sorted_lines(lines, None, record, line_of) == ([], [])


def test_of_the_answer_only_headlines_have_a_sentence(record: Record):
    said = record.side.lines["The answer"]
    own, free = sorted_lines(said, SPIN, record, breath_of)
    assert own == said[:1] and free == said[2:], "the second is another headline's"
    others = [each for each in record.findings.findings if each.id not in ("apart.economy", SPIN)]
    assert {breath_of(record, each) for each in others if each.id != "home.run_rate"} == {None}


def answer(record: Record, name: str, now: Record, moved: bool) -> dict[str, bool]:
    """The sentences of the answer that have a number, each with whether only its verdict has it."""
    number = number_of(record, name)
    assert number
    found = sentences(record, now, number, wordings(number, None), moved)
    return {use.sentence: use.verdict for use in found if use.part == "The answer"}


def test_the_answer_has_a_headline_by_its_words_its_name_and_its_verdict(record: Record):
    fell = "Spin’s economy in the middle overs fell by just over seven per cent."
    both = "Both are beyond the drift that was there anyway."
    silent = replace(record, side=record.side._replace(lines={}))
    assert answer(record, f"{SPIN}.change", silent, False) == {fell: False}
    assert answer(record, f"{SPIN}.change", silent, True) == {fell: False, both: True}
    assert answer(record, f"{SPIN}.change", record, True) == {fell: False}, "said today as well"
    assert answer(record, "home.run_rate.home", silent, True) == {
        both: True,
        "The run rate held.": True,
    }
    assert answer(record, "captains.economy.change", silent, True) == {}, "no headline"
    assert answer(record, "when.economy.2009", silent, True) == {}


def test_a_beat_s_own_lines_stand_on_its_verdict(record: Record):
    silent = replace(record, side=record.side._replace(lines={}))
    number = number_of(record, f"{SPIN}.change")
    assert number
    told = sentences(record, silent, number, [], True)
    lines = [use.sentence for use in told if use.part == "In the middle"]
    assert "This is a step on top of that: just over ten per cent down." in lines
    assert not any(line.startswith("Pace") for line in lines) and all(use.verdict for use in told)


def test_either_verdict_may_have_moved(record: Record):
    number = number_of(record, f"{SPIN}.change")
    assert isinstance(number, OfFinding) and isinstance(number.finding, Change)
    drift = number.finding.drift
    assert drift

    def moved(**more: Any) -> bool:
        return verdict_moved(
            number, replace(number, finding=structs.replace(number.finding, **more))
        )

    assert not moved() and moved(verdict="held")
    assert moved(drift=structs.replace(drift, verdict="in line with the drift"))
    assert verdict_moved(number, None) and verdict_moved(number, number_of(record, "data.matches"))
    assert not verdict_moved(OfTopic(number.fact), None)


def test_a_multiple_is_said_where_there_is_one(record: Record):
    number = number_of(record, f"{SPIN}.change")
    assert isinstance(number, OfFinding)

    def times(relative: Span | None) -> str | None:
        effect = structs.replace(number.finding.told, relative=relative)
        finding = structs.replace(number.finding, effect=effect)
        return by_kind(replace(number, finding=finding)).get("times")

    assert times(Span(value=1.0, low=0.9, high=1.1)) == "twice what it was"
    assert times(Span(value=-0.07, low=-0.1, high=-0.05)) is None
    assert times(Span(value=0.0, low=-0.1, high=0.1)) is None


def test_what_is_felt_of_no_stretch_is_named_without_one(record: Record):
    number = number_of(record, f"{SPIN}.felt")
    assert number
    bare = replace(number, fact=structs.replace(number.fact, unit="runs"))
    assert name_of(bare) == NAMES[f"{SPIN}.change"]


def test_a_wording_knows_what_of_its_finding_it_is(record: Record):
    for name, of in ((f"{SPIN}.step", "step"), ("data.matches", ""), ("when.economy.2009", "")):
        number = number_of(record, name)
        assert number and {one.of for one in wordings(number, number)} == {of}


def test_beats_of_one_title_are_searched_together(record: Record):
    """Three beats have no title of their own, and are called after their measure."""
    for name, start in (
        ("apart.economy.pace", "Economy: pace went up nearly five per cent"),
        ("captains.economy.pace.share-before", "Pace bowled seventy-three per cent"),
        ("when.economy.date", "Don’t tell the data when the long grass came"),
    ):
        number = number_of(record, name)
        assert number
        found = sentences(record, record, number, wordings(number, None), False)
        assert any(use.sentence.startswith(start) for use in found if use.part == "Economy"), name


def test_a_number_that_is_as_it_was_has_not_moved(record: Record):
    assert moved_in(record, [f"{SPIN}.change", "nobody"], record) == []

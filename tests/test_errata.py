"""How a number is named and worded: of an edition with every kind of beat."""

from __future__ import annotations

from dataclasses import replace

import pytest
from msgspec import structs

from pipeline.contracts.parts import Span
from pipeline.errata.moved_facts import moved_in
from pipeline.errata.number import OfBeat, OfFinding, OfTopic, number_of
from pipeline.errata.records import Record
from pipeline.errata.wordings import by_kind, wordings
from pipeline.said.naming import name_of
from tests.records import old_record

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
    "captains.economy.mix.difference": "what a change in who was bowling did to economy",
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
        "could be": "anywhere from five to ten per cent down",
        "could be, its noun a way": "anywhere from five to ten per cent",
        "could be, of groups": "anywhere from five to ten per cent lower",
    },
    f"{SPIN}.step": {"could be, its noun a way": "anywhere from six to fourteen per cent"},
    f"{SPIN}.beyond-control": {"interval": "between seven and thirteen per cent down"},
    "apart.economy.difference": {"size": "nearly half a run an over"},
    "share.spin-share.difference": {
        "size": "about five and a half percentage points",
        "size alone": "five and a half percentage points",
        "size in wholes": "nearly six percentage points",
        "size in wholes alone": "six percentage points",
        **{"shown": "5.5 pts", "interval": "between five and six percentage points up"},
        "could be, its noun a way": "anywhere from five to six percentage points",
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
    return old_record(tmp_path_factory.mktemp("archive"))


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


def test_groups_that_are_higher_were_up_and_have_not_turned(record: Record):
    """An edition of 0.8 said of two groups what is said of time."""
    was = number_of(record, "home.run_rate.change")
    assert was and was.fact.spoken == "less than one per cent up"
    size = "less than one per cent"
    now = replace(was, fact=structs.replace(was.fact, spoken=f"{size} higher"))
    told = {one.old: one for one in wordings(was, now)}
    assert told[size].right and told[size].new == size
    other = replace(was, fact=structs.replace(was.fact, spoken=f"{size} lower"))
    assert {one.old: one.new for one in wordings(was, other)}[size] == f"{size} lower"


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


def test_a_multiple_is_said_where_there_is_one(record: Record):
    number = number_of(record, f"{SPIN}.change")
    assert isinstance(number, OfFinding)

    def times(relative: Span | None) -> list[str]:
        effect = structs.replace(number.finding.told, relative=relative)
        finding = structs.replace(number.finding, effect=effect)
        found = by_kind(replace(number, finding=finding))
        return [found[kind] for kind in ("times", "times alone") if kind in found]

    twice = times(Span(value=1.0, low=0.9, high=1.1))
    assert twice == ["about twice what it was", "twice what it was"], "as it is said, and was"
    assert times(Span(value=-0.07, low=-0.1, high=-0.05)) == []
    assert times(Span(value=0.0, low=-0.1, high=0.1)) == []


def test_what_is_felt_of_no_stretch_is_named_without_one(record: Record):
    number = number_of(record, f"{SPIN}.felt")
    assert number
    bare = replace(number, fact=structs.replace(number.fact, unit="runs"))
    assert name_of(bare) == NAMES[f"{SPIN}.change"]


def test_a_wording_knows_what_of_its_finding_it_is(record: Record):
    for name, of in ((f"{SPIN}.step", "step"), ("data.matches", ""), ("when.economy.2009", "")):
        number = number_of(record, name)
        assert number and {one.of for one in wordings(number, number)} == {of}


def test_a_number_that_is_as_it_was_has_not_moved(record: Record):
    assert moved_in(record, [f"{SPIN}.change", "nobody"], record) == []

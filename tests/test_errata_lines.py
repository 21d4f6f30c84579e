"""Which sentences of a brief say a number: by lines made again, by what they name, by its words."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from msgspec import structs

from pipeline.contracts.finding import Change, Finding
from pipeline.editions.sides import ANSWER
from pipeline.errata.made_lines import line_of, sorted_lines, told_in_answer
from pipeline.errata.number import number_of
from pipeline.errata.records import Record
from pipeline.errata.sentences import asked_alike, sentences, titles
from pipeline.errata.wordings import wordings
from tests.records import finding_number, in_todays_words, old_record, with_findings

SPIN, PACE, GAP, RATE = (
    "middle.economy.spin",
    "middle.economy.pace",
    "apart.economy",
    "home.run_rate",
)
MIDDLE = "In the middle"


@pytest.fixture(scope="module")
def old(tmp_path_factory: pytest.TempPathFactory) -> Record:
    """An edition in the words of 0.8."""
    return old_record(tmp_path_factory.mktemp("archive"))


@pytest.fixture(scope="module")
def today(old: Record) -> Record:
    return in_todays_words(old)


def found(record: Record, name: str, moved: bool = False, now: Record | None = None) -> list[Any]:
    """The sentences that have a number; nothing is said today unless `now` is given."""
    silent = replace(record, side=record.side._replace(lines={}))
    number = number_of(record, name)
    assert number
    return sentences(record, now or silent, number, wordings(number, None), moved)


def of_part(uses: list[Any], part: str) -> dict[str, bool]:
    """The sentences of a part, each with whether it is known to be the finding's own."""
    return {use.sentence: use.own for use in uses if use.part == part}


def finding(record: Record, name: str) -> Finding:
    one = record.finding(name)
    assert one
    return one


# Lines that are made again


def test_lines_are_the_finding_s_another_s_or_nobody_s(today: Record):
    lines = today.side.lines[MIDDLE]
    assert len(lines) == 3
    own, free = sorted_lines([*lines, "A line by hand."], [SPIN], today, line_of)
    (line,) = own
    assert line.startswith("Now the other way. Spin’s economy in the middle overs fell")
    assert free == ["A line by hand."]
    assert sorted_lines(lines, [], today, line_of) == ([], [])


def test_nothing_but_how_it_follows_may_stand_before_a_line(today: Record):
    """'With the same mix, economy held' ends as another finding's line does, and is not it."""
    is_line = line_of(today, finding(today, SPIN))
    (line,) = filter(is_line, today.side.lines[MIDDLE])
    bare = line.removeprefix("Now the other way. ")
    assert is_line(bare) and is_line(f"As in “Economy”: {bare}")
    assert not is_line(f"With the same mix, {bare[:1].lower()}{bare[1:]}")


def test_what_an_earlier_beat_told_is_own_by_its_short_line(today: Record):
    again = structs.replace(finding(today, SPIN), again="apart.economy.spin")
    told = with_findings(today, again, structs.replace(finding(today, PACE), verdict="held"))
    (line,) = filter(line_of(told, again), told.side.lines[MIDDLE])
    assert line == "Spin’s economy in the middle overs, as you’ve heard, went down."
    unkept = replace(told, said={})
    assert list(filter(line_of(unkept, again), told.side.lines[MIDDLE])) == [line], "made again"
    fallen = {use.sentence: use for use in found(told, f"{SPIN}.change", True)}
    assert fallen[line].verdict and fallen[line].part == MIDDLE and not fallen[line].says


def test_what_a_brief_keeps_of_its_lines_is_what_is_made_again(today: Record):
    """Of lines of one finding: an edition that keeps no record has the same ones."""
    unkept = replace(today, said={})
    for finding in today.findings.findings:
        lines = today.side.lines[titles(today)[finding.beat]]
        kept = {line for line in lines if today.said[line] == {finding.id}}
        assert kept <= set(filter(line_of(unkept, finding), lines)), finding.id


def test_of_the_answer_only_headlines_have_sentences(today: Record):
    said = today.side.lines[ANSWER]
    saying, apart, both, level = said
    assert sorted_lines(said, [SPIN], today, told_in_answer) == ([saying, both], [])
    assert sorted_lines(said, [GAP], today, told_in_answer).own == [apart, both]
    assert sorted_lines(said, [RATE], today, told_in_answer).own == [level]
    assert sorted_lines(said, [PACE], today, told_in_answer) == ([], [])


def test_a_saying_that_is_answered_alone_is_of_its_finding_alone(today: Record):
    held = structs.replace(finding(today, SPIN), verdict="held")
    told = with_findings(today, held)
    (saying,) = (line for line in told.side.lines[ANSWER] if line.startswith("“"))
    assert saying.count(".") == 1, "nothing else is said with it"
    assert of_part(found(told, f"{SPIN}.change", True), ANSWER)[saying]
    assert saying not in of_part(found(told, f"{GAP}.change", True), ANSWER)


def test_what_can_t_be_told_of_several_is_the_sentence_of_each(today: Record):
    def open_(name: str) -> Finding:
        one = structs.replace(
            finding(today, name), verdict="can't tell", because="interval_too_wide"
        )
        return structs.replace(one, drift=None) if isinstance(one, Change) else one

    headlines = structs.replace(today.findings, headlines=[SPIN, PACE])
    told = with_findings(replace(today, findings=headlines), open_(SPIN), open_(PACE))
    lines = told.side.lines[ANSWER]
    (both,) = (line for line in lines if "spin’s economy in the middle overs or pace" in line)
    for name in (SPIN, PACE):
        assert both in sorted_lines(lines, [name], told, told_in_answer).own
        assert of_part(found(told, f"{name}.change", True), ANSWER)[both]
    assert both not in sorted_lines(lines, [GAP], told, told_in_answer).own


def test_what_nobody_can_tell_of_a_beat_is_the_line_of_each_that_it_names(today: Record):
    def open_(name: str) -> Finding:
        one = structs.replace(finding(today, name), verdict="can't tell", drift=None)
        return structs.replace(one, because="interval_too_wide")

    some = (PACE, "middle.economy")
    told = with_findings(today, *map(open_, some))
    (both,) = (line for line in told.side.lines[MIDDLE] if set(some) == told.said[line])
    for name in some:
        assert of_part(found(told, f"{name}.change", True), MIDDLE)[both]
    assert both not in of_part(found(told, f"{SPIN}.change", True), MIDDLE)


# Sentences in today's words


def test_the_answer_has_a_headline_whatever_is_said_of_its_drift_there(today: Record):
    fell = "Spin’s economy in the middle overs fell by just over seven per cent."
    saying = "“The spinners got their game back”? The data agree."
    both = "Neither is just an old trend carrying on."
    alone, fallen = {fell: True}, {saying: True, both: True}
    assert of_part(found(today, f"{SPIN}.change"), ANSWER) == alone
    assert of_part(found(today, f"{SPIN}.change", True), ANSWER) == alone | fallen
    assert of_part(found(today, f"{SPIN}.change", True, today), ANSWER) == alone
    assert of_part(found(today, "captains.economy.change", True), ANSWER) == {}, "no headline"
    assert of_part(found(today, "when.economy.2009", True), ANSWER) == {}


def test_each_part_of_a_finding_is_in_its_own_sentence(today: Record):
    """A change and the change beyond its control are two numbers; a step's is for the table."""
    middle = {
        name: [use.sentence for use in found(today, f"{SPIN}.{name}") if use.part == MIDDLE]
        for name in ("change", "drift", "step", "beyond-control")
    }
    (change,), (control,) = (middle[one] for one in ("change", "beyond-control"))
    assert change.startswith("Allow for luck, and the fall is anywhere from five to ten per cent")
    assert control.startswith("Measured against pace in the same overs, it’s down: anywhere from")
    assert middle["step"] == [], "no line has its number"
    assert middle["drift"] == [], "0.8 gave it no interval, so none is told"


def test_a_finding_s_lines_stand_on_its_verdict(today: Record):
    uses = [use for use in found(today, f"{SPIN}.beyond-control", True) if use.part == MIDDLE]
    told = {use.sentence: use.verdict for use in uses}
    steps = [line for line in told if "a step down" in line]
    assert steps and all(told[line] for line in steps), told
    assert "Now the other way." not in told and not any(line.startswith("Pace") for line in told)
    wrong = [use for use in uses if use.says]
    assert [use.verdict for use in wrong] == [False], "it says what is to be said instead"


def test_a_sentence_whose_number_is_right_may_stand_on_a_verdict_that_fell(today: Record):
    """'“It fell”? The data agree', of a number that is the same, where only its verdict went."""
    number = number_of(today, f"{SPIN}.change")
    assert number
    silent = replace(today, side=today.side._replace(lines={}))
    uses = sentences(today, silent, number, wordings(number, number), True)
    (fell,) = (
        use for use in uses if use.sentence.startswith("Spin’s economy in the middle overs fell by")
    )
    assert [one.right for one in fell.says] == [True] and fell.verdict


def test_one_question_is_searched_in_every_beat_that_asks_it(today: Record):
    """The captains' beat tells pace's change, which the beat before it told in full."""
    number = finding_number(today, "captains.economy.pace.change")
    assert [one.id for one in asked_alike(today, number)] == [
        "apart.economy.pace",
        "captains.economy.pace",
    ]
    asks = finding(today, "captains.economy.pace").asks
    moved = structs.replace(finding(today, SPIN), asks=asks)
    elsewhere = with_findings(today, moved)
    parts = {use.part for use in found(elsewhere, "captains.economy.pace.change", True)}
    assert parts == {
        *(ANSWER, MIDDLE, "Economy: did pace and spin move apart?"),
        "Economy, pace and spin: who bowled it, or how well?",
    }


def test_what_is_beyond_one_control_is_not_what_is_beyond_another(today: Record):
    asks = structs.replace(finding(today, SPIN).asks, control=None)
    other = structs.replace(finding(today, PACE), asks=asks)
    record = with_findings(today, other)
    change, control = (
        finding_number(record, f"{SPIN}.{part}") for part in ("change", "beyond-control")
    )
    assert {one.id for one in asked_alike(record, change)} == {SPIN, PACE}
    assert [one.id for one in asked_alike(record, control)] == [SPIN]


# In the words of an older version


def test_beats_without_a_title_were_headed_by_their_measure(old: Record, today: Record):
    """Each edition's lines are looked for under the headings that it has."""
    then, now = titles(old), titles(today)
    assert list(then.values())[:4] == [MIDDLE, "Economy", "Economy", "Spin’s share of the balls"]
    assert {*then.values(), ANSWER} == set(old.side.lines)
    assert list(now.values())[3] == "Who bowled: spin’s share"
    assert {*now.values(), ANSWER} == set(today.side.lines)


def test_of_lines_in_older_words_none_is_recognised_but_as_today_s(old: Record, today: Record):
    ids = [one.id for one in old.findings.findings]
    for title, lines in old.side.lines.items():
        known = sorted_lines(lines, ids, old, told_in_answer if title == ANSWER else line_of).own
        assert set(known) <= {line for told in today.side.lines.values() for line in told}, title
    for title in (ANSWER, MIDDLE):
        assert sorted_lines(old.side.lines[title], ids, old, line_of).own == []


def test_there_its_words_are_found_in_lines_that_name_it(old: Record):
    """Change, step and control, each by the words of its interval or size then."""
    found_then = {
        "before": (
            "Spin’s economy in the middle overs fell from four and a half an over to four point "
            "two."
        ),
        "change": "That is a real change: between five and ten per cent down.",
        "step": "This is a step on top of that: just over ten per cent down.",
        "drift": "It was rising by about nought point six per cent a season anyway.",
        "beyond-control": (
            "Set against pace in the same overs, it is still a change: between seven and thirteen "
            "per cent down."
        ),
    }
    for part, sentence in found_then.items():
        assert of_part(found(old, f"{SPIN}.{part}"), MIDDLE).get(sentence), part


def test_there_the_answer_has_a_headline_by_its_name(old: Record):
    fell = "Spin’s economy in the middle overs fell by just over seven per cent."
    both = "Both are beyond the drift that was there anyway."
    assert of_part(found(old, f"{SPIN}.change"), ANSWER) == {fell: True}
    assert of_part(found(old, f"{SPIN}.change", True), ANSWER) == {fell: True, both: True}
    assert of_part(found(old, "home.run_rate.home", True), ANSWER) == {
        both: True,
        "The run rate held.": True,
    }


def test_there_a_line_that_names_nothing_has_the_words_alone(old: Record):
    """Beats of one title are searched together, and whose line it is can't be told."""
    for name, start in (
        ("captains.economy.pace.share-before", "Pace bowled seventy-three per cent"),
        ("captains.economy.pace.change", "Economy: pace went up nearly five per cent"),
    ):
        told = of_part(found(old, name), "Economy")
        (sentence,) = (each for each in told if each.startswith(start))
        assert told[sentence] is False, name


def test_there_a_verdict_takes_only_lines_that_name_its_subject(old: Record):
    fallen = [use.sentence for use in found(old, f"{SPIN}.change", True) if use.part == MIDDLE]
    assert "This is a step on top of that: just over ten per cent down." in fallen
    assert not any(sentence.startswith(("Pace", "Economy")) for sentence in fallen)


def test_the_longest_name_says_whose_line_it_is(old: Record):
    """'At number 8 and number 9' is no line of number 8's."""
    told = of_part(found(old, "tail.batting_strike_rate.8.change", True), "Batting strike rate")
    assert told and not any("number 8 and number 9" in sentence for sentence in told)

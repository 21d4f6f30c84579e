"""Captions without signs: a right number stays right wherever they pause, a wrong one is found."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from pathlib import Path

import pytest

from pipeline.contracts.script_check import SentenceChecked
from pipeline.said.check import Sentence, checked
from pipeline.said.topic_known import Known
from pipeline.script.judged import asked
from pipeline.transcripts.caption_files import Caption
from pipeline.transcripts.joined import passages
from pipeline.transcripts.passage import Passage
from tests.script_scores import known_by
from tests.test_said_lines import known, sentences
from tests.told import demo_told
from tests.unsigned_captions import (
    DEMO,
    FINE,
    WRONG,
    Pauses,
    is_fine,
    moved_results,
    results,
    results_of,
    signed,
)
from tests.unsigned_trials import trials
from tests.voices import MOST, turned

LEAST = 0.8  # of the numbers that are moved
ALMOST_ALL = 0.95  # of the right numbers, in other words than today's
FEW = 2  # of some 120
UNFOUND = 0.08  # of them: what is moved may be right of what stands beside it


@pytest.mark.parametrize(
    ("pauses", "seeds"), [("ends", 1), ("nowhere", 1), ("anywhere", 6)], ids=lambda each: str(each)
)
def test_no_right_number_of_the_demo_s_lines_is_wrong_wherever_pauses_stand(
    built: Path, pauses: Pauses, seeds: int
):
    for seed in range(seeds):
        found = results(built, pauses, seed)
        assert found.total() > 100
        assert {each: found[each] for each in found if each not in FINE} == {}, seed


@pytest.mark.parametrize("by", range(1, MOST))
def test_in_other_words_hardly_any_is_wrong(built: Path, by: int):
    """Without commas two numbers of one sentence may change places: that no pause tells."""
    found: Counter[str] = Counter()
    with turned(by):
        for topic in DEMO:
            told = demo_told(built, topic)
            facts, said = known(told), [each.text for each in sentences(told)]

            def judge(passages: Sequence[Passage], facts: Known = facts) -> list[SentenceChecked]:
                return checked([asked(one) for one in passages], facts)

            right = [each for each in signed(said, judge) if is_fine(each)]
            found += results_of(said, judge, right, "anywhere", by)
    assert found.total() > 100
    assert sum(found[each] for each in WRONG) <= FEW, found
    assert found["supported"] + found["not a statistic"] >= ALMOST_ALL * found.total(), found


@pytest.mark.parametrize("pauses", ["ends", "anywhere"])
def test_a_number_that_is_moved_is_found_there(built: Path, pauses: Pauses):
    found = moved_results(built, pauses, 0)
    assert found.total() > 150
    told = found["contradicted"] + found["for a person 1"] + found["for a person 2"]
    assert told >= LEAST * found.total(), found
    assert found["contradicted"] > found.total() / 2, found
    assert found["supported"] <= UNFOUND * found.total(), found


def test_the_trials_sentences_are_mostly_judged_as_with_signs(built: Path):
    """The README has the figures: what goes the wrong way is found least well."""
    found = trials(built, "anywhere", 3)
    for name, least in (("supported", 0.95), ("wrong direction", 0.82), ("wrong unit", 0.84)):
        assert found[name][name] >= least * found[name].total(), (name, found[name])
    wrong = found["contradicted"]
    told = wrong["contradicted"] + wrong["for a person"] + wrong["unsupported"]
    assert told >= 0.92 * wrong.total(), wrong  # of nobody's, or for a person: it is shown
    assert wrong["supported"] <= 0.04 * wrong.total(), wrong


SPIN = "spin's economy in the middle overs"


def judged(built: Path, *pieces: str) -> list[Counter[str]]:
    """The results of captions with a pause between them."""
    shown = [Caption(at * 9_000, at * 9_000 + 7_500, [text]) for at, text in enumerate(pieces)]
    found = checked([asked(one) for one in passages(shown)], known_by(str(built), "long-grass"))
    return [Counter(number.result for number in one.numbers) for one in found]


def test_a_subject_in_the_piece_before_is_this_number_s(built: Path):
    first, second = "well i can tell you the data agree spin's economy", (
        "in the middle overs fell by nearly nine per cent the boundary share against spin in the "
        "middle overs fell by about two and a half percentage points"
    )  # fmt: skip
    assert judged(built, first, second) == [{}, {"supported": 2}]
    known = known_by(str(built), "long-grass")
    (_, signed) = checked([Sentence(f"{first}."), Sentence(f"{second}.")], known)
    assert [number.result for number in signed.numbers] == ["contradicted", "supported"]


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("went from four and a half an over up to six", {"supported": 1, "contradicted": 1}),
        ("is up by nearly nine per cent now", {"wrong direction": 1}),
        ("went from four point one to four and a half", {"wrong direction": 2}),
    ],
)
def test_what_no_sentence_makes_right_stays_wrong(built: Path, said: str, found: dict[str, int]):
    assert judged(built, f"{SPIN} {said}", "and that is all that there is to say") == [found, {}]


@pytest.mark.parametrize(("after", "joins"), [(5_000, [True]), (9_000, [True, False])])
def test_after_a_silence_nothing_goes_on_with_what_was_before(after: int, joins: list[bool]):
    shown = [Caption(0, 3_000, ["we said so many things of"])]
    shown += [Caption(after, after + 3_000, ["spin's economy that nobody heard"])]
    assert [0 in (one.breaks or ()) for one in passages(shown)] == joins


def test_where_signs_are_set_they_say_where_sentences_begin():
    assert [one.breaks for one in passages([Caption(0, 3_000, ["It fell. It rose."])])] == [
        None
    ] * 2

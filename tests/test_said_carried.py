"""How long a name is in mind, and what a number is held against that names nothing itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.contracts.script_check import SentenceChecked
from pipeline.said.check import Sentence, checked
from pipeline.slots.marked_up import blocks_of
from pipeline.transcripts.script_text import of_blocks, of_text
from tests.script_scores import known_by

SPIN = "Spin’s economy in the middle overs"
DEATH = "Pace at the death went for 7.3 an over."


def said(built: Path, *texts: str | Sentence) -> SentenceChecked:
    """The last of these sentences."""
    told = [text if isinstance(text, Sentence) else Sentence(text) for text in texts]
    return checked(told, known_by(str(built), "long-grass"))[-1]


def results(built: Path, *texts: str | Sentence) -> list[str]:
    return [number.result for number in said(built, *texts).numbers]


def test_a_name_is_kept_for_two_sentences(built: Path):
    told = [f"Take {SPIN.lower()}.", "Look at the chart.", "It fell to four point one."]
    assert results(built, *told) == ["supported"]
    assert results(built, *told[:2], "Good.", told[2]) == ["for a person"]


def test_a_name_is_kept_as_long_as_numbers_are_right_of_it(built: Path):
    told = [f"Take {SPIN.lower()}.", "It was 4.47 before.", "It is 4.09 now.", "Down 8.6 per cent."]
    assert results(built, *told, "Nearly nine.") == ["supported"]


def test_a_blank_line_ends_it(built: Path):
    told = Sentence("It fell to four point one.", begins=True)
    assert results(built, f"Take {SPIN.lower()}.", told) == ["for a person"]
    headed = told._replace(heading=SPIN)
    assert results(built, headed) == ["supported"], "a heading is for all that is under it"


def test_where_blank_lines_stand_is_read():
    text = "Spin fell. It was\n4.1. More.\nThird.\n\nOther.\nIt went on."
    begins = {"Other."}
    assert {each.text for each in of_text(text) if each.begins} == begins
    kept = of_blocks(blocks_of(f"# Heading\n{text}", "x"), [], "x")
    assert {each.text for each in kept if each.begins} == begins


def test_what_is_only_carried_contradicts_nothing(built: Path):
    (number,) = said(built, DEATH, "Two point six an over.").numbers
    assert (number.result, number.risk) == ("for a person", 2)
    assert results(built, DEATH, "It went down to 2.6 an over.") == ["contradicted"], "it says so"
    assert results(built, DEATH, "Spin conceded 4.1.") == ["for a person"]


def test_a_sentence_that_is_right_of_its_own_names_is_right(built: Path):
    text = "Spin bowled 44 per cent, up from 35, and conceded 4.1."
    assert results(built, DEATH, text) == ["supported"] * 3
    assert "supported" not in results(built, DEATH, text.replace("44", "64"))[:1]


def test_a_share_of_the_balls_is_of_no_measure_that_was_named(built: Path):
    before = "The boundary share in the middle overs fell by just over two points."
    (number,) = said(
        built, before, "Spin now bowls eight percentage points more of the middle overs."
    ).numbers
    assert (number.result, number.fact) == ("supported", "who.spin-share.difference")


@pytest.mark.parametrize(("who", "result"), [("pace", "supported"), ("spin", "contradicted")])
def test_of_two_groups_the_other_has_the_rest(built: Path, who: str, result: str):
    text = f"More than half of the balls in the middle overs were bowled by {who}."
    assert results(built, text) == [result]


def test_times_channels_and_viewers_are_no_statistics(built: Path):
    text = "See you at 8.30 on Thursday, channel 5, 20 thousand of you."
    assert results(built, text) == ["not a statistic"] * 3


def test_what_is_contradicted_has_its_fact(built: Path):
    (number,) = said(built, "Pace bowled 30 per cent of the balls in the middle overs.").numbers
    assert number.fact or number.result != "contradicted"
    (number,) = said(built, f"{SPIN} came down to six an over.").numbers
    assert (number.result, number.fact) == ("contradicted", "kinds.economy.spin-middle.after")

"""What stands beside a number or a claim: whose it is, when it was, what it is set against."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.contracts.script_check import SentenceChecked
from pipeline.said.check import Sentence, checked
from tests.script_scores import known_by

SPIN = "spin’s economy in the middle overs"


def check(built: Path, topic: str, text: str) -> SentenceChecked:
    (sentence,) = checked([Sentence(text)], known_by(str(built), topic))
    return sentence


def results(built: Path, topic: str, text: str) -> list[str]:
    return [number.result for number in check(built, topic, text).numbers]


@pytest.mark.parametrize(
    ("text", "second"),
    [
        ("At the death pace cost six point eight in the old days, seven and a quarter in the new.",
         "supported"),
        (f"Since the long grass, {SPIN} has been 4.1, and now it is 4.5.", "wrong direction"),
        (f"After the long grass {SPIN} was 4.1, and later 4.5.", "wrong direction"),
        ("The run rate between overs 11 and 40 is 4.5 now; it was 9.9.", "unsupported"),
    ],
)  # fmt: skip
def test_the_other_of_two_values_is_of_the_other_window_unless_it_is_dated(
    built: Path, text: str, second: str
):
    assert results(built, "long-grass", text)[-1] == second


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("At the death spin went up nearly seven per cent, pace nearly twelve.",
         ["wrong direction", "wrong direction"]),
        ("At the death spin went up nearly twelve per cent, pace nearly seven.",
         ["supported", "supported"]),
        ("At the death spin went down nearly seven per cent, pace down nearly twelve.",
         ["contradicted", "contradicted"]),
    ],
)  # fmt: skip
def test_two_groups_that_have_each_other_s_number_go_the_wrong_way(
    built: Path, text: str, found: list[str]
):
    assert results(built, "long-grass", text) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Spin’s economy at the death rose by eleven to twelve per cent.", "supported"),
        ("Spin’s economy at the death rose by fifteen to sixteen per cent.", "contradicted"),
        ("Spin’s economy at the death rose by 10.6 to 11.6 per cent.", "contradicted"),
    ],
)
def test_two_whole_numbers_hold_what_is_between_them(built: Path, text: str, found: str):
    assert results(built, "long-grass", text)[0] == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Relative to pace, spin at the death rose by 11.6 per cent.", "supported"),
        ("Next to pace the economy of spin at the death rose by 11.6 per cent.", "supported"),
        ("Next to pace the economy of spin at the death rose by 6.9 per cent.", "wrong direction"),
    ],
)
def test_what_a_group_is_set_against_is_not_what_the_number_is_of(
    built: Path, text: str, found: str
):
    assert results(built, "long-grass", text) == [found]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("He was going for nine and a half, and then he wasn’t.", "for a person"),
        ("He says the run rate after the long grass was 5.9.", "contradicted"),
        ("My lad, the run rate fell by nine per cent.", "contradicted"),
        ("The gate money fell by £9.", "unsupported"),
        ("Spin in the middle overs is cheaper by £0.39.", "unsupported"),
        ("At 3:51 on the clock we ask.", "not a statistic"),
        ("Script p.3 is where we begin.", "not a statistic"),
        ("Spin in the middle overs is 0.39 of a run cheaper.", "supported"),
        ("Spin in the middle overs saves you 0.39 runs every single over.", "supported"),
        ("In the middle overs spin tightened up by nearly nine per cent.", "supported"),
        ("In the middle overs spin loosened by nearly nine per cent.", "supported"),
    ],
)
def test_whose_a_number_is_and_what_it_counts(built: Path, text: str, found: str):
    assert set(results(built, "long-grass", text)) == {found}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Away from the sea the quicks went at 5.11; beside it, 4.87.", ["supported"] * 2),
        ("Away from the sea the quicks went at 4.87; beside it, 5.11.", ["wrong direction"] * 2),
        ("Spin up country: 45.6 balls a wicket.", ["supported"]),
        ("Spin is the cheaper at the coast, 4.60 against pace at 4.87.", ["supported"] * 2),
        ("Spin costs less at the coast, 4.6, than the 4.5 it costs inland.",
         ["wrong direction", "supported"]),
        ("For a spinner, ten balls more for every ten wickets at the coast.",
         ["supported", "not a statistic"]),
        ("For a spinner, thirty balls more for every ten wickets at the coast.",
         ["contradicted", "not a statistic"]),
    ],
)  # fmt: skip
def test_places_are_known_again_and_compared(built: Path, text: str, found: list[str]):
    assert results(built, "sea-air", text) == found


@pytest.mark.parametrize(
    ("topic", "text", "kinds"),
    [
        ("sea-air", "Only the quicks get anything out of the sea.", ["no gap"]),
        ("who-paid", "Only spin changed.", ["don't say"]),
        ("sea-air", "Did only the quicks benefit?", []),
        ("sea-air", "Only the quicks got a new ball.", []),
        ("long-grass", "Of everybody, spin in the middle overs benefited most.", ["no gap"]),
        ("long-grass", "Spin in the middle overs fell most in 2017.", []),
        ("long-grass", "No other bowling dropped the way spin in the middle overs did.",
         ["no gap"]),
        ("long-grass", "Nobody tested whether spin fell more than pace.", []),
        ("long-grass", "The slow men bowl more of the middle overs than they did.", []),
        ("long-grass", "When the long grass came in, it choked off the boundaries against spin.",
         ["cause"]),
        ("long-grass", "Since the long grass came in, spin has cost 4.09 in the middle overs.", []),
        ("sea-air", "Left-handers averaged 34 by the sea.", []),
        ("sea-air", "Of the balls bowled by the sea, half were dots.", []),
    ],
)  # fmt: skip
def test_claims_by_what_stands_beside_them(built: Path, topic: str, text: str, kinds: list[str]):
    assert [claim.kind for claim in check(built, topic, text).claims] == kinds


def test_a_sentence_states_each_change_that_can_t_be_told(built: Path):
    text = "The run rate fell by one per cent, and pace in the powerplay crept up."
    found = [claim.finding for claim in check(built, "long-grass", text).claims]
    assert found == ["rate.run_rate", "kinds.economy.pace-powerplay"]

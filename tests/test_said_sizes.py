"""Sizes of changes against levels, 'over' as a hedge, and numbers with written parts."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.said.check import Sentence, checked
from tests.script_scores import known_by

SPIN = "Spin’s economy in the middle overs"
OFF_SPIN = "In the middle overs spin"


def results(built: Path, text: str) -> list[str]:
    (sentence,) = checked([Sentence(text)], known_by(str(built), "long-grass"))
    return [number.result for number in sentence.numbers]


@pytest.mark.parametrize(
    ("text", "result"),
    [
        (f"{SPIN} fell by over twenty per cent.", "contradicted"),
        (f"A fall of over twenty per cent in {SPIN[:1].lower()}{SPIN[1:]}.", "contradicted"),
        (f"{SPIN} is now at over 7.", "contradicted"),
        (f"{SPIN} fell by over eight per cent.", "supported"),
        (f"{OFF_SPIN} is now going at over four an over.", "supported"),
        ("By over twenty the spinners were on.", "not a statistic"),
        ("The spinners came on at over twenty.", "not a statistic"),
    ],
)
def test_over_is_a_hedge_where_no_over_is_meant(built: Path, text: str, result: str):
    assert results(built, text) == [result]


@pytest.mark.parametrize(
    ("text", "result"),
    [
        (f"{SPIN} fell by four runs an over.", "contradicted"),
        (f"{SPIN}: that’s four runs fewer an over off spin.", "contradicted"),
        (f"{OFF_SPIN} went for 4.1 an over more.", "contradicted"),
        (f"{OFF_SPIN} went for four runs fewer per over.", "contradicted"),
        (f"{OFF_SPIN} went for 0.4 runs fewer an over.", "supported"),
        (f"{OFF_SPIN} went for four point one an over.", "supported"),
    ],
)
def test_how_far_a_number_went_is_no_level(built: Path, text: str, result: str):
    assert results(built, text) == [result]


def test_what_ten_overs_cost_less_is_felt(built: Path):
    text = f"{SPIN}: that’s four runs fewer every ten overs off spin."
    assert results(built, text) == ["supported", "not a statistic"]
    assert results(built, f"{OFF_SPIN} costs four fewer every ten overs.")[0] == "supported"


@pytest.mark.parametrize("said", ["from 4½ to 4.1", "from 4·47 to 4·09", "from 4 ½ to 4·1"])
def test_written_parts_and_raised_points_are_read(built: Path, said: str):
    assert results(built, f"{SPIN} fell {said}.") == ["supported"] * 2
    assert results(built, f"{SPIN} rose {said}.") == ["wrong direction"] * 2


def test_a_part_is_told_from_a_place(built: Path):
    assert results(built, f"{SPIN} fell by a twelfth.") == ["supported"]
    assert results(built, f"{SPIN} fell by ¼.") == ["contradicted"]
    assert results(built, "He was a twelfth man.") == ["not a statistic"]
    assert results(built, "A ninth season followed.") == ["not a statistic"]

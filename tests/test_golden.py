"""Whatever the tool says or draws of the demo's topics is what tests/golden holds, to nine digits.

A difference is either a fault or meant: `make golden` writes the files anew.
"""

import copy

import pytest

from tests.golden.kept import difference, read
from tests.golden.made import TOPICS, Made, made
from tests.golden.parts import parts

PARTS = ("findings", "facts", "chart words", "page", "talking points", "drawings")


@pytest.fixture(scope="module", params=TOPICS)
def topic(request, built, tmp_path_factory) -> tuple[str, Made]:
    return request.param, made(built, request.param, tmp_path_factory.mktemp("golden"))


@pytest.mark.slow
@pytest.mark.parametrize("part", PARTS)
def test_nothing_moved(topic, part):
    name, now = topic
    assert not (moved := difference(name, part, read(name)[part], parts(now)[part])), moved


@pytest.mark.slow
def test_every_part_is_kept(topic):
    name, now = topic
    assert tuple(read(name)) == tuple(parts(now)) == PARTS
    assert all(parts(now).values())


@pytest.mark.slow
def test_a_number_that_moves_in_its_seventh_digit_is_seen(topic):
    name, now = topic
    findings = copy.deepcopy(now.findings)
    findings.findings[-1].a.value *= 1 + 1e-6
    moved = parts(Made(**{**vars(now), "findings": findings}))
    told = difference(name, "findings", read(name)["findings"], moved["findings"])
    assert told.startswith(f"{name}: findings moved.") and told.count(".a.value = ") == 2


def test_the_ninth_digit_is_a_processors_own_affair():
    kept = ["rate.a.value = 4.12345679", "rate.p = 0", "rate.sides = before, after"]
    other = ["rate.a.value = 4.1234568", "rate.p = 0", "rate.sides = before, after"]
    assert difference("demo", "findings", kept, other) == ""
    other[2] = "rate.sides = after, before"
    assert "+rate.sides = after" in difference("demo", "findings", kept, other)


def test_a_long_difference_is_cut_short_and_names_the_command():
    told = difference("demo", "page", [f"line {n}" for n in range(200)], ["another"])
    assert len(told.splitlines()) == 63 and "make golden" in told.splitlines()[-1]

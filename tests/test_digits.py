"""Fractions are written to twelve digits, and what is made again is held to those."""

from __future__ import annotations

import json
import random

import pytest

from pipeline.contracts.facts import Fact
from pipeline.contracts.files import as_json, as_written
from pipeline.csv_files import csv_text
from pipeline.digits import rounded
from pipeline.templating import embedded


def test_a_neighbouring_number_is_written_alike():
    a, b = 0.1 + 0.2, 0.3
    assert a != b
    assert json.dumps(rounded({"x": [a, (a, 1)]})) == json.dumps(rounded({"x": [b, (b, 1)]}))
    assert csv_text([{"x": a}], ["x"]) == csv_text([{"x": b}], ["x"]) == "x\n0.3\n"
    assert embedded([a]) == embedded([b])
    facts = [Fact(id="f", value=v, unit="", display="", spoken="") for v in (a, b)]
    assert as_json(facts[0]) == as_json(facts[1])
    assert as_written(facts[0]) == as_written(facts[1]) != facts[0]


@pytest.mark.parametrize("value", [0, 123456789012345, True, None, "0.30000000000000004"])
def test_only_fractions_are_rounded(value: object):
    assert rounded(value) is value


def test_what_is_rounded_stays_so():
    rng = random.Random(1)
    for _ in range(2000):
        value = rounded(rng.uniform(-1, 1) * 10 ** rng.randint(-30, 30))
        assert rounded(value) == value and rounded(json.loads(json.dumps(value))) == value

"""What several beats ask alike is one look, and what they ask of other balls is another."""

from __future__ import annotations

from typing import Any

import pytest

from pipeline.contracts.finding import Change, control_of
from pipeline.contracts.findings import Findings
from tests.asking import ask, by_id
from tests.untidy import HEAD, untidy

SHINGLE = "control: {name: the shingle, competition: Shingle Cup}"
TWO_KINDS = "between: {bowler_kind: [pace, spin]}"
# Each is a beat of one measure; many of them show what another one has asked before.
BEATS = f"""
  - {{id: line, kind: trend, measure: economy}}
  - {{id: plain, kind: before_after, measure: economy}}
  - {{id: held, kind: before_after, measure: economy, {SHINGLE}}}
  - {{id: kinds, kind: before_after, measure: economy, by: bowler_kind}}
  - {{id: innings, kind: mix, measure: economy, by: innings}}
  - {{id: mixed, kind: mix, measure: economy, by: bowler_kind}}
  - {{id: apart, kind: gap, measure: economy, {TWO_KINDS}}}
  - {{id: apart-in, kind: gap, measure: economy, {TWO_KINDS}, by: innings}}
  - {{id: spin, kind: before_after, measure: economy, where: {{bowler_kind: spin}}}}
  - {{id: spin-held, kind: trend, measure: economy, where: {{bowler_kind: spin}}, {SHINGLE}}}
  - {{id: bands, kind: phases, measure: economy, bands: [1-10, 11-20, 21-50]}}
  - {{id: bands-held, kind: phases, measure: economy, bands: [1-10, 21-50], {SHINGLE}}}
  - {{id: early, kind: before_after, measure: economy, where: {{overs: 1-10}}}}
  - {{id: bands-cut, kind: phases, measure: economy, bands: [1-10], where: {{overs: 3-20}}}}
  - {{id: cut, kind: before_after, measure: economy, where: {{overs: 3-10}}}}
  - {{id: opening, kind: before_after, measure: economy, where: {{overs: 1-4}}}}
  - {{id: spin-bands, kind: phases, measure: economy, bands: [11-20], where: {{bowler_kind: spin}}}}
  - {{id: spin-mid, kind: trend, measure: economy, where: {{bowler_kind: spin, overs: 11-20}}}}
  - {{id: first, kind: before_after, measure: economy, where: {{innings: "1"}}}}
  - {{id: each, kind: before_after, measure: economy, by: [bowler_kind, innings]}}
  - {{id: bowlers, kind: players, measure: economy, role: bowler, at_least: 10 balls}}
  - {{id: share, kind: share, of: {{bowler_kind: spin}}}}
  - {{id: share-in, kind: share, of: {{bowler_kind: spin}}, by: innings}}
  - {{id: share-first, kind: share, of: {{bowler_kind: spin}}, where: {{innings: "1"}}}}
"""
HEADLINES = "[plain, spin-held, bands.1-10, apart]"


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Findings:
    made = untidy(tmp_path_factory.mktemp("untidy") / "league")
    return ask(made, made / "asked", BEATS.strip("\n"), HEADLINES, HEAD)


def looks(found: Findings) -> list[list[Change]]:
    """The changes of one question together."""
    named: dict[str, list[Change]] = {}
    for each in found.findings:
        if isinstance(each, Change):
            named.setdefault(each.asks.look, []).append(each)
    return list(named.values())


def number(finding: Change) -> Any:
    """What was counted on both sides."""
    counts = ("numerator", "denominator", "balls", "matches")
    return finding.measure, [
        [getattr(side, of) for of in counts] for side in (finding.a, finding.b)
    ]


TOGETHER = [
    "line plain held kinds innings bands bands-held bowlers each",
    "kinds.pace mixed.pace apart.pace apart-in.pace",
    "kinds.spin mixed.spin apart.spin apart-in.spin spin spin-held spin-bands",
    "apart-in.pace-1 each.pace-1",
    "apart-in.spin-2 each.spin-2",
    "bands.1-10 bands-held.1-10 early",
    "bands.21-50 bands-held.21-50",
    "bands-cut.1-10 cut",
    "spin-bands.11-20 spin-mid",
    "innings.1 first",
    "share share-in",
    "share-in.1 share-first",
]
# Nearly the same: other overs, bowlers, innings, or without the balls of unknown bowlers.
APART = [
    ("plain", "mixed"),
    ("plain", "first"),
    ("early", "opening"),
    ("bands.1-10", "bands-cut.1-10"),
    ("bands.11-20", "spin-mid"),
    ("kinds.pace", "kinds.spin"),
    ("spin", "each.spin-1"),
    ("share", "share-first"),
]


def named(short: str) -> str:
    """'plain' and 'kinds.pace' with the measure between beat and cell."""
    beat, *cell = short.split(".")
    measure = "spin-share" if beat.startswith("share") else "economy"
    return ".".join([beat, measure, *cell])


@pytest.mark.parametrize("together", TOGETHER)
def test_beats_that_ask_the_same_are_one_look(found: Findings, together: str):
    """With one number, one verdict and one interval, whichever of them is the headline."""
    mine = [by_id(found)[named(short)] for short in together.split()]
    assert len({each.asks.look for each in mine}) == 1
    assert [each.again for each in mine] == [None] + [mine[0].id] * (len(mine) - 1)
    (told,) = {(each.verdict, each.because, each.family_size, each.adjusted_by) for each in mine}
    headlines = [each.id for each in mine if each.id in found.headlines]
    assert (told[3] == "holm") == bool(headlines)
    for each in mine:
        assert number(each) == number(mine[0])
        assert each.told.level == mine[0].told.level
        for ends in ("difference", "relative"):
            one, other = (getattr(finding.told, ends) for finding in (each, mine[0]))
            assert (one.low, one.high) == pytest.approx((other.low, other.high), rel=1e-9)


@pytest.mark.parametrize("pair", APART)
def test_beats_that_ask_of_other_balls_are_two(found: Findings, pair: tuple[str, str]):
    one, other = (by_id(found)[named(short)] for short in pair)
    assert one.asks.look != other.asks.look and number(one) != number(other)


def test_looks_and_numbers_are_the_same_thing(found: Findings):
    """No look has two numbers, and no number of so untidy a league is two looks."""
    together = looks(found)
    numbers = [number(same[0]) for same in together]
    assert all(number(each) == number(same[0]) for same in together for each in same)
    assert len({str(each) for each in numbers}) == len(together) >= 15
    every = {each.asks.look for each in found.findings}
    assert found.family.looked_at == len(every)
    assert found.family.again == len(found.findings) - len(every) > 20


def test_a_control_makes_no_second_look_and_keeps_its_own_verdict(found: Findings):
    """'held' shows the number of 'plain' against another competition; 'plain' shows it bare."""
    plain, held = (by_id(found)[named(short)] for short in ("plain", "held"))
    assert plain.asks.identity != held.asks.identity and plain.asks.look == held.asks.look
    assert control_of(plain) is None and control_of(held).effect.level >= 0.95

"""The method named behind a number is the one that made its interval, of every kind of beat."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any, get_args

import numpy as np
import pytest
from scipy.stats import t as student

from pipeline.brief.facts import facts_of
from pipeline.config import views
from pipeline.config.kinds import KINDS
from pipeline.config.load import load
from pipeline.contracts.codes import Unit
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding, Mix, Rates, Turn, drift_of
from pipeline.significance.methods.inference import newcombe, wilson
from pipeline.significance.searched import at_level
from pipeline.text import slug
from pipeline.wording import interval_methods
from pipeline.wording.interval_methods import method_of
from pipeline.wording.provenance_lines import behind
from tests.asking import ask
from tests.fact_makers import fact as made
from tests.finding_makers import answer
from tests.untidy import HEAD, untidy

TWO = {"between": {"bowler_kind": ["pace", "spin"]}}
RATE = {"measure": ["run_rate"]}
BEATS: list[dict[str, Any]] = [
    {"id": "won", "kind": "before_after", "measure": ["win_share"]},
    {"id": "sides", "kind": "groups", "measure": ["win_share"], "between": {"innings": ["1", "2"]}},
    {"id": "long", "kind": "trend", **RATE},
    {"id": "plain", "kind": "before_after", **RATE},
    {"id": "gap", "kind": "gap", **RATE, **TWO},
    {"id": "turn", "kind": "turning_point", **RATE},
    {"id": "along", "kind": "phases", **RATE},
    {"id": "left", "kind": "share", "of": {"bowler_arm": "left"}},
    {"id": "mix", "kind": "mix", **RATE, "by": "bowler_kind"},
    {"id": "names", "kind": "players", **RATE, "role": "bowler", "at_least": "10 balls"},
    {"id": "rows", "kind": "streaks", "of": "dots", "length": 2},
]
Ends = tuple[float, float]


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[Fact, Finding | None, Any]]:
    """(fact, its finding, its measure) of every fact with an interval."""
    project = untidy(tmp_path_factory.mktemp("untidy") / "league")
    listed = "".join(f"  - {json.dumps(beat)}\n" for beat in BEATS)
    found = ask(project, project / "asked", listed, "[]", HEAD)
    view = views.brief(load(project / "asked" / "config", only="asked"), "asked")
    by_id = {finding.id: finding for finding in found.findings}
    return [
        (fact, by_id.get(fact.finding or ""), view.measures[fact.measure])
        for fact in facts_of(view, found)
        if fact.interval and fact.measure
    ]


def _counts(side: Any) -> tuple[int, int]:
    return side.numerator, side.denominator


def _wilson(fact: Fact, finding: Finding) -> Ends:
    at = [slug(side) for side in finding.sides].index(fact.id.rpartition(".")[2])
    low, high = wilson(*_counts((finding.a, finding.b)[at]))
    return float(low) * 100, float(high) * 100


def _newcombe(fact: Fact, finding: Finding) -> Ends:
    low, high = newcombe(*_counts(finding.b), *_counts(finding.a), confidence=fact.level)
    return float(low) * 100, float(high) * 100


def _searched(fact: Fact, finding: Finding) -> Ends:
    assert isinstance(finding, Turn)
    difference, relative = at_level(finding, fact.level)
    span = relative if fact.id.endswith("change") else difference
    return span.low, span.high


def _jackknifed(fact: Fact, finding: Finding) -> Ends:
    effect = finding.told
    half = student.ppf(0.5 + fact.level / 2, effect.df) * effect.se_log
    low, high = np.expm1(np.log1p(effect.change.value) + np.array([-half, half]))
    return low, high


def _least_squares(fact: Fact, finding: Finding) -> Ends:
    drift, test = drift_of(finding), drift_of(finding).test
    assert test.df == drift.periods_before + drift.periods_after - 3
    half = student.ppf(0.5 + fact.level / 2, test.df) * test.se
    low, high = np.expm1(np.log1p(test.step.value) + np.array([-half, half]))
    return low, high


AGAIN: dict[tuple[str, str], Callable[[Fact, Finding], Ends]] = {
    (interval_methods.WILSON, "side"): _wilson,
    (interval_methods.NEWCOMBE, "difference"): _newcombe,
    (interval_methods.SEARCHED, "difference"): _searched,
    (interval_methods.SEARCHED, "change"): _searched,
    (interval_methods.LEFT_OUT, "change"): _jackknifed,
    (interval_methods.SPLIT, "change"): _jackknifed,
    (interval_methods.LEAST_SQUARES, "step"): _least_squares,
}


def _of_its_level(method: str, fact: Fact, finding: Finding) -> None:
    """The clusters that are left out are those whose error the finding has."""
    split = "the whole split anew each time"
    assert isinstance(finding, Mix | Rates) == method.endswith(split)
    cluster = finding.told.cluster
    if cluster is None or not cluster.wider:
        assert not isinstance(finding, Mix | Rates) or method == interval_methods.SPLIT
        return
    assert method.startswith(f"{cluster.of}s left out one at a time")
    if cluster.of in get_args(Unit):
        assert "one spread for both windows" in method
        assert finding.told.df == cluster.a + cluster.b - 2
    if fact.id.endswith(".change"):
        assert (fact.low, fact.high) == pytest.approx(_jackknifed(fact, finding))


def test_every_kind_has_a_fact_with_a_method(told):
    beats = {fact.beat for fact, _, _ in told}
    assert {beat["kind"] for beat in BEATS if beat["id"] in beats} == set(KINDS)


def test_the_method_that_is_named_gives_the_interval(told):
    """Each interval is made again by the method that its fact is said to have."""
    again = set()
    for fact, finding, measure in told:
        end = fact.id.rpartition(".")[2]
        end = "side" if finding and end in finding.sides else end
        method = method_of(fact, finding, measure)
        if (method, end) in AGAIN:
            again.add((method, end))
            made = AGAIN[method, end](fact, finding)
            assert (fact.low, fact.high) == pytest.approx(made), (fact.id, method)
        if finding and end in ("change", "difference"):
            _of_its_level(method, fact, finding)
        (line,) = [words for name, words in behind(fact, finding, measure) if name == "interval"]
        assert line.startswith(fact.interval) and line.endswith(f"; {method})")
    assert again >= set(AGAIN) - {(interval_methods.LEAST_SQUARES, "step")}


def test_every_end_of_an_id_is_known(told):
    """So that a new number does not take the method of another for its own."""
    known = {*interval_methods.BY_END, *interval_methods.DIFFERENCES}
    for fact, finding, _ in told:
        if finding:
            sides = {slug(side) for side in finding.sides}
            assert fact.id.rpartition(".")[2] in known | sides, fact.id


def test_points_of_a_series_have_their_own_interval(told):
    """They have no finding, and are called after seasons, whatever a season is called."""
    methods = {method_of(fact, finding, measure) for fact, finding, measure in told if not finding}
    assert methods == {interval_methods.LEFT_OUT}


def test_a_number_that_no_method_is_known_for_takes_no_other_s():
    part, odd = (made(f"b.economy.mix.of-{name}", "50%") for name in ("change", "something"))
    assert method_of(part, answer(Mix, "b.economy.mix"), None) == interval_methods.FIELLER
    with pytest.raises(ValueError, match="of-something ends in nothing that has a method"):
        method_of(odd, answer(Mix, "b.economy.mix"), None)

"""Codes and words held together: whatever a result may say has its words, and they are real."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal, get_args, get_origin

import msgspec
import pytest

from pipeline.brief.method import WHY
from pipeline.config.kinds import KINDS
from pipeline.contracts import codes
from pipeline.contracts.composition import Composition, Moved
from pipeline.contracts.finding import Change, Finding
from pipeline.contracts.notes import AnyNote, FewClusters
from pipeline.contracts.panel import Choice
from pipeline.wording import notes, of_kinds, tested
from pipeline.wording.clusters import few_said
from pipeline.wording.composition import OF, lead, moved_said, what_else
from pipeline.wording.composition import WHY as NOT_COMPOSED
from pipeline.wording.control import SIDE_BY_SIDE, control_said
from pipeline.wording.expected import found_of
from pipeline.wording.on_the_field import PER, felt_said
from pipeline.wording.other_ways import way_said, way_short
from pipeline.wording.refusals import REFUSALS, refused_said
from pipeline.wording.second_verdict import OTHER, TOO_FEW, drift_said
from tests.finding_makers import change, control, drift, felt, span
from tests.outcomes import OUTCOMES
from tests.word_makers import (
    BEAT,
    ECONOMY,
    FORM,
    GROUPS,
    groups_apart,
    moved,
    said,
    share_moved,
    usual,
)

# What a step that could be tested is judged by; any other reason is that it could not.
TESTED = {
    "step_beyond_chance": "beyond the drift",
    "step_lost_among_many": "in line with the drift",
    "step_within_chance": "in line with the drift",
}
BESIDE = {
    "beyond_chance": "beyond the control",
    "lost_among_many": "in line with the control",
    "within_chance": "in line with the control",
}
OF_REASONS = ("Because", "Refusal", "DriftBecause", "ControlBecause", "UnlikeBecause")
UNTOLD = {"IntervalMethod"}  # how the ends were made, for what makes them anew
UNITS = get_args(codes.Unit)
Words = Callable[[Any], str | None]


def _tested(kind: Any) -> str:
    judged = {"p_adjusted": 0.01, "adjusted_by": "bh"}
    if kind == "share":
        return tested.change_tested(share_moved(4.0, 0.9, **judged))
    return tested.change_tested(msgspec.structs.replace(change(**judged), kind=kind))


def _made_of(code: Any) -> str:
    open_ = moved(0.05, 0.07, "can't tell") if code in UNITS else groups_apart(0.05, 0.07)
    return said(usual(open_, code), BEAT if code in UNITS else GROUPS)


def _alike_by(code: Any) -> Change:
    """A change with its number like for like."""
    found = Composition(moved=[], like_for_like=span(0.02), alike=code, sides=4, unheld="no_fit")
    return msgspec.structs.replace(change(), composition=found)


def _way(kind: Any, stretch: Any) -> str:
    what = {"held still": "batting_team", "match": "A v B, 2018-05-12", "shorter": "before"}
    one = Choice(
        **{"kind": kind, "what": what.get(kind, "after"), "value": 0.1, "low": 0.0, "high": 0.2},
        **{"verdict": "changed", "same": True},
    )
    return f"{way_said(one, stretch, ECONOMY)}: {way_short(one)}"


def all_said(said_of: Callable[[Finding], list[str]], finding: Finding) -> str:
    return " ".join(said_of(finding))


# By the name of a set of codes: what is said of one of them.
WORDS: dict[str, Words] = {
    "Verdict": lambda code: said(moved(0.02, 0.03, code)),
    "Because": lambda code: tested.JUDGED[code],
    "Refusal": lambda code: refused_said("Economy", moved(0, 0, "can't tell", refused=code)),
    "DriftVerdict": lambda code: all_said(drift_said, moved(0.1, 0.03, drift=drift(code))),
    "DriftBecause": lambda code: all_said(
        drift_said, moved(0.1, 0.03, drift=drift(TESTED.get(code, "not testable"), code))
    ),
    "ControlVerdict": lambda code: all_said(
        control_said, moved(0.1, 0.03, control=control(verdict=code))
    ),
    "ControlBecause": lambda code: all_said(
        control_said, moved(0.1, 0.03, control=control(verdict=BESIDE[code], because=code))
    ),
    "UnitBecause": lambda code: WHY.get(code, "seasons"),  # which is understood
    "Unit": lambda code: all_said(
        drift_said, moved(0.1, 0.03, drift=drift("not testable", "few_periods_before", unit=code))
    ),
    "Means": lambda code: found_of(code, moved(0.1, 0.03, drift=drift())),
    "Adjustment": lambda code: tested.among_the_looks(
        moved(0.1, 0.03, p_adjusted=0.01, adjusted_by=code)
    ),
    "MeasureKind": _tested,
    "Shape": lambda code: OTHER[code],
    "ParallelVerdict": lambda code: SIDE_BY_SIDE[code],
    "Alike": lambda code: what_else(_alike_by(code), "", FORM),
    "Shown": lambda code: lead(code, ["batting_team"]),
    "Way": lambda code: _way(code, "season"),
    "Stretch": lambda code: _way("shorter", code),
    "OfBalls": lambda code: moved_said(
        Moved(
            by=code,
            value="tied" if code == "outcome" else "1",
            before=0.1,
            after=0.3,
            variation=0.2,
            effect=None,
        ),
        FORM,
    ),
    "UnlikeBecause": lambda code: NOT_COMPOSED[code],
    "ClusterOf": lambda code: _made_of(code),
    "FewClusters": lambda code: few_said(FewClusters(of="season", a=2, b=1, few=code)),
}
SETS = {
    name: get_args(of)
    for name, of in vars(codes).items()
    if get_origin(of) is Literal and name not in UNTOLD
}


@pytest.mark.parametrize(
    ("name", "code"), [(name, code) for name, members in SETS.items() for code in members]
)
def test_every_code_has_words(name: str, code: str):
    """A set of codes that is new here needs a line above; a code that is new needs its words."""
    words = WORDS[name](code)
    assert words and "_" not in words and "None" not in words


def test_each_reason_has_words_of_its_own():
    for name in (*OF_REASONS, "ControlVerdict", "Adjustment"):
        words = [WORDS[name](code) for code in SETS[name]]
        assert len(set(words)) == len(words), name


def test_no_words_are_left_of_a_code_that_is_gone():
    assert set(REFUSALS) == set(SETS["Refusal"]) and set(tested.JUDGED) == set(SETS["Because"])
    assert set(TOO_FEW) | set(TESTED) == set(SETS["DriftBecause"])
    assert set(tested.METHODS) == set(SETS["Adjustment"])
    assert set(OF) == set(SETS["OfBalls"]) and set(NOT_COMPOSED) == set(SETS["UnlikeBecause"])
    assert set(BESIDE) == set(SETS["ControlBecause"])
    assert set(BESIDE.values()) == set(SETS["ControlVerdict"])


def test_every_note_has_words_and_a_rank():
    assert set(notes.CAUTIONS) == set(get_args(AnyNote))


def test_every_kind_of_beat_has_words():
    assert set(of_kinds.WORDS) == set(KINDS)


def test_every_type_of_answer_has_an_outcome_that_is_told_and_one_that_is_refused():
    told = {type(each.finding) for each in OUTCOMES if not each.finding.refused}
    refused = {type(each.finding) for each in OUTCOMES if each.finding.refused}
    assert told == refused == set(get_args(Finding))


@pytest.mark.parametrize("per", PER)
def test_every_length_of_play_is_said(per: str):
    line = felt_said(moved(0.1, 0.03, felt=felt(per=per)), ECONOMY, FORM)
    assert line and line.endswith("that’s nearly five runs more.") and "{" not in line

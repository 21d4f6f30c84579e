"""Every kind of beat by every cut, with every control: an answer, a refusal, or a line to mend."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from pipeline.config.cuts import DIVIDING
from pipeline.config.kinds import KINDS
from pipeline.config.kinds.streaks import WHOLE_INNINGS
from pipeline.contracts.finding import Change, Finding, Groups
from tests.asking import ask
from tests.league import brief, codes
from tests.untidy import HEAD, untidy

Beat = dict[str, Any]
# Two values that each cut has in the data.
TWO = {
    **{"phase": ["powerplay", "middle"], "bowler_kind": ["pace", "spin"]},
    **{"bowler_arm": ["left", "right"], "bowler_style": ["fast", "wrist spin"]},
    **{"batter_hand": ["left", "right"], "innings": ["1", "2"], "season": ["2018", "2021"]},
    **{"batting_team": ["Westfold", "Southfen"], "bowling_team": ["Westfold", "Southfen"]},
    **{"ground": ["Moor Top", "Far Paddock"], "region": ["inland", "coast"]},
    **{"country": ["Lower Merrow", "Upper Merrow"], "batting_position": ["1", "4"]},
    **{"batting_order": ["top", "middle"], "home": ["home", "away"], "result": ["won", "lost"]},
    "competition": ["Pebble Cup", "Sand Cup"],
}
TWO_KINDS = {"between": {"bowler_kind": TWO["bowler_kind"]}}
CUTS = list(DIVIDING)
PAIRS = [[CUTS[at - 1], cut] for at, cut in enumerate(CUTS)]
SHARED_OUT = ("bowler_kind", "bowler_arm", "bowler_style", "batter_hand")
CONTROLS: dict[str, Beat] = {
    "no control": {},
    "the same matches": {"name": "the chase", "where": {"innings": "2"}},
    "another competition": {"name": "the shingle", "competition": "Shingle Cup"},
}


def divided() -> Iterator[Beat]:
    yield {}
    yield from ({"by": cut} for cut in CUTS)
    yield from ({"by": pair} for pair in PAIRS)


def two_groups() -> Iterator[Beat]:
    # Winners against losers in runs is refused when the topic is read (tests/test_by_result.py).
    yield from ({"between": {cut: values}} for cut, values in TWO.items() if cut != "result")
    yield from ({"between": {"phase": TWO["phase"]}, "by": cut} for cut in CUTS if cut != "phase")
    for cut in ("bowler_kind", "ground", "home"):  # of which the filter leaves one
        yield {"between": {cut: TWO[cut]}, "where": {cut: TWO[cut][:1]}}


QUESTIONS: dict[str, list[Beat]] = {
    "before_after": list(divided()),
    "gap": list(two_groups()),
    "trend": [{}, {"where": {"season": "2018"}}],
    "turning_point": [{}, {"every": "quarter"}, {"where": {"season": "2018"}}],
    "phases": [{}, {"bands": "3 overs"}, {"bands": ["1-6", "20-30"]}, {"where": {"overs": "45"}}],
    "share": [
        *({"of": {cut: TWO[cut][0]}} for cut in SHARED_OUT),
        *({"of": {"bowler_kind": "spin"}, "by": cut} for cut in CUTS),
    ],
    "mix": [{"by": cut} for cut in (*CUTS, *PAIRS)],
    "groups": list(two_groups()),
    "streaks": [
        *({"of": of, "length": 2} for of in ("dots", "boundaries", "sixes")),
        *({"of": "dots", "length": 2, "by": cut} for cut in WHOLE_INNINGS),
    ],
    "players": [
        {"role": role, "at_least": least}
        for role in ("bowler", "batter")
        for least in ("10 balls", "3 matches", "9000 balls")
    ],
}


def asked(kind: str, control: str) -> list[Beat]:
    """Every beat of a kind; those by one cut at most with a control, where it can have one."""
    more: Beat = {"measure": ["run_rate"]} if "measure" in KINDS[kind].model_fields else {}
    questions = QUESTIONS[kind]
    if held := CONTROLS[control]:
        more["control"] = held
        questions = [one for one in questions if not isinstance(one.get("by"), list)]
    beats = [{"id": f"b{at}", "kind": kind, **more, **one} for at, one in enumerate(questions)]
    if control == "the same matches":
        beats = [{**beat, "where": {"innings": "1", **beat.get("where", {})}} for beat in beats]
    return beats


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy") / "league")


def answers(project: Path, beats: list[Beat]) -> dict[str, list[Finding]]:
    """What is found of each beat. All are asked together; one that can't be is sought and named."""
    listed = "".join(f"  - {json.dumps(beat)}\n" for beat in beats)
    try:
        found = ask(project, project / "asked", listed, "[]", HEAD)
    except Exception:
        if len(beats) == 1:
            pytest.fail(json.dumps(beats[0]))
        half = len(beats) // 2
        return answers(project, beats[:half]) | answers(project, beats[half:])
    return {beat["id"]: [f for f in found.findings if f.beat == beat["id"]] for beat in beats}


CASES = [
    (kind, control)
    for kind, model in KINDS.items()
    for control in CONTROLS
    if control == "no control" or "control" in model.model_fields
]


def test_every_kind_and_every_cut_is_asked():
    assert set(QUESTIONS) == set(KINDS) and set(TWO) == set(DIVIDING)


@pytest.mark.parametrize(("kind", "control"), CASES)
def test_every_question_has_an_answer(project: Path, kind: str, control: str):
    """Refused or not; and where nothing is unknown, the rows add up to the whole."""
    beats = asked(kind, control)
    found = answers(project, beats)
    assert all(found.values()) and len(found) == len(beats)
    if kind in ADD_UP:
        assert sum(map(adds_up, found.values())) >= ADD_UP[kind]


# Beats of each kind, at least, whose rows are held against their whole.
ADD_UP = {"before_after": 10, "share": 10, "mix": 30, "groups": 8, "phases": 2}


def adds_up(found: list[Finding]) -> bool:
    """Whether a beat's rows were held against its whole; not where some balls are of none."""
    whole, *rows = (f for f in found if isinstance(f, Change | Groups))
    if not rows or {"unknown_left_out", "coverage_low"} & set(codes(rows[0])):
        return False
    for count in ("numerator", "denominator", "balls"):
        for side in ("a", "b"):
            counts = [getattr(getattr(f, side), count) for f in rows]
            assert sum(counts) == getattr(getattr(whole, side), count), (whole.id, count)
    return True


# Beats whose answers have been hard to show: one-sided, refused, empty, or of an odd cut.
AWKWARD: list[Beat] = [
    {"kind": "before_after", "by": "home"},
    {"kind": "before_after", "by": ["season", "result"], "where": {"innings": "1"}},
    {"kind": "gap", **TWO_KINDS, "where": {"bowler_kind": "spin"}},
    {"kind": "gap", "between": {"ground": TWO["ground"]}, "by": "innings"},
    {"kind": "groups", **TWO_KINDS, "where": {"bowler_kind": "spin"}},
    {"kind": "groups", "between": {"season": TWO["season"]}},
    {"kind": "mix", "by": "season"},
    {"kind": "mix", "by": ["batting_order", "phase"], "where": {"innings": "1"}},
    {"kind": "mix", "by": "bowler_kind", "where": {"season": "2018"}},
    {"kind": "phases", "bands": ["1-6", "20-30", "31-36"]},
    {"kind": "players", "role": "bowler", "at_least": "9000 balls"},
    {"kind": "trend", "control": CONTROLS["another competition"]},
    {"kind": "trend", "where": {"season": "2018"}},
    {"kind": "turning_point", "where": {"season": "2018"}},
]


def test_awkward_answers_are_shown_on_a_page(project: Path):
    """Each beat has a chart, with words, and its rows in a table."""
    beats = [{"id": f"b{at}", "measure": ["run_rate"], **beat} for at, beat in enumerate(AWKWARD)]
    found = brief(project, "".join(f"  - {json.dumps(beat)}\n" for beat in beats), HEAD)
    assert [beat.id for beat in found.content.beats] == [beat["id"] for beat in beats]
    assert [chart.beat for chart in found.charts if chart.title] == [beat["id"] for beat in beats]
    for beat in found.content.beats:
        (part,) = beat.parts
        assert part.chart.alt and part.rows, beat.id

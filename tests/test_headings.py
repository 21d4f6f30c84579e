"""Headings of beats without a title: what each asks, no two alike; and their openings, apart."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from pipeline.config.kinds import KINDS, AnyBeat
from pipeline.config.load import load
from pipeline.wording.headings import LONGEST, headings, headings_of
from tests.any_topics import any_league
from tests.conftest import ROOT
from tests.told import Told, any_told, asked
from tests.untidy import HEAD

CONFIG = load(ROOT / "config")
MEASURES, FORM = CONFIG.measures, CONFIG.formats["one-day"]
SEEDS = range(300, 345)
SPIN: dict[str, Any] = {"where": {"bowler_kind": "spin", "phase": "middle"}}
PLAIN = {"id": "a", "measure": "economy"}
# What beats of every kind are headed, as they are said.
SAID: list[tuple[dict[str, Any], str]] = [
    ({"kind": "before_after"}, "Economy, before and after"),
    ({"kind": "before_after", "by": "bowler_kind"}, "Economy, pace and spin"),
    (
        {"kind": "before_after", "by": ["bowler_kind", "phase"]},
        "Economy, pace and spin, phase by phase",
    ),
    ({"kind": "before_after", **SPIN}, "Spin’s economy in the middle overs, before and after"),
    (
        {"kind": "before_after", "measure": ["economy", "dot_share"]},
        "Economy and dot-ball share, before and after",
    ),
    (
        {"kind": "gap", "between": {"bowler_kind": ["pace", "spin"]}, "by": "phase"},
        "Economy: did pace and spin move apart, phase by phase?",
    ),
    (
        {"kind": "gap", "between": {"innings": ["1", "2"]}},
        "Economy: did first and second innings move apart?",
    ),
    (
        {"kind": "groups", "measure": "run_rate", "between": {"region": ["inland", "coast"]}},
        "Run rate, coast against inland",
    ),
    (
        {"kind": "groups", "measure": "run_rate", "between": {"home": ["away", "home"]}},
        "Run rate, home against away",
    ),
    (
        {"kind": "groups", "between": {"competition": ["Sand Cup", "Pebble Cup"]}},
        "Economy, Pebble Cup against Sand Cup",
    ),
    ({"kind": "trend", "measure": "run_rate"}, "Run rate over the years"),
    ({"kind": "turning_point", "measure": "run_rate"}, "When did the run rate turn?"),
    (
        {"kind": "turning_point", "every": "quarter", **SPIN},
        "In which quarter did spin’s economy turn?",  # the whole would be too long
    ),
    ({"kind": "phases", "measure": "run_rate"}, "Run rate, five overs at a time"),
    ({"kind": "phases", "bands": "1 over"}, "Economy, over by over"),
    ({"kind": "phases", "bands": ["1-6", "20-30"]}, "Economy, overs 1–6 and 20–30"),
    ({"kind": "phases", "bands": ["45"]}, "Economy, over 45"),
    (
        {"kind": "phases", "bands": ["1-6", "7-20", "21-40", "41-50"]},
        "Economy, along the innings",
    ),
    ({"kind": "share", "of": {"bowler_kind": "spin"}}, "Who bowled: spin’s share"),
    (
        {"kind": "share", "of": {"bowler_arm": "left"}, "where": {"phase": "death"}},
        "Who bowled at the death: left-arm bowling’s share",
    ),
    (
        {"kind": "share", "of": {"batter_hand": "left"}, "by": "phase"},
        "Who faced: left-handers’ share, phase by phase",
    ),
    ({"kind": "mix", "by": "bowler_kind"}, "Economy, pace and spin: who bowled it, or how well?"),
    (
        {"kind": "mix", "measure": "run_rate", "by": "batting_order"},
        "Run rate, top, middle and lower order: who, or how well?",
    ),
    ({"kind": "players", "role": "bowler", "at_least": "300 balls"}, "Economy of each bowler"),
    (
        {"kind": "players", "role": "bowler", "at_least": "300 balls", **SPIN},
        "Spin’s economy in the middle overs, bowler by bowler",
    ),
    ({"kind": "streaks", "of": "dots"}, "Six or more dot balls in a row"),
    (
        {"kind": "streaks", "of": "sixes", "where": {"phase": "death"}, "by": "innings"},
        "Two or more sixes in a row at the death, innings by innings",
    ),
]


def beat(tree: dict[str, Any], name: str = "a") -> AnyBeat:
    plain = {**PLAIN, "id": name}
    if tree["kind"] in ("share", "streaks"):
        del plain["measure"]
    return KINDS[tree["kind"]].model_validate({**plain, **tree})


def named(*trees: dict[str, Any]) -> list[str]:
    """The headings of beats in one topic."""
    beats = [beat(tree, f"b{at}") for at, tree in enumerate(trees)]
    made = {name: measure for each in beats for name, measure in each.makes.items()}
    return list(headings(beats, {**MEASURES, **made}, FORM, {}).values())


@pytest.mark.parametrize(("tree", "said"), SAID, ids=[said for _, said in SAID])
def test_a_heading_is_what_the_beat_asks(tree: dict[str, Any], said: str):
    assert named(tree) == [said]


def test_every_kind_has_a_heading_of_its_own():
    assert {tree["kind"] for tree, _ in SAID} == set(KINDS)
    assert len({said for _, said in SAID}) == len(SAID)


def test_a_title_of_the_topic_wins_and_is_taken():
    plain = {"kind": "before_after"}
    titled = {**plain, "title": "Economy, before and after"}
    assert named(titled, titled) == ["Economy, before and after"] * 2
    assert named(plain, titled) == ["Economy, before and after (2)", "Economy, before and after"]


def test_beats_that_ask_nearly_the_same_say_the_difference():
    control = {"control": {"name": "the powerplay", "where": {"phase": "powerplay"}}}
    plain = {"kind": "before_after", "where": {"phase": "middle"}}
    assert named(plain, {**plain, **control}) == [
        "Economy in the middle overs, before and after",
        "Economy in the middle overs, beside the powerplay",
    ]
    assert named({"kind": "before_after"}, {"kind": "before_after", **control})[1] == (
        "Economy, before and after, beside the powerplay"
    )
    players = {"kind": "players", "role": "bowler"}
    assert named({**players, "at_least": "300 balls"}, {**players, "at_least": "9 matches"}) == [
        "Economy of each bowler",
        "Economy of each bowler, 9 matches or more",
    ]


def test_beats_that_ask_the_very_same_are_numbered():
    asked = {"kind": "turning_point"}
    assert named(asked, asked, asked) == [
        "When did economy turn?",
        *("When did economy turn? (2)", "When did economy turn? (3)"),
    ]


def test_a_measure_with_an_endless_name_is_cut_at_a_word():
    long = MEASURES["economy"].model_copy(update={"label": "what came of it all " * 5 + "x_y"})
    asked = [beat({"kind": "trend"}, name) for name in ("a", "b")]
    first, second = headings(asked, {"economy": long}, FORM, {}).values()
    assert first.startswith("What came of it all ") and first.endswith("…")
    assert second.endswith("… (2)") and max(len(first), len(second)) <= LONGEST
    one_word = MEASURES["economy"].model_copy(update={"label": "x" * 80})
    assert headings(asked[:1], {"economy": one_word}, FORM, {})["a"] == f"X{'x' * (LONGEST - 2)}…"


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return any_league(tmp_path_factory.mktemp("headings") / "league")


@pytest.fixture(scope="module")
def briefs(project: Path) -> list[Told]:
    return [told for seed in SEEDS if (told := any_told(project, seed))]


def untitled(told: Told) -> Iterator[tuple[AnyBeat, str]]:
    for each in told.view.beats:
        if not each.title:
            yield each, headings_of(told.view)[each.id]


def test_a_heading_is_short_has_a_capital_and_no_code_in_it(briefs: list[Told]):
    every = [(told, *one) for told in briefs for one in untitled(told)]
    assert len(every) > 20
    for told, made, heading in every:
        assert len(heading) < 60 and not heading[0].islower() and "_" not in heading
        assert made.id not in heading.lower().split() and heading == heading.strip(" ,:")
        assert not any(name in heading for name in told.view.measures if "_" in name)


def test_headings_are_unique_in_a_brief_and_the_same_everywhere(briefs: list[Told]):
    for told in briefs:
        made = [heading for _, heading in untitled(told)]
        assert len(set(made)) == len(made)
        pages = {page.id: page.title for page in told.content.beats}
        assert pages == headings_of(told.view)
        assert [row.title for row in told.content.run_sheet.rows if row.id] == list(pages.values())
        assert {part.name for part in told.content.facts} <= {"Top sheet", *pages.values()}
        assert {look["title"] for look in told.content.looks} <= set(pages.values())


def openings(told: Told) -> list[str]:
    return [row.opening for row in told.content.run_sheet.rows if row.id and row.opening]


def test_no_two_beats_open_with_one_sentence(briefs: list[Told]):
    for told in briefs:
        assert len(set(openings(told))) == len(openings(told))


def test_a_beat_that_is_asked_three_times_opens_three_ways(project: Path):
    """The second and third tell shortly what the first told; and each is its own."""
    one = {"kind": "before_after", "measure": "run_rate"}
    listed = "".join(f"  - {json.dumps({'id': name, **one})}\n" for name in "abcd")
    told = asked(project, f"{HEAD}beats:\n{listed}")
    assert told is not None
    assert len(set(openings(told))) == 4
    first, *others = (page.lines[0] for page in told.content.beats)
    assert "“" not in first
    assert all(re.search("already|heard|remember", line) for line in others)


def test_what_is_refused_twice_opens_two_ways(project: Path):
    one = {"kind": "before_after", "measure": "run_rate", "where": {"season": ["2016", "2021"]}}
    listed = "".join(f"  - {json.dumps({'id': name, **one})}\n" for name in "ab")
    head = HEAD.replace("3 seasons", "5 seasons", 1)
    told = asked(project, f"{head}headlines: [a, b]\nbeats:\n{listed}")
    assert told is not None and all(each.refused for each in told.findings.findings)
    assert len(set(openings(told))) == 2
    assert all("only four matches" in page.lines[0] for page in told.content.beats)

"""Poor data through every kind of beat, to findings, charts and page: a number, or why not."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from msgspec import to_builtins

from pipeline.config.kinds import KINDS
from tests.golden.made import Made, draw_frames
from tests.poor import GIVE, KEEP, KNOW, MEASURES, Beat, poorer, shown
from tests.untidy import HEAD, untidy

HEADS = {
    "three seasons a side": HEAD,
    "one season a side": HEAD.replace("3 seasons", "1 seasons"),
    "no event": "".join(f"{line}\n" for line in HEAD.splitlines() if not line.startswith("event")),
}
KINDS_OF_BOWLER = {"bowler_kind": ["pace", "spin"]}
ASKED: list[Beat] = [
    {"kind": "before_after", "by": ["bowler_kind", "phase"]},
    {"kind": "before_after", "by": "ground", "control": {"name": "p", "where": {"overs": "40-50"}}},
    {"kind": "gap", "between": KINDS_OF_BOWLER, "by": "phase"},
    {"kind": "trend", "blind": True, "control": {"name": "s", "competition": "Shingle Cup"}},
    {"kind": "turning_point", "every": "quarter", "blind": True},
    {"kind": "phases", "bands": ["1-6", "20-30", "31-50"]},
    {"kind": "share", "of": {"bowler_kind": "spin"}, "by": "phase"},
    {"kind": "mix", "by": "bowler_kind"},
    {"kind": "groups", "between": KINDS_OF_BOWLER, "by": "innings"},
    {"kind": "streaks", "of": "dots", "length": 2, "by": "innings"},
    {"kind": "players", "role": "bowler", "at_least": "3 balls"},
]
SOME = st.lists(st.sampled_from(range(len(ASKED))), min_size=4, max_size=4, unique=True).map(sorted)


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy") / "league")


def beats(some: list[int], measure: str, head: str) -> list[Beat]:
    """Those of the beats that can be asked of such a measure, with an event or without."""
    made = []
    for at in some:
        beat = {"id": f"b{at}", **ASKED[at]}
        model = KINDS[beat["kind"]]
        if head == "no event":
            beat.pop("control", None)
        if head == "no event" and model.traits.timed:
            continue
        if "measure" in model.model_fields:
            beat["measure"] = "economy" if model.traits.per_ball else measure
        made.append(beat)
    return made


ALL = list(range(len(ASKED)))


@given(
    give=st.sampled_from(list(GIVE)),
    keep=st.sampled_from(list(KEEP)),
    know=st.sampled_from(list(KNOW)),
    head=st.sampled_from(list(HEADS)),
    measure=st.sampled_from(MEASURES),
    some=SOME,
)
@example(
    "as they are", "all of them", "pace only", "three seasons a side", "run_rate", [2, 6, 7, 8]
)
@example("one run each", "all of them", "what it knows", "three seasons a side", "run_rate", ALL)
@example("as they are", "of one season", "nobody", "no event", "bowling_strike_rate", ALL)
@settings(
    max_examples=5, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_poor_data_are_told_without_a_number_that_is_none(
    project: Path,
    tmp_path_factory: pytest.TempPathFactory,
    give: str,
    keep: str,
    know: str,
    head: str,
    measure: str,
    some: list[int],
):
    """Each beat that is not refused in the topic's file has rows, words and drawings."""
    folder = poorer(project, tmp_path_factory.mktemp("poor"), give, keep, know)
    asked = beats(some, measure, head)
    found = shown(folder, asked, folder / "output" / "asked", HEADS[head]) if asked else None
    if found is None:
        return
    for beat in found.content.beats:
        assert all(part.chart.alt for part in beat.parts), beat.id
    assert all(chart.title for chart in found.charts)
    for text in texts(found):
        assert not re.search(r"\b(nan|inf)\b", text, re.IGNORECASE), text
    draw_frames(folder, "asked", found)


def test_one_kind_known_and_nothing_that_moves_are_refused_in_words(project: Path, tmp_path: Path):
    """A gap without its second group; a turning point where every year is like the last."""
    asked: list[Beat] = [
        {"id": "apart", "kind": "gap", "measure": "run_rate", "between": KINDS_OF_BOWLER},
        {"id": "when", "kind": "turning_point", "measure": "run_rate"},
    ]
    for folder, ways, beat, said in (
        ("one", ("as they are", "all of them", "pace only"), 0, "there is not a ball of it"),
        (
            "alike",
            ("one run each", "all of them", "what it knows"),
            1,
            "its years show no scatter",
        ),
    ):
        poor = poorer(project, tmp_path / folder, *ways)
        found = shown(poor, asked, poor / "output" / "asked")
        assert found is not None
        row = found.content.beats[beat].parts[0].rows[0]
        assert (row.refused or "").startswith(said)
        assert any(said in line.lower() for line in found.points.splitlines())


def texts(found: Made) -> Iterator[str]:
    """All that is printed, and the drawings as they are written."""
    yield from words(to_builtins([found.content.beats, found.content.answer, found.facts]))
    yield from [found.content.data_line, *found.content.cautions, found.points]
    for chart in found.charts:
        drawing = (found.folder / f"{chart.chart}.svg").read_text("utf-8")
        yield from re.findall(r'(?: d| x| y| points)="[^"]*"', drawing)


def words(plain: Any) -> Iterator[str]:
    match plain:
        case str():
            yield plain
        case dict():
            yield from words(list(plain.values()))
        case list() | tuple():
            for each in plain:
                yield from words(each)

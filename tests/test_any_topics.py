"""No valid topic ends otherwise than in an answer or in a refusal that names its line."""

from __future__ import annotations

import json
from collections import Counter
from contextlib import chdir
from pathlib import Path
from random import Random
from typing import Any

import pytest

from pipeline.brief.spoken import episode_of
from pipeline.config.load import load
from pipeline.contracts.episode import SpokenBeat
from pipeline.errors import UserError
from pipeline.slots.drafted import draft_of
from pipeline.slots.filled import filled
from pipeline.slots.marked_up import blocks_of
from tests.any_topics import any_league, any_topic, outcome
from tests.golden.made import made
from tests.untidy import HEAD

Beat = dict[str, Any]


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return any_league(tmp_path_factory.mktemp("any") / "league")


def told(project: Path, seeds: range, pages: bool) -> Counter[str]:
    """How many topics came to what; one that came to neither is printed with its seed."""
    ends: Counter[str] = Counter()
    for seed in seeds:
        text = any_topic(Random(seed))
        end = outcome(project, text, pages)
        if end not in ("ok", "refused"):
            print(f"seed {seed}: {end}\n{text}")
        ends[end] += 1
    return ends


def test_any_topic_is_answered_or_refused(project: Path):
    ends = told(project, range(60), pages=False)
    assert set(ends) == {"ok", "refused"} and ends["ok"] > 20


def test_any_topic_is_shown_or_refused(project: Path):
    ends = told(project, range(100, 108), pages=True)
    assert set(ends) == {"ok", "refused"} and ends["ok"] > 3


def test_the_script_of_any_topic_gives_back_its_lines(project: Path):
    """To the letter, and numbers of it are slots."""
    shown = slots = 0
    for seed in range(300, 314):
        (project / "config" / "topics" / "any.yaml").write_text(any_topic(Random(seed)), "utf-8")
        try:
            found = made(project, "any", project / "output" / "any")
        except UserError:
            continue
        told = episode_of("any", found.content.said)
        draft = draft_of("T", told, found.facts, [])
        charts = [chart.chart for chart in found.charts]
        script = filled(blocks_of(draft, "script.md"), found.facts, charts, "script.md")
        spoken = [
            *(line.text for line in (*told.cold_open, *told.answer)),
            *(text for beat in told.beats for text in _texts(beat)),
            *(line.text for line in told.close),
        ]
        read = [row.text for part in script.parts for row in part.lines]
        assert read == spoken, seed
        shown, slots = shown + 1, slots + draft.count(" | ")
    assert shown > 2 and slots > 10


def _texts(beat: SpokenBeat) -> list[str]:
    return [*filter(None, [beat.opening]), *(line.text for line in beat.lines)]


# Questions that once ended in neither; each is shown, or refused at its line with what is said.
SHOWN: dict[str, Beat] = {
    "a gap between results": {"kind": "gap", "between": {"result": ["won", "lost"]}},
    "a gap between seasons": {"kind": "gap", "between": {"season": ["2018", "2021"]}},
    "a gap between grounds by home": {
        **{"kind": "gap", "between": {"ground": ["Moor Top", "Fen Side"]}, "by": "home"}
    },
    "a mix by ground and result": {"kind": "mix", "by": ["ground", "result"]},
    "a mix of part of an order in a phase": {
        **{"kind": "mix", "by": "batting_order", "where": {"phase": "death"}}
    },
    "a mix of one bowler's few balls": {
        **{"kind": "mix", "by": "batter_hand", "where": {"bowler": "Zoe Fold", "overs": "45"}}
    },
    "one window without a ball": {
        **{"kind": "before_after", "by": "innings", "where": {"season": "2018"}}
    },
    "players of one match each": {
        **{"kind": "players", "role": "bowler", "at_least": "1 match", "where": {"overs": "45"}}
    },
}
REFUSED: dict[str, tuple[Beat, str]] = {
    "no ball in any window": (
        {"kind": "before_after", "where": {"overs": "45", "phase": "powerplay"}},
        "its filters leave no balls",
    ),
    "a gap of unknown balls alone": (
        {
            **{"kind": "gap", "between": {"region": ["coast", "unknown"]}},
            "where": {"region": "unknown"},
        },
        "none of its balls is in any of its rows",
    ),
    "a share of what is not known": (
        {"kind": "share", "of": {"bowler_kind": ["spin", "unknown"]}},
        "'unknown' has none",
    ),
    "a mix of what is counted by wickets": (
        {"kind": "mix", "by": "batting_order", "measure": "bowling_strike_rate"},
        "is not per ball",
    ),
}


def topic(beat: Beat, head: str = HEAD) -> str:
    measure = {} if beat["kind"] == "share" else {"measure": "run_rate"}
    return f"{head}beats:\n  - {json.dumps({'id': 'a', **measure, **beat})}\n"


@pytest.mark.parametrize("asked", SHOWN)
def test_a_question_is_shown(project: Path, asked: str):
    assert outcome(project, topic(SHOWN[asked]), pages=True) == "ok"


@pytest.mark.parametrize("asked", REFUSED)
def test_a_question_is_refused_at_its_line(project: Path, asked: str):
    beat, said = REFUSED[asked]
    assert outcome(project, topic(beat), pages=False) == "refused"
    with pytest.raises(UserError, match=said), chdir(project):
        made(project, "any", project / "output" / "any")


@pytest.mark.parametrize(
    "beat",
    [
        {"kind": "before_after", "where": {"phase": "death"}},
        {"kind": "before_after", "by": ["innings", "phase"]},
        {"kind": "gap", "between": {"phase": ["death", "middle"]}},
        {"kind": "before_after", "control": {"name": "the end", "where": {"phase": "death"}}},
    ],
)
def test_a_format_without_phases_has_none_to_ask_of(project: Path, beat: Beat):
    """Otherwise than by a mistake of the query."""
    text = topic(beat, HEAD.replace("one-day", "unlimited"))
    (project / "config" / "topics" / "any.yaml").write_text(text, "utf-8")
    with pytest.raises(UserError, match=r"any.yaml:6:.*the format has no phases"), chdir(project):
        load(Path("config"), only="any")

"""What people may expect of a finding: refused, with its place, where the finding can't answer."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import pytest

from pipeline.config.load import load
from pipeline.config.means import IN_TIME, OF_A_MIX, OF_A_STEP, OF_GROUPS, means_of
from pipeline.contracts.codes import Means
from pipeline.errors import UserError
from tests.asking import HEAD
from tests.league import league, scored
from tests.word_makers import BEAT, GAP, GROUPS, MIX, PLAYERS, TURN

BEATS = """beats:
  - {id: sides, kind: groups, measure: run_rate, between: {innings: ['1', '2']}}
  - {id: rate, kind: before_after, measure: run_rate}
"""


def test_every_meaning_can_be_asked_of_some_finding():
    asked = {one for beat in (BEAT, GROUPS, TURN) for one in means_of(beat, "all")}
    assert asked | set(means_of(MIX, "mix")) == set(get_args(Means))


@pytest.mark.parametrize(
    ("beat", "row", "may", "may_not"),
    [
        (BEAT, "all", OF_A_STEP, OF_GROUPS),
        (GROUPS, "all", OF_GROUPS, OF_A_STEP),
        (MIX, "mix", OF_A_MIX, OF_A_STEP),
        (MIX, "rates", IN_TIME, OF_A_MIX),
        (MIX, "all", OF_A_STEP, OF_A_MIX),
        (MIX, "spin", IN_TIME, OF_A_STEP),
        (TURN, "all", IN_TIME, OF_A_STEP),
        (PLAYERS, "a-quibble", IN_TIME, OF_A_STEP),
        (GAP, "all", OF_A_STEP, OF_GROUPS),
    ],
)
def test_what_a_row_can_answer(beat, row, may, may_not):
    allowed = set(means_of(beat, row))
    assert set(may) <= allowed and not set(may_not) & allowed


@pytest.mark.parametrize(
    ("finding", "means", "wrong"),
    [
        ("sides", "steps up", "'sides' can't say 'steps up'; it can say higher, lower, alike"),
        ("rate", "higher", "'rate' can't say 'higher'; it can say rises, falls, holds"),
        ("rate", "booms", "booms"),
    ],
)
def test_a_meaning_that_its_finding_cannot_have_is_refused_when_the_file_is_read(
    tmp_path: Path, finding: str, means: str, wrong: str
):
    project = league(tmp_path / "league", [scored(2016, 500), scored(2017, 500)])
    expected = f"expected:\n  - {{say: It did, finding: {finding}, means: {means}}}\n"
    text = f"{HEAD}{expected}headlines: []\n{BEATS}"
    (project / "config" / "topics" / "asked.yaml").write_text(text, "utf-8")
    with pytest.raises(UserError) as caught:
        load(project / "config", only="asked")
    (problem,) = caught.value.problems
    line = 1 + text[: text.index("expected:")].count("\n") + 1
    assert wrong in str(problem) and f"asked.yaml:{line}:" in str(problem)

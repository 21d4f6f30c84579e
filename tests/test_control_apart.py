"""What a control is apart from: its own competition, and sides that meet in a match."""

from __future__ import annotations

from contextlib import chdir
from pathlib import Path

import pytest

from pipeline.config import views
from pipeline.config.load import load
from pipeline.errors import UserError
from pipeline.metrics.stage import tallies_of
from tests.untidy import HEAD, untidy

BEAT = "  - {id: a, kind: before_after, measure: run_rate, %s, control: {name: it, %s}}\n"


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy") / "league")


def pairs(project: Path, asked: str, control: str) -> dict[str, str]:
    """Which cell of a beat is held against which of its control; the topic is of two cups."""
    text = f"{HEAD}beats:\n{BEAT % (asked, control)}"
    (project / "config" / "topics" / "asked.yaml").write_text(text, "utf-8")
    with chdir(project):
        view = views.metrics(load(Path("config"), only="asked"), "asked")
        _, selection = tallies_of(view, Path("output/data"))
    found = selection.beats["a"].control
    assert found
    return found.pairs


@pytest.mark.parametrize(
    ("asked", "control", "expected"),
    [
        ("by: competition", "competition: Pebble Cup", {"sand-cup": "all"}),
        (
            "by: competition",
            "competition: Shingle Cup",
            dict.fromkeys(("all", "pebble-cup", "sand-cup"), "all"),
        ),
        ("where: {competition: Sand Cup}", "competition: Pebble Cup", {"all": "all"}),
        ("by: innings", "competition: Shingle Cup", {each: each for each in ("all", "1", "2")}),
    ],
)
def test_a_competition_is_no_control_of_its_own_rows(
    project: Path, asked: str, control: str, expected: dict[str, str]
):
    assert pairs(project, asked, control) == expected


@pytest.mark.parametrize(
    ("asked", "control"),
    [
        ("by: innings", "competition: Pebble Cup"),
        ("where: {team: Westfold}", "where: {team: Eastholm}"),
    ],
)
def test_a_control_that_shares_balls_with_every_row_is_refused(
    project: Path, asked: str, control: str
):
    """A cup of the topic's own; a side that meets the beat's in some of its matches."""
    with pytest.raises(UserError, match="overlaps every row"):
        pairs(project, asked, control)

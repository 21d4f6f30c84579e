"""The result as a cut: winning is scoring more, so it is refused, or said for what it is."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.config.load import load
from pipeline.contracts.finding import Mix, Rates
from pipeline.errors import UserError
from tests.league import brief, codes, findings
from tests.test_placed import written
from tests.untidy import HEAD, untidy

SAID = "Sides are told apart by result, which the play itself decided: this shows how sides that"


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy") / "league")


WRONG = [
    (
        "{id: b, kind: groups, measure: run_rate, between: {result: [won, lost]}}",
        "between: 'run_rate' decides who wins, so between sides that won and",
    ),
    (
        "{id: b, kind: groups, measure: innings_total, between: {result: [won, tied]}}",
        "between: 'innings_total' decides who wins, so between sides that won",
    ),
    (
        "{id: b, kind: before_after, measure: win_share, by: result, where: {innings: '1'}}",
        "measure: 'win_share' counts results, and the beat's balls are told",
    ),
    (
        "{id: b, kind: before_after, measure: win_share, where: {result: won}}",
        "measure: 'win_share' counts results, and the beat's balls are told",
    ),
]


@pytest.mark.parametrize(("beat", "said"), WRONG)
def test_winners_against_losers_in_what_decides_it_are_refused(project: Path, beat: str, said: str):
    file = written(project, f"{HEAD}beats:\n  - {beat}\n")
    with pytest.raises(UserError) as caught:
        load(project / "config", only="asked")
    (problem,) = (str(one).removeprefix(f"{file}:") for one in caught.value.problems)
    key = said.split(":")[0]
    column = f"  - {beat}".index(f"{key}: ") + len(f"{key}: ") + 1
    assert problem.startswith(f"6:{column}: beats[1].{said}"), problem


@pytest.mark.parametrize(
    "beat",
    [
        "{id: b, kind: before_after, measure: run_rate, by: result}",
        "{id: b, kind: before_after, measure: innings_total, where: {result: [won, lost]}}",
        "{id: b, kind: groups, measure: run_rate, between: {home: [away, home]}, by: result}",
        "{id: b, kind: mix, measure: economy, by: result}",
        "{id: b, kind: share, of: {bowler_kind: spin}, by: [innings, result]}",
        "{id: b, kind: gap, measure: run_rate, between: {innings: ['1', '2']}, by: result}",
        "{id: b, kind: gap, measure: run_rate, between: {result: [lost, won]}, by: innings}",
    ],
)
def test_what_winners_did_over_time_is_said_for_what_it_is(project: Path, beat: str):
    """On every row that is of a result, on the page of its beat, and nowhere else."""
    listed = f"  - {beat}\n  - {{id: plain, kind: before_after, measure: run_rate, by: home}}\n"
    found = brief(project, listed, HEAD)
    filtered = "where" in beat
    of_result = 0
    for finding in found.findings.findings:
        parts = isinstance(finding, Mix | Rates)
        chosen = finding.beat == "b" and (filtered or parts or "result" in finding.values)
        assert ("chosen_by_result" in codes(finding)) == chosen, finding.id
        of_result += chosen
    assert of_result
    told, plain = (page.careful for page in found.content.beats)
    assert any(line.startswith(SAID) for line in told)
    assert not any(line.startswith(SAID) for line in plain)


def test_who_bowled_in_matches_that_were_won_can_be_asked(project: Path):
    """A captain chooses it; runs do not follow from it by arithmetic."""
    found = findings(
        project, "  - {id: b, kind: share, of: {bowler_kind: spin}, where: {result: won}}\n", HEAD
    )
    assert found["b.spin-share"].a.value is not None

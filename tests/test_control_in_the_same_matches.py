"""A control of the same matches as the beat: one question, whether asked as a control or a gap."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.league import findings
from tests.untidy import HEAD, untidy

CONTROL = "control: {name: pace, where: {bowler_kind: pace}}"
WINDOWS = {
    "equal": HEAD,
    "unequal": HEAD.replace("after: 3 seasons", "after: 2 seasons"),
}


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy") / "league")


@pytest.mark.parametrize("windows", WINDOWS)
@pytest.mark.parametrize("measure", ["economy", "dot_share"])
def test_a_control_of_the_same_matches_is_the_gap_to_it(project: Path, windows: str, measure: str):
    """Beyond its control, spin moved by as much as it did against pace, with the same interval."""
    beats = (
        f"  - {{id: held, kind: before_after, measure: {measure}, where: {{bowler_kind: spin}},\n"
        f"     {CONTROL}}}\n"
        f"  - {{id: rows, kind: before_after, measure: {measure}, by: bowler_kind, {CONTROL}}}\n"
        f"  - {{id: long, kind: trend, measure: {measure}, where: {{bowler_kind: spin}},\n"
        f"     {CONTROL}}}\n"
        f"  - {{id: gap, kind: gap, measure: {measure}, between: {{bowler_kind: [pace, spin]}}}}\n"
        f"  - {{id: pace, kind: before_after, measure: {measure}, where: {{bowler_kind: pace}}}}\n"
    )
    found = findings(project, beats, WINDOWS[windows])
    gap = found[f"gap.{measure}"].effect
    for name in ("held", "rows", "long"):
        row = found[f"{name}.{measure}" + (".spin" if name == "rows" else "")]
        beyond = row.control.effect
        assert beyond.difference == gap.difference and beyond.relative == gap.relative
        assert (beyond.se, beyond.df_units, beyond.p) == (gap.se, gap.df_units, gap.p)
        left = row.effect.difference.value - beyond.difference.value
        assert left == pytest.approx(found[f"pace.{measure}"].effect.difference.value, rel=1e-9)

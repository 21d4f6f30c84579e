"""A stage that is killed leaves every output old or new, and the next build completes the work."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from tests.faults.kills import BUILD, STAGES, Kills, killed, processes, torn
from tests.small_project import outputs

pytestmark = pytest.mark.slow
SOON = 0.05  # seconds after a stage is seen, when it surely works still


def test_every_stage_is_killed_and_nothing_is_lost(small_built: Path, tmp_path: Path):
    """One after the other, each where the build that follows the last kill has come to it."""
    project = Kills(tmp_path / "the writer's folder, ö", small_built)
    project.turn()
    new, old = project.made
    for stage in STAGES:
        hit = killed(
            project.folder,
            BUILD,
            Random(stage),
            lambda _, stage=stage: list(processes(project.folder, stage)),
            SOON,
        )
        assert hit, f"{stage} was not killed while it worked"
        assert torn(outputs(project.folder), old, new) is None, stage
    assert project.goes_on(new) in ("ok", "refused")

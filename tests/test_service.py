"""The stages as a service runs them: no home, read-only code and data, no network."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.conftest import ROOT
from tests.editions import TOPIC, project_of
from tests.tools import needed

pytestmark = pytest.mark.slow
CAPABILITIES = "-dac_override,-dac_read_search,-fowner"  # what lets root write anywhere
FROM_OUTSIDE = ("HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "MPLCONFIGDIR", "USER", "LOGNAME")


def as_a_service() -> list[str]:
    """Words before a command: of root only the name is left; alone on the network if may be."""
    if os.geteuid() != 0:
        return []
    program = needed("setpriv", package="util-linux")
    words = [program, f"--bounding-set={CAPABILITIES}", f"--inh-caps={CAPABILITIES}"]
    alone = ["unshare", "--net"]
    offline = subprocess.run([*alone, "true"], capture_output=True, check=False).returncode == 0
    return [*(alone if offline else []), *words]


def as_another_user() -> list[str]:
    """The same as nobody; skipped where the interpreter is in a folder of root's own."""
    if os.geteuid() != 0:
        pytest.skip("only root can become another user")
    program = needed("setpriv", package="util-linux")
    words = [program, "--reuid=65534", "--regid=65534", "--clear-groups"]
    reached = subprocess.run([*words, sys.executable, "-c", ""], capture_output=True, check=False)
    if reached.returncode != 0:
        pytest.skip(f"another user can't run {sys.executable}")
    return words


@pytest.fixture()
def open_to_all() -> Iterator[Path]:
    """A folder that another user can get to, which none of the tests' own is."""
    with TemporaryDirectory() as folder:
        Path(folder).chmod(0o755)
        yield Path(folder)
        for top, _, _ in os.walk(folder):
            Path(top).chmod(0o755)


@pytest.mark.parametrize("before", [as_a_service, as_another_user])
def test_a_topic_is_made_where_only_the_output_can_be_written(
    built: Path, tmp_path: Path, open_to_all: Path, before
):
    words = before()
    project = project_of(built, open_to_all / "project")
    there = project / "output" / TOPIC
    shutil.copytree(there, tmp_path / "usual")
    for path in (project, *project.rglob("*")):
        inside = path.is_relative_to(project / "output")
        path.chmod(path.stat().st_mode | 0o222 if inside else path.stat().st_mode & ~0o222)
    environment = {key: value for key, value in os.environ.items() if key not in FROM_OUTSIDE}
    for stage in ("metrics", "significance", "charts", "brief"):
        done = subprocess.run(
            [*words, sys.executable, "-m", f"pipeline.{stage}", "--topic", TOPIC, "--out", there],
            cwd=project,
            env={**environment, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            check=False,
        )
        assert (done.returncode, done.stderr) == (0, ""), done.stderr[-2000:]
    made = {path.name: path.read_bytes() for path in there.rglob("*") if path.is_file()}
    usual = {p.name: p.read_bytes() for p in (tmp_path / "usual").rglob("*") if p.is_file()}
    assert [name for name in usual if usual[name] != made[name]] == []

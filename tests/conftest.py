"""Shared fixtures: copies of the project, and the demo built once."""

from __future__ import annotations

import fcntl
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

# The tests are as many processes as there are cores: threads of the linear algebra in each of them
# would only wait for one another. Set before numpy is loaded, and inherited by every child.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest
from hypothesis import settings

# New inputs at every run by hand; the same ones in CI, where a change is judged and not luck.
settings.register_profile("ci", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("ci")

ROOT = Path(__file__).parents[1]
LONGEST = (
    *("tests/test_readme.py", "tests/test_reproducible.py", "tests/test_kills.py"),
    *("tests/test_ledger_built.py", "tests/test_workflow.py", "tests/test_calibration.py"),
)
PARTS = ("config", "demo_data", "pipeline", "profiles", "templates")


def copy_project(folder: Path) -> Path:
    """A working copy of the project without its outputs."""
    ignore = shutil.ignore_patterns("*.pyc.*")  # half written by another process
    for part in PARTS:
        shutil.copytree(ROOT / part, folder / part, ignore=ignore)
    for name in ("Snakefile", "requirements.lock"):
        shutil.copy(ROOT / name, folder / name)
    return folder


def snakemake(folder: Path, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the workflow in a folder; output is captured as text."""
    command = [sys.executable, "-m", "snakemake", "--cores", "2", *words]
    return subprocess.run(
        command,
        cwd=folder,
        capture_output=True,
        text=True,
        env={**os.environ, **environment},
        check=False,
    )


def jobs(folder: Path, left_out: tuple[str, ...] = ("shelf",)) -> dict[str, int]:
    """Rules that a run would do now, with how many jobs of each ('all' left out).

    The shelf follows every brief and every change of the topics' list; it is left out too.
    """
    text = snakemake(folder, "-n", "--quiet", "rules").stdout
    planned = {}
    for line in text.splitlines():
        words = line.split()
        if len(words) == 2 and words[1].isdigit() and words[0] not in ("all", "total", *left_out):
            planned[words[0]] = int(words[1])
    return planned


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The longest tests first, so that the last minute is not one process's alone."""
    items.sort(key=lambda item: not item.nodeid.startswith(LONGEST))


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], object]) -> Path:
    """A folder that the first process of the run to need it makes; the others wait for it."""
    base = factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    with (shared / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        folder, whole = shared / name, shared / f"{name}.whole"
        if not whole.exists():
            folder.mkdir()
            make(folder)
            whole.touch()
    return folder


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo, built once from its raw zip; or a folder built before, named by BUILT."""
    if "BUILT" in os.environ:
        return Path(os.environ["BUILT"]).resolve()
    return made_once(tmp_path_factory, "built", _build_demo)


def _build_demo(folder: Path) -> None:
    done = snakemake(copy_project(folder))
    assert done.returncode == 0, done.stderr[-3000:]


@pytest.fixture(scope="session")
def small_built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small project, built once as by hand, with its ledger; to be copied, never changed."""
    from tests.small_project import build_small_project

    return made_once(tmp_path_factory, "small", build_small_project)


@pytest.fixture(scope="session")
def many(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two million deliveries in each of three layouts (tests/many.py), written once."""
    from tests.many import write

    return made_once(tmp_path_factory, "many", write)

"""Findings have the same bytes whichever kernels a processor makes the libraries add with."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT

pytestmark = pytest.mark.slow
FIND = """
import sys
from pathlib import Path
from pipeline.archive.beneath import beneath
from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.files import as_json
from pipeline.in_memory import numbers_of
config = load(Path("config"), only="who-paid")
asked = views.metrics(config, "who-paid"), views.significance(config, "who-paid")
found = numbers_of(*asked, Path("output/data")).findings
Path(sys.argv[1]).write_text(as_json(found), "utf-8")
print(beneath()["blas"])
"""


def found_with(kernel: str, built: Path, path: Path) -> str:
    """Write the findings of a topic with a beat of every kind; the kernel that was used."""
    done = subprocess.run(
        [sys.executable, "-c", FIND, str(path)],
        cwd=built,
        env={**os.environ, "OPENBLAS_CORETYPE": kernel, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


def test_the_oldest_kernels_and_newer_ones_give_the_same_bytes(built: Path, tmp_path: Path):
    """Sandybridge multiplies and adds in two steps, Haswell in one: other last digits."""
    kernels = ("Sandybridge", "Haswell")
    said = [found_with(kernel, built, tmp_path / kernel) for kernel in kernels]
    if not all(kernel in told for kernel, told in zip(kernels, said, strict=True)):
        pytest.skip(f"this machine's numpy can't be told its kernel ({said[0].strip()})")
    one, other = ((tmp_path / kernel).read_bytes() for kernel in kernels)
    assert one == other

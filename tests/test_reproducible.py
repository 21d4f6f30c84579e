"""Same inputs, same bytes: in two folders, on two days, in two places of the world."""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.editions import TOPIC, project_of
from tests.tools import needed

pytestmark = pytest.mark.slow
MAKE = """
import datetime
from tests.editions import archive, remake
remake()
archive()
print(datetime.datetime.now().isoformat())
"""


def test_same_bytes_in_two_folders_on_two_days(built: Path, tmp_path: Path):
    later = [needed("faketime", package="faketime"), "-f", "+400d"]
    one, other = tmp_path / "one", tmp_path / "another" / "deeper"
    first = made(project_of(built, one), PYTHONHASHSEED="1", TZ="America/Lima")
    around = {"TZ": "Pacific/Auckland", "LC_ALL": "C", "LANG": "C", "PYTHONHASHSEED": "7"}
    second = made(project_of(built, other), *later, **around)
    assert days(second) - days(first) in (399, 400, 401), "the second was made on a later day"
    bytes_one, bytes_other = written(one), written(other)
    assert bytes_one.keys() == bytes_other.keys()
    endings = {Path(name).suffix for name in bytes_one}
    assert endings >= {".pdf", ".html", ".png", ".svg", ".csv", ".json", ".parquet", ".md", ".txt"}
    assert [name for name in bytes_one if bytes_one[name] != bytes_other[name]] == []


def made(folder: Path, *before: str, **environment: str) -> str:
    """Make and archive the topic there, in another process; the time it says it is."""
    kept = {key: value for key, value in os.environ.items() if key != "SOURCE_DATE_EPOCH"}
    done = subprocess.run(
        [*before, sys.executable, "-c", MAKE],
        cwd=folder,
        capture_output=True,
        text=True,
        env={**kept, **environment, "PYTHONPATH": str(ROOT)},
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout.split()[-1]


def days(said: str) -> int:
    return datetime.fromisoformat(said).toordinal()


def written(folder: Path) -> dict[str, bytes]:
    """All that was made: outputs of the topic, clean tables, the edition."""
    parts = [f"output/{TOPIC}", "output/data", "output/archive"]
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for part in parts
        for path in sorted((folder / part).rglob("*"))
        if path.is_file()
    }

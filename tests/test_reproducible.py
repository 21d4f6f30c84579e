"""Same inputs, same bytes: in two folders, on two days, in two places of the world."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from datetime import date, datetime
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.editions import project_of
from tests.tools import needed

pytestmark = pytest.mark.slow
TOPIC = "who-paid"  # it has a beat of every kind
MAKE = """
import datetime
from pathlib import Path
from pipeline.config.load import load
from pipeline.rebuild.make import DATA, OUT
from pipeline.run import make_data, make_topic
make_data(load(Path("config")), DATA)
make_topic(load(Path("config"), only="who-paid"), "who-paid", OUT / "who-paid", DATA)
print(datetime.datetime.now().isoformat())
"""


def test_same_bytes_in_two_folders_on_two_days(built: Path, tmp_path: Path):
    """What the workflow made here, and what is made in another folder 400 days later.

    Editions of two days are held against each other in tests/test_archive.py.
    """
    later = [needed("faketime", package="faketime"), "-f", "+400d"]
    other = project_of(built, tmp_path / "another" / "deeper", TOPIC)
    shutil.rmtree(other / "output")
    around = {"TZ": "Pacific/Auckland", "LC_ALL": "C", "LANG": "C", "PYTHONHASHSEED": "7"}
    made_on = made(other, MAKE, *later, OPENBLAS_NUM_THREADS="2", **around)
    assert days(made_on) - date.today().toordinal() in (399, 400, 401), "it was made on a later day"
    here, there = written(built), written(other)
    assert here.keys() == there.keys()
    endings = {Path(name).suffix for name in here}
    assert endings >= {".pdf", ".html", ".png", ".svg", ".csv", ".json", ".parquet", ".md"}
    assert [name for name in here if here[name] != there[name]] == []


def made(folder: Path, script: str, *before: str, **environment: str) -> str:
    """Run it there, in another process; the time it says it is."""
    kept = {key: value for key, value in os.environ.items() if key != "SOURCE_DATE_EPOCH"}
    done = subprocess.run(
        [*before, sys.executable, "-c", script],
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
    """All that was made: outputs of the topic, clean tables."""
    parts = [f"output/{TOPIC}", "output/data"]
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for part in parts
        for path in sorted((folder / part).rglob("*"))
        if path.is_file() and path.parent.name != ".made"  # records, which the workflow leaves
    }

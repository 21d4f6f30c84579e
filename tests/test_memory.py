"""Two million deliveries are read and cleaned in little memory, by processes of their own."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.bench.clock import measured
from tests.bench.scale import CLEAN, INGEST
from tests.matchfiles import write_match_files

pytestmark = pytest.mark.slow
FILES, TIMES = 165, 20  # each file under so many names: two million deliveries
MOST = 0.75  # gigabytes, of all processes together


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("many") / "matches"
    assert write_match_files(folder, FILES) * TIMES > 2_000_000
    for path in list(folder.iterdir()):
        for again in range(1, TIMES):
            os.link(path, path.with_name(f"{path.stem}-{again}.json"))
    return folder


def test_memory_does_not_grow_with_the_archive(archive: Path):
    words = str(archive), str(archive.parent / "out")
    assert measured("-c", INGEST, *words).gigabytes < MOST
    assert measured("-c", CLEAN, *words).gigabytes < MOST

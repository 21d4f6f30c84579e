"""Two million deliveries are read and cleaned in little memory, by processes of their own.

Here the peak of all processes together is sampled; in test_memory_limits.py the kernel keeps it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.clock import measured
from tests.bench.scale import CLEAN, INGEST
from tests.many import MATCH_FILES

pytestmark = pytest.mark.slow
MOST = 0.75  # gigabytes, of all processes together


def test_memory_does_not_grow_with_the_archive(many: Path, tmp_path: Path):
    words = str(many / MATCH_FILES), str(tmp_path / "out")
    assert measured("-c", INGEST, *words).gigabytes < MOST
    assert measured("-c", CLEAN, *words).gigabytes < MOST

"""What the campaign says of files damaged by chance, and that a case is the same every time."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from pipeline.errors import Problem, UserError
from tests.faults.readers import AREAS, try_one


@pytest.mark.parametrize(
    ("raised", "told"),
    [
        (ValueError("x"), "other: ValueError at nowhere of ours"),
        (UserError(Problem("elsewhere.csv", "x")), "other: unclear line 'elsewhere.csv: x'"),
    ],
)
def test_a_fault_and_a_refusal_that_names_no_file_are_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, raised: Exception, told: str
):
    def read() -> list[Problem]:
        raise raised

    monkeypatch.setitem(AREAS, "zip", lambda rng, folder: read)
    assert try_one("zip", Random(1), tmp_path) == told


def test_a_case_is_the_same_every_time(tmp_path: Path):
    for area in AREAS:
        first, second = tmp_path / area / "first", tmp_path / area / "second"
        for folder in (first, second):
            try_one(area, Random(f"{area} 3"), folder)
        files = [path for path in sorted(first.rglob("*")) if path.is_file()]
        for path in [path for path in files if "data" not in path.relative_to(first).parts]:
            assert path.read_bytes() == (second / path.relative_to(first)).read_bytes()

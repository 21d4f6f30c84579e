"""A fact made again is the same only if all that is shown of it is."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from pipeline.errors import UserError
from pipeline.explain.command import explain

pytestmark = pytest.mark.slow
FACT = "kinds.economy.spin-middle.change"


@pytest.fixture()
def output(built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The outputs of one topic, to be changed by hand."""
    monkeypatch.chdir(built)
    (tmp_path / "long-grass").mkdir()
    (tmp_path / "data").symlink_to(built / "output" / "data")
    for name in ("facts.json", "findings.json"):
        shutil.copy(built / "output" / "long-grass" / name, tmp_path / "long-grass" / name)
    return tmp_path


@pytest.mark.parametrize("key", ["value", "low", "high", "display"])
def test_a_fact_with_another_number_anywhere_is_older_than_its_data(output: Path, key: str, capsys):
    explain([FACT, "--output", str(output)])
    path = output / "long-grass" / "facts.json"
    found = json.loads(path.read_text("utf-8"))
    listed = found["facts"] if isinstance(found, dict) else found
    (fact,) = [each for each in listed if each["id"] == FACT]
    fact[key] = "−9.9%" if key == "display" else fact[key] * (1 + 1e-6)
    path.write_text(json.dumps(found), "utf-8")
    with pytest.raises(UserError, match=f"{FACT}: made again it is .*; run make brief"):
        explain([FACT, "--output", str(output)])

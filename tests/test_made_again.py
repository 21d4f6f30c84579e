"""A fact made again is the same only if all that is shown of it is."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.editions.reading import MAKE, read_facts
from pipeline.errors import UserError
from pipeline.explain.command import explain
from tests.editions import project_of, record
from tests.fact_makers import write_facts

pytestmark = pytest.mark.slow
FACT = "kinds.economy.spin-middle.change"


@pytest.fixture()
def output(built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The outputs of one topic, to be changed by hand."""
    monkeypatch.chdir(project_of(built, tmp_path, "long-grass"))
    return tmp_path / "output"


@pytest.mark.parametrize("key", ["value", "low", "high", "display"])
def test_a_fact_with_another_number_anywhere_is_older_than_its_data(output: Path, key: str, capsys):
    explain([FACT])
    folder = output / "long-grass"
    facts = {fact.id: fact for fact in read_facts(folder, MAKE)}
    now = getattr(facts[FACT], key)
    setattr(facts[FACT], key, "−9.9%" if key == "display" else now * (1 + 1e-6))
    write_facts(folder, facts.values())
    record("long-grass")
    with pytest.raises(UserError, match=f"{FACT}: made again it is .*; run make brief"):
        explain([FACT])

"""What is archived is what the configuration makes now, and is dated by the newest of its parts."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from pipeline.archive.current import check
from pipeline.archive.edition import edition_of
from pipeline.errors import UserError
from tests.editions import TOPIC, asked, project_of, record

pytestmark = pytest.mark.slow
RETRIEVED = "2026-11-25"  # the demo's source


@pytest.fixture()
def folder(built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The topic's outputs in a project of its own."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.chdir(project_of(built, tmp_path))
    return tmp_path / "output" / TOPIC


def changed(path: Path, name: str, value: Any) -> None:
    """The first of a JSON file's charts, corrections and so on, with another value."""
    text = path.read_text("utf-8")
    old = json.dumps(next(_named(json.loads(text), name)), ensure_ascii=False)
    path.write_text(text.replace(old, json.dumps(value), 1), "utf-8")


def _named(found: Any, name: str) -> Any:
    """Every value under a key, wherever it stands."""
    inner = found.items() if isinstance(found, dict) else enumerate(found)
    for key, value in inner:
        if key == name:
            yield value
        elif isinstance(value, (dict, list)):
            yield from _named(value, name)


@pytest.mark.parametrize("name", ["title", "alt"])
def test_words_of_a_chart_that_are_not_made_now_are_refused(folder: Path, name: str):
    check(asked())
    changed(folder / "charts" / "charts.json", name, "Another word")
    record()
    with pytest.raises(UserError, match=r"charts\.json: not what the .* make now; run make brief"):
        check(asked())


@pytest.mark.parametrize(
    ("corrected", "dated"), [("2026-11-24", RETRIEVED), ("2027-01-02", "2027-01-02")]
)
def test_an_edition_is_dated_by_its_newest_source_or_correction(folder, corrected, dated):
    path = folder / "findings.json"
    text = path.read_text("utf-8")
    (one, other) = json.loads(text)["corrections"]
    assert {one["date"], other["date"]} == {RETRIEVED}
    path.write_text(text.replace(f'"date": "{RETRIEVED}"', f'"date": "{corrected}"'), "utf-8")
    assert edition_of(asked(), 1, "content").date.isoformat() == dated

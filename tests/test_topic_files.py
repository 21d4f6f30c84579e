"""The files of a topic stand in one list, which the workflow, editions and rebuild take."""

from __future__ import annotations

import ast
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from pipeline.contracts.facts import Charts
from pipeline.contracts.files import as_json
from pipeline.rebuild.command import held_against
from pipeline.topic_files import BRIEF, CHECK, FILES, LISTS, NUMBERS, PAGES, TABLES, WHAT
from tests.conftest import ROOT
from tests.editions import TOPIC, archive, project_of

ALWAYS = [file.name for file in FILES if file.name not in CHECK]  # there is a script or not
NAMES = [file.name for file in FILES]


def literals(tree: ast.AST) -> Iterator[list[str]]:
    """The names that each list, tuple or set of the code holds."""
    for node in ast.walk(tree):
        if isinstance(node, ast.List | ast.Tuple | ast.Set):
            yield [part.value for part in node.elts if isinstance(part, ast.Constant)]


def test_every_file_is_in_one_part_and_is_described():
    assert sorted([*BRIEF, *NUMBERS]) == sorted([*PAGES, *LISTS, *NUMBERS]) == sorted(ALWAYS)
    assert sorted([*ALWAYS, *CHECK]) == sorted(NAMES) and len(CHECK) == 3
    assert len(set(NAMES)) == len(NAMES) and set(TABLES) <= set(LISTS)
    assert all(WHAT[name][0].islower() for name in NAMES)


def test_nothing_else_lists_them():
    workflow = (ROOT / "Snakefile").read_text("utf-8")
    assert [name for name in NAMES if name in workflow] == []
    for path in (ROOT / "pipeline").rglob("*.py"):
        if path.name != "topic_files.py":
            for listed in literals(ast.parse(path.read_text("utf-8"))):
                assert len(set(listed) & set(NAMES)) < len(NAMES) / 2, path


def test_rebuild_compares_them_all(tmp_path: Path):
    kept, made = tmp_path / "kept", tmp_path / "made"
    (kept / "charts").mkdir(parents=True)
    (kept / "charts" / "charts.json").write_text(as_json(Charts(charts=[])), "utf-8")
    _, problems = held_against(kept, made, made)
    told = {problem.file: problem.message for problem in problems}
    assert {told[name] for name in ALWAYS} == {"not in the edition"}
    assert not set(told) & set(CHECK), "an edition without a script has no check of it"
    for name in NAMES:
        (kept / name).write_text("", "utf-8")
    _, problems = held_against(kept, made, made)
    assert {p.message for p in problems if p.file in NAMES} == {"not made again"}


@pytest.mark.slow
def test_they_are_what_the_stages_write(built: Path):
    for topic in ("long-grass", "sea-air", "who-paid"):
        there = {path.name for path in (built / "output" / topic).iterdir() if path.is_file()}
        assert there == set(ALWAYS)


@pytest.mark.slow
def test_an_edition_holds_and_describes_them(built: Path, tmp_path: Path, monkeypatch):
    monkeypatch.chdir(project_of(built, tmp_path))
    archive()
    data = tmp_path / "output" / "archive" / TOPIC / "1" / "data"
    readme = (data / "README.md").read_text("utf-8")
    crate = json.loads((data / "ro-crate-metadata.json").read_text("utf-8"))["@graph"]
    (making,) = [entity for entity in crate if entity["@id"] == "#making"]
    assert {made["@id"] for made in making["result"]} == set(BRIEF)
    assert not [name for name in CHECK if (data / name).exists() or name in readme]
    for name in ALWAYS:
        assert (data / name).is_file() and f"- `{name}`: {WHAT[name]}" in readme
        (described,) = [entity for entity in crate if entity["@id"] == name]
        assert described["name"].lower() == WHAT[name].lower()
    tables = json.loads((data / "datapackage.json").read_text("utf-8"))["resources"]
    assert set(TABLES) <= {table["path"] for table in tables}

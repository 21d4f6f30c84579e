"""The map of modules and the glossary in DEVELOPERS.md."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.modules import CODE, PASSED_OVER, page, rooms, sentence
from tests.picture import PAGE

GLOSSARY = re.compile(r"^\| \*\*(.+?)\*\* \| .+ \| `([\w/.]+)` \|$", re.MULTILINE)


def test_the_map_is_current():
    text = PAGE.read_text("utf-8")
    assert page(text) == text, "make map writes it anew"


@pytest.mark.parametrize(
    "module",
    [module for found in rooms().values() for module in found],
    ids=lambda module: module.relative_to(CODE).as_posix(),
)
def test_every_module_says_in_one_line_what_is_in_it(module: Path):
    said = sentence(module)
    assert 10 < len(said) <= 100 and said[-1] in ".:?", f"{module}: {said}"


def test_every_word_of_the_glossary_stands_in_the_module_that_it_names():
    words = GLOSSARY.findall(PAGE.read_text("utf-8"))
    assert len(words) >= 20
    for word, module in words:
        text = (CODE / module).read_text("utf-8").lower()
        assert word.lower().replace(" ", "_") in text or word.lower() in text, (word, module)


def test_the_map_names_modules_and_no_command_lines(tmp_path: Path):
    room = tmp_path / "room"
    room.mkdir()
    for name in ("one.py", *PASSED_OVER):
        (room / name).write_text('"""What it is."""\n', "utf-8")
    assert rooms(tmp_path) == {"room": [room / "one.py"]}


def test_every_module_that_the_page_names_is_there():
    """So that what was renamed or taken away is not explained any more."""
    folders = (CODE, CODE.parent / "tests")
    there = {module.name for folder in folders for module in folder.rglob("*.py")}
    named = set(re.findall(r"`(?:[\w/]+/)?(\w+\.py)`", PAGE.read_text("utf-8")))
    assert len(named) > 40 and named <= there

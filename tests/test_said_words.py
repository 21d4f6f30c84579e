"""The files of words that claims are heard by: whole, in lower case, and each list of use."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest

from pipeline.said.word_lists import FOLDER, any_of, expression, filled, forms, pattern, words

FILES = sorted(path.stem for path in FOLDER.glob("*.toml"))


def lists(tree: dict[str, Any], before: str) -> Iterator[tuple[str, list[str]]]:
    for name, value in tree.items():
        path = f"{before}.{name}"
        if isinstance(value, dict):
            yield from lists(value, path)
        else:
            yield path, value.split() if isinstance(value, str) else value


def every_list() -> list[tuple[str, list[str]]]:
    return [
        found
        for file in FILES
        if file != "verbs"
        for found in lists(tomllib.loads((FOLDER / f"{file}.toml").read_text("utf-8")), file)
    ]


@pytest.mark.parametrize(("path", "phrases"), every_list(), ids=lambda each: str(each)[:30])
def test_each_phrase_is_lower_case_whole_and_there_once(path: str, phrases: list[str]):
    assert phrases and len(set(phrases)) == len(phrases), path
    own = {"group": "x", "changed": "x"}
    for phrase in phrases:
        assert phrase.strip() == phrase, (path, phrase)
        assert re.sub(r"\\[WS]", "", phrase).islower(), (path, phrase)
        re.compile(filled(expression(phrase), path.partition(".")[0], own))


def test_each_list_is_of_use():
    text = "".join(
        path.read_text("utf-8") for path in (*FOLDER.parent.glob("*.py"), *FOLDER.glob("*.toml"))
    )
    for path, _ in every_list():
        name = path.rpartition(".")[2]
        asked = rf"<(?:[a-z]+\.)*(?:finite_)?{name}>|[\"']{re.escape(path)}[\"']"
        table = f'table("{".".join(path.split(".")[:2])}")'
        assert re.search(asked, text) or table in text or path.startswith("only."), path


@pytest.mark.parametrize(
    ("verb", "told"),
    [
        ("trim", "trim trims trimming trimmed"),
        ("make", "make makes making made"),
        ("dry", "dry dries drying dried"),
        ("push", "push pushes pushing pushed"),
        ("benefit", "benefit benefits benefiting benefited benefitted"),
        ("drive", "drive drives driving drove driven"),
    ],
)
def test_a_verb_has_all_its_forms(verb: str, told: str):
    assert " ".join(forms(verb)) == told


def test_what_does_something_by_itself_has_no_ing():
    assert "making" in words("causes.verbs") and "making" not in words("causes.finite_verbs")
    assert "bring" in words("causes.finite_verbs")


def test_a_phrase_may_leave_words_out():
    said = re.compile(any_of([expression("got [(far|much) ](better|worse)")]))
    assert all(said.fullmatch(text) for text in ("got better", "got much worse"))
    assert not said.fullmatch("got far")


def test_a_list_stands_in_a_pattern_by_its_name():
    assert pattern(r"\b<so_they_say>\b", "doubts").search("or so they say")
    assert pattern(r"\b<stated.comparatives> than\b", "comparisons").search("it is rarer than that")

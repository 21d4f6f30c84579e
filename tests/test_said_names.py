"""The check of a script knows names from its topic alone: the demo's stand nowhere in it."""

from __future__ import annotations

import ast
import csv
import re
import shutil
import tomllib
from collections.abc import Iterator
from contextlib import chdir
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from pipeline.config.load import load
from pipeline.config.topic import Topic
from pipeline.errors import UserError
from pipeline.said.check import Known, Sentence, checked
from tests.conftest import ROOT
from tests.script_scores import known_by, known_in

SAID = ROOT / "pipeline" / "said"
# Words of the demo's names that any text may have.
ANYWHERE = {"the", "long", "longer", "break", "ground", "field", "lower", "upper", "top", "new"}
FILES = ("findings.json", "facts.json", "episode.json")
OTHER = {"coast": "hills", "inland": "valley"}
CALLED = """called:
  hills: [on the heights, by the ridge]
  valley: [in the dale]
"""


def demo_topics() -> Iterator[Topic]:
    with chdir(ROOT):
        for path in sorted(Path("config/topics").glob("*.yaml")):
            yield load(Path("config"), only=path.stem).topics[path.stem]


def demo_names() -> set[str]:
    """Every word of a competition, an event, a region, a ground, a side or a player."""
    names: list[str] = []
    for topic in demo_topics():
        names += topic.data.competition or []
        names += [each.name for each in (*([topic.event] if topic.event else []), *topic.also)]
    for file, columns in (
        ("grounds", ("ground", "city", "country", "region", "home")),
        ("players", ("name",)),
    ):
        with (ROOT / "demo_data" / f"{file}.csv").open(encoding="utf-8") as rows:
            names += [row[column] for row in csv.DictReader(rows) for column in columns]
    words = {word for name in names for word in re.findall(r"[a-z]{2,}", name.lower())}
    return words - ANYWHERE


def strings_of(module: Path) -> Iterator[str]:
    """Those of a module that are no docstrings."""
    tree = ast.parse(module.read_text("utf-8"))
    told = {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.value


def listed(tree: Any) -> Iterator[str]:
    """Every string of a file of words."""
    match tree:
        case str():
            yield tree
        case list():
            yield from (text for each in tree for text in listed(each))
        case dict():
            yield from (text for each in tree.values() for text in listed(each))


def words_in(path: Path) -> set[str]:
    texts = strings_of(path) if path.suffix == ".py" else listed(tomllib.loads(path.read_text()))
    return {word for text in texts for word in re.findall(r"[a-z]+", text.lower())}


def test_no_name_of_the_demo_stands_in_the_check():
    names = demo_names()
    assert {"coast", "inland", "tidewater", "shield", "grass", "drinks"} <= names
    files = [*SAID.rglob("*.py"), *SAID.rglob("*.toml")]
    found = {path.name: sorted(words_in(path) & names) for path in files}
    assert {file: words for file, words in found.items() if words} == {}


def renamed(text: str) -> str:
    for old, new in OTHER.items():
        text = re.sub(rf"\b{old}", new, text)
    return text


@cache
def other_topic(built: Path, folder: Path) -> Known:
    """The demo's topic of two regions, which are called otherwise."""
    shutil.copytree(built / "config", folder / "config")
    for name in ("demo_data", "templates"):
        (folder / name).symlink_to(built / name)
    file = folder / "config" / "topics" / "sea-air.yaml"
    text = re.sub(r"(?m)^called:.*\n(?:  .*\n)*", "", file.read_text("utf-8"))
    file.write_text(renamed(text) + CALLED, "utf-8")
    output = folder / "output" / "sea-air"
    output.mkdir(parents=True)
    for name in FILES:
        old = (built / "output" / "sea-air" / name).read_text("utf-8")
        (output / name).write_text(renamed(old), "utf-8")
    with chdir(folder):
        return known_in(output, load(Path("config"), only="sea-air"), "sea-air")


def told(known: Known, text: str) -> tuple[list[Any], list[str]]:
    (found,) = checked([Sentence(text)], known)
    numbers = [(each.said, each.result, renamed(each.fact or "")) for each in found.numbers]
    return numbers, [each.kind for each in found.claims]


@pytest.fixture(scope="module")
def other(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Known:
    return other_topic(built, tmp_path_factory.mktemp("other"))


@pytest.mark.parametrize(
    "text",
    [
        "Pace goes for 4.87 an over at the coast and 5.11 inland.",
        "Pace goes for 5.11 an over at the coast and 4.87 inland.",
        "Pace is cheaper at the coast.",
        "Pace is cheaper at the coast than inland.",
        "Spinners go for four point six away from the inland grounds.",
        "The coast makes the quicks cheaper.",
        "The coast helps pace more than it helps spin.",
        "No difference between coast and inland.",
        "Coast or inland, exactly the same.",
        "At coast grounds dots are more frequent.",
        "Inland pace bowling concedes 5.11 an over, away from the coast.",
        "Away from the coast pace went at 5.11; beside it, 4.87.",
        "Only pace got anything out of the coast.",
        "Pace suffered more at the coast than spin did, and it was the hardest hit of all.",
    ],
)
def test_another_topics_regions_are_known_as_the_demos_are(built: Path, other: Known, text: str):
    expected = told(known_by(str(built), "sea-air"), text)
    assert expected != ([], [])
    assert told(other, renamed(text)) == expected


def test_a_topic_says_what_else_its_groups_are_called(other: Known):
    by_name = told(other, "Pace goes for 4.87 an over at the hills.")
    assert told(other, "Pace goes for 4.87 an over on the heights.") == by_name
    assert [result for _, result, _ in by_name[0]] == ["supported"]
    assert told(other, "Pace goes for 4.87 an over by the ridge.") == by_name
    assert [
        result for _, result, _ in told(other, "Pace goes for 5.11 an over in the dale.")[0]
    ] == ["supported"]
    assert [
        result for _, result, _ in told(other, "Pace goes for 5.11 an over on the heights.")[0]
    ] == ["wrong direction"]


@pytest.mark.parametrize(
    ("called", "told"),
    [
        ("{coast: [by the water], inland: [By the water]}", "what 'coast' is called too"),
        ("{coast: ['4.87']}", "has no letter"),
        ("{coast: []}", "at least 1"),
        ("{coast: seaside}", "list"),
    ],
)
def test_words_that_can_t_be_told_apart_are_a_mistake(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, called: str, told: str
):
    shutil.copytree(ROOT / "config", tmp_path / "config")
    path = tmp_path / "config" / "topics" / "sea-air.yaml"
    text = re.sub(r"(?m)^called:.*\n(?:  .*\n)+", f"called: {called}\n", path.read_text("utf-8"))
    path.write_text(text, "utf-8")
    line = text.splitlines().index(f"called: {called}") + 1
    monkeypatch.chdir(tmp_path)
    with pytest.raises(UserError) as caught:
        load(Path("config"), only="sea-air")
    said = str(caught.value)
    assert told in said and f"sea-air.yaml:{line}" in said

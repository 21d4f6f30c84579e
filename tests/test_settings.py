"""config/README.md: made from the models, complete, and true of the demo's own files."""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Iterator
from typing import Any

import pytest
from pydantic import Field

import pipeline.config
from pipeline.config.fields import Line, MarginField, Slug, Strict
from pipeline.config.in_words import default, holds
from pipeline.config.settings import SECTIONS, page
from pipeline.config.topic import Topic
from pipeline.config.when import WindowField
from pipeline.config.yaml_files import read_yaml
from tests.conftest import ROOT

FILES = ("project", "sources", "measures", "formats", "theme", "topics/*")
# Under these the keys are names of the user's own, or of cuts.
OWN_NAMES = {
    "measures",
    "formats",
    "phases",
    "columns",
    "constants",
    "lists",
    "between",
    "of",
    "called",
}


def models() -> list[type[Strict]]:
    """Every model of the configuration, whichever module it is in."""
    for module in pkgutil.iter_modules(pipeline.config.__path__):
        if module.name != "__main__":
            importlib.import_module(f"pipeline.config.{module.name}")
    found, waiting = [], [Strict]
    while waiting:
        below = waiting.pop().__subclasses__()
        found += [model for model in below if model.__module__.startswith("pipeline.config")]
        waiting += below
    return found


@pytest.mark.parametrize("model", models(), ids=lambda model: model.__name__)
def test_every_field_says_what_it_means(model: type[Strict]):
    for name, field in model.model_fields.items():
        said = field.description or ""
        assert len(said) > 5, f"{model.__name__}.{name} has no description"
        assert "\n" not in said and said != name, f"{model.__name__}.{name}: {said}"
        assert not said.endswith("."), f"{model.__name__}.{name}: no full stop in a table"


def test_the_tables_are_current():
    text = (ROOT / "config" / "README.md").read_text("utf-8")
    assert text == page(), "make schema writes config/README.md anew"


def test_every_key_of_the_models_stands_in_its_own_section():
    there = tables()
    for section in SECTIONS:
        common = there["beats"] if section.heading.startswith("kind: ") else set()
        missing = set(section.model.model_fields) - there[section.heading] - common
        assert not missing, (section.heading, missing)


def test_links_lead_to_headings():
    text = page()
    anchors = {
        re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")
        for heading in re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    }
    assert set(re.findall(r"\]\(#([^)]+)\)", text)) <= anchors
    assert len(anchors) == len(re.findall(r"^#+ ", text, re.MULTILINE)), "two headings alike"


@pytest.mark.parametrize("name", FILES)
def test_the_demo_uses_keys_of_the_tables_only(name: str):
    known = file_keys(f"{name}.yaml")
    files = sorted((ROOT / "config").glob(f"{name}.yaml"))
    used = {key for file in files for key in keys(read_yaml(file).tree)}
    assert used and used <= known, used - known


def test_types_and_defaults_in_plain_words():
    class Shown(Strict):
        """Not of the project's own."""

        name: Slug
        says: list[Line] = Field([], max_length=3)
        size: int = Field(2, gt=0, le=9)
        part: float = Field(gt=0, lt=0.5)
        on: bool = False
        margin: MarginField = Field("5 %", description="hides the type's own words")
        window: WindowField | None = None

    fields = Shown.model_fields
    assert {name: holds(field, {}) for name, field in fields.items()} == {
        "name": "name",
        "says": "list of texts, at most 3",
        "size": "whole number 1 to 9",
        "part": "number over 0 and under 0.5",
        "on": "`true` or `false`",
        "margin": "`5 %` or `0.6 points`",
        "window": "`5 seasons`, `4 years`, `2012 to 2016` or `2012-04-01 to 2016-09-30`",
    }
    assert [default(fields[name]) for name in ("name", "says", "size", "on", "window")] == [
        *("needed", "none", "`2`", "`false`", "none")
    ]
    assert holds(Topic.model_fields["frames"], {}).startswith("one or more of `light`, `dark`")


def tables() -> dict[str, set[str]]:
    """The keys in the table under each heading of the page."""
    found = {}
    for part in re.split(r"^#+ ", page(), flags=re.MULTILINE)[1:]:
        found[part.splitlines()[0]] = set(re.findall(r"^\| `(\w+)` \|", part, re.MULTILINE))
    return found


def file_keys(file: str) -> set[str]:
    """The keys in all tables of one file."""
    chosen: set[str] = set()
    inside = False
    for section in SECTIONS:
        inside = section.heading == file if section.level == 2 else inside
        chosen |= tables()[section.heading] if inside else set()
    return chosen


def keys(node: Any, named: bool = False) -> Iterator[str]:
    """Keys of a parsed YAML file that are the project's, not names of the user's own."""
    if isinstance(node, dict):
        for key, value in node.items():
            if not named:
                yield key
            yield from keys(value, named=not named and key in OWN_NAMES)
    elif isinstance(node, list):
        for item in node:
            yield from keys(item)

"""YAML to models, with the file, line and column of every mistake."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from pipeline.config.yaml_text import text_of
from pipeline.config.yaml_tree import Map, Seq, tree_of
from pipeline.errors import Problem, did_you_mean, nearest
from pipeline.topic_places import dotted

Model = TypeVar("Model", bound=BaseModel)
MOST_TOLD = 500  # mistakes of a file; what is left is told when these are mended


@dataclass(frozen=True)
class Document:
    """A parsed YAML file: its plain data, and where each part stands (perhaps in another file)."""

    file: str
    tree: Any

    def problem(self, loc: Sequence[str | int], message: str, key: bool = False) -> Problem:
        """A problem at `loc` (keys and list positions); at the key itself when `key` is set."""
        file, line, column = self._position(loc, key)
        return Problem(file, message, line, column, dotted(loc))

    def standing(self, loc: Sequence[str | int]) -> tuple[str | int, ...]:
        """`loc` without positions in a list that is written as its one value."""
        node, kept = self.tree, []
        for part in loc:
            inside = isinstance(node, Seq) if isinstance(part, int) else True
            kept += [part] if inside else []
            node = node[part] if inside and self._holds(node, part) else None
        return tuple(kept)

    @staticmethod
    def _holds(node: Any, part: str | int) -> bool:
        if isinstance(node, Seq):
            return isinstance(part, int) and part < len(node)
        return isinstance(node, Map) and part in node

    def _position(self, loc: Sequence[str | int], key: bool) -> tuple[str, int, int]:
        node, place, file = self.tree, (0, 0), self.file
        for depth, part in enumerate(loc):
            last = depth == len(loc) - 1
            if not self._holds(node, part):
                break
            if isinstance(node, Seq) and isinstance(part, int):
                place = node.at[part]
            else:
                place = node.keys_at[part] if (last and key) else node.values_at[part]
                file = node.elsewhere.get(part, file)
            node = node[part]
        return file, place[0] + 1, place[1] + 1


def read_yaml(path: Path) -> Document:
    """Parse one file (YAML 1.2: `no` and `12:30` stay text); duplicate keys are errors."""
    return Document(str(path), tree_of(str(path), text_of(path)))


def validate(
    document: Document, model: type[Model], context: dict[str, Any] | None = None
) -> tuple[Model | None, list[Problem]]:
    """The model, or every mistake in the document with its place, up to `MOST_TOLD`."""
    plain = _plain(document.tree)
    try:
        return model.model_validate(plain, context=context), []
    except ValidationError as error:
        items = error.errors()[:MOST_TOLD]
    found = {_explain(document, model, item) for item in items}
    if _mend_tags(plain, items):  # a misspelt kind must not hide the mistakes beside it
        try:
            model.model_validate(plain, context=context)
        except ValidationError as error:
            found |= {_explain(document, model, item) for item in error.errors()[:MOST_TOLD]}
    return None, sorted(found)


def _mend_tags(plain: Any, items: list[ErrorDetails]) -> bool:
    """Replace each unknown tag of a union by its nearest valid one; False if none was near."""
    mended = False
    for item in items:
        if item["type"] != "union_tag_invalid":
            continue
        near = nearest(item["ctx"]["tag"], _quoted(item["ctx"]["expected_tags"]))
        node = plain
        for part in item["loc"]:
            node = node[part]
        if near:
            node[item["ctx"]["discriminator"].strip("'")] = near
            mended = True
    return mended


def _quoted(words: str) -> list[str]:
    return re.findall(r"'([^']*)'", words)


def _plain(node: Any) -> Any:
    """A copy without places, to be validated and mended."""
    if isinstance(node, dict):
        return {key: _plain(value) for key, value in node.items()}
    if isinstance(node, list):
        return [_plain(value) for value in node]
    return node


def _explain(document: Document, model: type[BaseModel], item: ErrorDetails) -> Problem:
    loc = _without_tags(item["loc"], document.tree)
    kind, message = item["type"], item["msg"]
    if kind == "extra_forbidden":
        names = field_names(model, item["loc"][:-1])
        return document.problem(loc, f"unknown key{did_you_mean(loc[-1], names)}", key=True)
    if kind == "missing":
        place = document.problem(loc[:-1], "")
        where = dotted(loc)
        return Problem(place.file, f"'{loc[-1]}' is missing here", place.line, place.column, where)
    if kind in ("literal_error", "union_tag_invalid"):
        valid = _quoted(str(item["ctx"].get("expected") or item["ctx"]["expected_tags"]))
        if kind == "union_tag_invalid":
            loc = (*loc, item["ctx"]["discriminator"].strip("'"))
            value = item["ctx"]["tag"]
        else:
            value = item["input"]
        return document.problem(loc, f"'{value}' is not valid here{did_you_mean(value, valid)}")
    if kind == "union_tag_not_found":
        return document.problem(loc, f"{item['ctx']['discriminator']} is missing here")
    message = re.sub(r"^Value error, ", "", message)
    if kind != "value_error":
        found = "" if isinstance(item["input"], (dict, list)) else f", found '{item['input']}'"
        message = f"{message[0].lower()}{message[1:]}{found}"
    return document.problem(loc, message)


def _without_tags(loc: tuple[str | int, ...], tree: Any) -> tuple[str | int, ...]:
    """Pydantic puts a union's tag into a place; keep only what stands in the file."""
    kept: list[str | int] = []
    node = tree
    for depth, part in enumerate(loc):
        inside = (isinstance(node, dict) and part in node) or (
            isinstance(node, list) and isinstance(part, int) and part < len(node)
        )
        if inside:
            node = node[part]
            kept.append(part)
        elif depth == len(loc) - 1 and not isinstance(part, int) and part != "[key]":
            kept.append(part)
    return tuple(kept)


def field_names(model: type[BaseModel], loc: Sequence[str | int]) -> list[str]:
    """The keys valid at `loc`, walking the models' annotations (and a union's tags)."""
    current: Any = model
    for part in loc:
        current = _step(current, part)
    models = _models_in(current)
    return sorted({name for found in models for name in found.model_fields})


def _step(annotation: Any, part: str | int) -> Any:
    for found in _models_in(annotation):
        if part in found.model_fields:
            return found.model_fields[part].annotation
        tag = found.model_fields.get("kind")
        if tag is not None and part in get_args(tag.annotation):
            return found
    return annotation


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [found for inner in get_args(annotation) for found in _models_in(inner)]

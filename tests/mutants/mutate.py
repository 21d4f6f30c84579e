"""The mutants of a module: one fault each, named, and a seeded sample of them."""

from __future__ import annotations

import ast
import random
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from tests.mutants.faults import changes, index

SEED = 20170301
TYPES = ("annotation", "returns", "decorator_list", "format_spec")


@dataclass(frozen=True)
class Mutant:
    """A module's text with one fault; `function` is the line its innermost function begins at."""

    module: str
    line: int
    column: int
    change: str
    function: int | None
    text: str

    @property
    def name(self) -> str:
        return f"{self.module}:{self.line}:{self.column} {self.change}"


@dataclass(frozen=True)
class _Place:
    """Where a node hangs in the tree, so that another can be put there for a moment."""

    parent: ast.AST
    field: str
    place: int | None
    node: ast.AST
    function: int | None

    def put(self, node: ast.AST) -> None:
        if self.place is None:
            setattr(self.parent, self.field, node)
        else:
            getattr(self.parent, self.field)[self.place] = node


def mutants(module: str, source: str) -> list[Mutant]:
    """Every mutant of a module, in the order of its text; no two have one name."""
    tree = ast.parse(source)
    found: dict[str, Mutant] = {}
    for place in _places(tree, None):
        for line, column, change, new in changes(place.node):
            place.put(new)
            text = ast.unparse(tree) + "\n"
            place.put(place.node)
            made = Mutant(module, line, column + 1, change, place.function, text)
            found.setdefault(made.name, made)
    return sorted(found.values(), key=lambda one: (one.line, one.column, one.change))


def sample(found: list[Mutant], most: int, seed: int = SEED) -> list[Mutant]:
    """At most so many of a module's mutants, the same ones at every run, in their order."""
    if len(found) <= most:
        return found
    draw = random.Random(f"{seed} {found[0].module}")
    return [found[place] for place in sorted(draw.sample(range(len(found)), most))]


def _places(node: ast.AST, function: int | None) -> Iterator[_Place]:
    """Every node that may be changed, with its innermost function."""
    if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
        function = min([node.lineno, *(one.lineno for one in node.decorator_list)])
    for field, value in ast.iter_fields(node):
        if field in TYPES:
            continue
        for place, inner in enumerate(value) if isinstance(value, list) else [(None, value)]:
            if isinstance(inner, ast.AST) and not _left_out(node, field, inner):
                yield _Place(node, field, place, inner, function)
                yield from _places(inner, function)


def _left_out(parent: ast.AST, field: str, node: Any) -> bool:
    """What changes nothing that is said: types, guards, the command's own end."""
    if isinstance(node, ast.Assert):
        return True
    if isinstance(node, ast.If):
        return "__name__" in (test := ast.unparse(node.test)) or "TYPE_CHECKING" in test
    if isinstance(node, ast.Assign):
        return ast.unparse(node.targets[0]) == "__all__"
    if isinstance(node, ast.keyword):
        return node.arg == "strict"  # of zip: a guard, like an assertion
    if isinstance(node, ast.Subscript):
        return ast.unparse(node.value).endswith("Literal")
    return field == "slice" and isinstance(parent, ast.Subscript) and index(parent) in (0, -1)

"""YAML as plain data that know where they stand; what has no end or counts to nothing is refused.

Aliases (`*name`) and `<<` are understood, and counted as what they unfold to.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from ruamel.yaml.nodes import MappingNode, ScalarNode, SequenceNode

from pipeline.config.yaml_nodes import (
    DEEPEST,
    MOST,
    TOO_DEEP,
    TOO_MANY,
    Alias,
    Place,
    Refused,
    at,
    composed,
)
from pipeline.config.yaml_text import unseen
from pipeline.errors import Problem, UserError
from pipeline.terminal import HARMFUL

LONGEST = 2_000  # characters of one text
LONGEST_NUMBER = 30  # characters
_TAG = "tag:yaml.org,2002:"
_MERGE = f"{_TAG}merge"


class Map(dict[str, Any]):
    """Keys with their values; `keys_at` and `values_at` have the place of each.

    `elsewhere` has the file of each key that stands in another one than its section.
    """

    def __init__(self) -> None:
        super().__init__()
        self.keys_at: dict[str, Place] = {}
        self.values_at: dict[str, Place] = {}
        self.elsewhere: dict[str, str] = {}


class Seq(list[Any]):
    """Values in order; `at` has the place of each."""

    def __init__(self) -> None:
        super().__init__()
        self.at: list[Place] = []


def tree_of(file: str, text: str) -> Map:
    """The settings of a file. Raises UserError for what is not YAML, or more than it may be."""
    try:
        node = composed(text)
        if not isinstance(node, MappingNode):
            raise Refused("expected 'key: value' lines, found none", (0, 0))
        made = _Making().value(node, (0, 0), 0)
        assert isinstance(made, Map)
        return made
    except Refused as refused:
        line, column = refused.place
        raise UserError(Problem(file, refused.message, line + 1, column + 1)) from None


@dataclass
class _Making:
    """Nodes into values: what aliases unfold to is counted, and what holds itself is refused."""

    count: int = 0
    open: list[int] = field(default_factory=list)
    unfolding: Place | None = None  # where the alias stands that is being unfolded

    def value(self, node: Any, place: Place, depth: int) -> Any:
        """The value of a node; `place` is where it is told to stand."""
        if isinstance(node, Alias):
            return self._unfolded(node, place, depth)
        self.count += 1
        if self.count > MOST:
            raise Refused(TOO_MANY, self.unfolding or place)
        if depth > DEEPEST:
            raise Refused(TOO_DEEP, self.unfolding or place)
        if isinstance(node, ScalarNode):
            return self._scalar(node, place)
        if id(node) in self.open:
            raise Refused("an alias of what it stands in, which has no end; write it out", place)
        self.open.append(id(node))
        made = self._seq(node, depth) if isinstance(node, SequenceNode) else self._map(node, depth)
        self.open.pop()
        return made

    def _unfolded(self, alias: Alias, place: Place, depth: int) -> Any:
        before, self.unfolding = self.unfolding, self.unfolding or place
        made = self.value(alias.node, place, depth)
        self.unfolding = before
        return made

    def _seq(self, node: Any, depth: int) -> Seq:
        made = Seq()
        for item in node.value:
            made.at.append(at(item))
            made.append(self.value(item, made.at[-1], depth + 1))
        return made

    def _map(self, node: Any, depth: int) -> Map:
        """The node's own keys, then those that `<<` adds."""
        made, merged = Map(), []
        for key_node, value_node in node.value:
            place = at(key_node)
            if getattr(key_node, "tag", "") == _MERGE:
                merged.append((value_node, place))
                continue
            key = self._key(key_node, place)
            if key in made:
                raise Refused(f"'{key}' stands twice in the same section; keep one of them", place)
            made.keys_at[key], made.values_at[key] = place, at(value_node)
            made[key] = self.value(value_node, made.values_at[key], depth + 1)
        if len(merged) > 1:
            raise Refused("'<<' stands twice in the same section; keep one of them", merged[1][1])
        for value_node, place in merged:
            self._merge(made, self.value(value_node, place, depth + 1), place)
        return made

    def _merge(self, made: Map, more: Any, place: Place) -> None:
        """Keys of another section, or of several, that are not there yet."""
        for section in more if isinstance(more, Seq) else [more]:
            if not isinstance(section, Map):
                raise Refused("'<<' takes a section by its alias, such as <<: *name", place)
            for key, value in section.items():
                if key not in made:
                    made[key], made.keys_at[key], made.values_at[key] = value, place, place

    def _key(self, node: Any, place: Place) -> str:
        """A key as it is written: 0123 stays so."""
        if isinstance(node, Alias) or not isinstance(node, ScalarNode):
            raise Refused("a key that is no plain word; write 'key: value'", place)
        return self._text(node.value, place)

    def _scalar(self, node: Any, place: Place) -> Any:
        kind = str(node.tag).removeprefix(_TAG)
        if kind == "null":
            return None
        if kind == "bool":
            return node.value.lower() == "true"
        if kind in ("int", "float"):
            return _number(node.value, kind, place)
        return self._text(node.value, place)  # dates too: an impossible one is its field's error

    @staticmethod
    def _text(text: str, place: Place) -> str:
        if len(text) > LONGEST:
            message = f"a text of {len(text):,} characters; at most {LONGEST:,}"
            raise Refused(message, place)
        if found := HARMFUL.search(text):  # by an escape, such as "\e"
            raise Refused(unseen(found[0]), place)
        return text


def _number(written: str, kind: str, place: Place) -> int | float:
    """A finite number; 0o17 and 0x1f are whole ones too."""
    if len(written) > LONGEST_NUMBER:
        message = f"a number of {len(written):,} characters; at most {LONGEST_NUMBER}"
        raise Refused(f"{message}, or in quotes if it is meant as text", place)
    digits = written.replace("_", "").lower()
    based = digits.lstrip("+-")[:2] in ("0b", "0o", "0x")
    try:
        value = int(digits, 0 if based else 10) if kind == "int" else float(digits)
        if math.isfinite(value):
            return value
    except ValueError:  # also .inf and .nan, which are written with a point before them
        pass
    raise Refused(f"'{written}' is no number to count with; in quotes if it is text", place)

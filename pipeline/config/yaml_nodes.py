"""YAML's own nodes, composed with limits: how deep, how many, and nothing that no setting needs.

Tags (`!!int`), a second document and directives (`%YAML`) are refused where they stand.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from ruamel.yaml import YAML
from ruamel.yaml.composer import Composer, MaxDepthExceededError
from ruamel.yaml.error import MarkedYAMLError
from ruamel.yaml.events import AliasEvent

DEEPEST = 20  # levels
MOST = 10_000  # values, with all that aliases unfold to
TOO_MANY = f"over {MOST:,} values, with what aliases unfold to; split the file or write less"
TOO_DEEP = f"nested more than {DEEPEST} levels deep; no setting is"

Place = tuple[int, int]  # line and column, from nought


class Refused(Exception):
    """What is wrong, and where it stands."""

    def __init__(self, message: str, place: Place) -> None:
        super().__init__(message)
        self.message, self.place = message, place


class Alias(NamedTuple):
    """A use of what has a name elsewhere."""

    node: Any
    start_mark: Any


class _Counting(Composer):
    """Stops at the first value too many, and at what is not understood."""

    def __init__(self, loader: Any = None) -> None:
        super().__init__(loader)
        self.warn_double_anchors = False
        self.values = 0

    def get_single_node(self) -> Any:
        try:
            return super().get_single_node()
        except (ValueError, OverflowError) as error:  # an escape or a version that is no number
            mark = self.loader.reader.get_mark()
            raise Refused(f"not valid YAML: {error}", _of(mark)) from None

    def compose_document(self) -> Any:
        event = self.parser.peek_event()
        if event.version or event.tags:
            raise Refused("a line with % before this one; leave it out", at(event))
        return super().compose_document()

    def compose_node(self, parent: Any, index: Any) -> Any:
        event = self.parser.peek_event()
        self.values += 1
        if self.values > MOST:
            raise Refused(TOO_MANY, at(event))
        if isinstance(event, AliasEvent):
            return Alias(super().compose_node(parent, index), event.start_mark)
        if event.ctag is not None:
            message = f"a tag ({event.tag}); write the value alone, in quotes if it is text"
            raise Refused(message, at(event))
        if event.anchor in self.anchors:
            raise Refused(f"the name '&{event.anchor}' is given twice; give each once", at(event))
        return super().compose_node(parent, index)


def composed(text: str) -> Any:
    """The node of a file's one document; none of an empty one. Raises Refused."""
    yaml = YAML(typ="safe", pure=True)
    yaml.Composer = _Counting
    yaml.max_depth = DEEPEST
    try:
        return yaml.compose(text)
    except MaxDepthExceededError as error:
        raise Refused(TOO_DEEP, _of(error.problem_mark)) from None
    except MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        message = f"not valid YAML: {error.problem or error.context}"
        if error.problem == "but found another document":
            message = "a second document begins here (---); keep one"
        raise Refused(message, _of(mark) if mark else (0, 0)) from None


def at(node: Any) -> Place:
    """Where a node or an event begins."""
    return _of(node.start_mark)


def _of(mark: Any) -> Place:
    return (mark.line, mark.column)

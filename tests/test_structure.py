"""The rooms of the pipeline: imports run one way, and names mean one thing."""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

from tests.conftest import ROOT

Rooms = dict[str, set[str]]
# In the order in which data flow: no room reaches a later one, not even through others.
FLOW = ("ingest", "clean", "metrics", "significance", "charts", "brief", "archive")
# What may be known of editions without knowing how they are made.
ABOVE_EDITIONS = {"brief", "archive", "compare", "errata", "rebuild", "shelf", "verify"}
# Base names that stand in several rooms, and the one thing that each means.
SHARED = {
    "__init__": "what the room is for",
    "__main__": "a room's command line",
    "batch": "matches as they lie on the disk: what is noted of them, written",
    "base": "what every model of the room begins with",
    "change": "a change between two windows: found, said",
    "check": "what is read held against what is known: an edition, the numbers of a script",
    "clusters": "what matches are of, left out together: an error made of them, said",
    "command": "a command that is run by hand",
    "comparison": "two sides held against each other: asked, drawn",
    "composition": "what else changed between two windows: its shape, tallied, found, said",
    "control": "what the event did not touch: tallied, judged, said",
    "facts": "the numbers of a brief: their shape, made",
    "findings": "what significance found: their shape, made",
    "notes": "cautions: their codes, found, said",
    "of_kinds": "which module of the room a kind of beat has: its findings, its words, its drawing",
    "on_the_field": "a difference as runs or balls of an innings: counted, said",
    "printed": "as it is printed: what a command found, the ends of an interval",
    "quality": "how good the data are: its shape, counted",
    "second_verdict": "the step held against the drift: judged, said",
    "selection": "which balls: asked for, selected",
    "stage": "a stage's functions",
    "theme": "colours and fonts: configured, applied",
    "windows": "the seasons that are compared: chosen, judged",
    "yardstick": "how far a number moves anyway: found, said",
}


@cache
def modules(folder: str = "pipeline") -> dict[str, ast.Module]:
    """Every module by its name, parsed."""
    paths = sorted((ROOT / folder).rglob("*.py"))
    return {
        ".".join(path.relative_to(ROOT).with_suffix("").parts): ast.parse(path.read_text("utf-8"))
        for path in paths
    }


def imports(tree: ast.Module) -> Iterator[tuple[str, str | None]]:
    """(module, name) of everything that is imported, for types too; no name for the module."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            yield from ((node.module or "", alias.name) for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from ((alias.name, None) for alias in node.names)


def imported(module: str, name: str | None, there: dict[str, ast.Module]) -> str:
    """The module of the pipeline that an import is of: 'from pipeline import run' is of run."""
    inner = f"{module}.{name}"
    return inner if inner in there or f"{inner}.__init__" in there else module


def room_of(module: str) -> str:
    """'pipeline.brief.facts' is of brief; 'pipeline.errors' is a room of its own."""
    return module.split(".")[1]


def rooms(there: dict[str, ast.Module]) -> Rooms:
    """The rooms that each room imports from."""
    found: Rooms = defaultdict(set)
    for module, tree in there.items():
        for source, name in imports(tree):
            target = imported(source, name, there)
            if target.startswith("pipeline."):
                found[room_of(module)].add(room_of(target))
    return {room: used - {room} for room, used in found.items()}


def circle(graph: Rooms) -> list[str]:
    """The rooms of a circle; none when there is none."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        return error.args[1]
    return []


def reached(graph: Rooms, room: str) -> set[str]:
    found: set[str] = set()
    waiting = [room]
    while waiting:
        more = graph.get(waiting.pop(), set()) - found
        found |= more
        waiting += more
    return found


def private(tree: ast.Module, there: dict[str, ast.Module]) -> list[str]:
    """Names with an underscore in front that are taken from another module."""
    found, known = [], set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("pipeline"):
            for alias in node.names:
                found += [alias.name] if hidden(alias.name) else []
                if imported(node.module, alias.name, there) != node.module:
                    known.add(alias.asname or alias.name)
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and hidden(node.attr):
            of = node.value
            found += [node.attr] if isinstance(of, ast.Name) and of.id in known else []
    return found


def hidden(name: str) -> bool:
    return name.startswith("_") and not name.endswith("__")


def test_no_arrow_between_rooms_runs_back():
    graph = rooms(modules())
    assert {"config", "errors"} <= graph["brief"]
    assert graph["errors"] == {"terminal"} and not graph.get("terminal")
    assert circle(graph) == []


def test_rooms_that_import_each_other_are_a_circle():
    texts = {
        "pipeline.a.one": "from pipeline.b import two",
        "pipeline.b.__init__": "",
        "pipeline.b.two": "if True:\n    from pipeline import c",
        "pipeline.c": "import pipeline.a.one",
    }
    graph = rooms({name: ast.parse(text) for name, text in texts.items()})
    assert graph["b"] == {"c"} and set(circle(graph)) == {"a", "b", "c"}
    del texts["pipeline.c"]
    assert circle(rooms({name: ast.parse(text) for name, text in texts.items()})) == []


@pytest.mark.parametrize("stage", FLOW)
def test_no_stage_reaches_a_later_one(stage: str):
    later = set(FLOW[FLOW.index(stage) + 1 :])
    assert not reached(rooms(modules()), stage) & later


def test_editions_know_nothing_of_how_they_are_made():
    graph = rooms(modules())
    assert not reached(graph, "editions") & (ABOVE_EDITIONS | set(FLOW))
    assert {room for room in ABOVE_EDITIONS if "editions" in reached(graph, room)} == ABOVE_EDITIONS


def test_no_module_takes_a_private_name_of_another():
    there = modules()
    taken = {module: private(tree, there) for module, tree in there.items()}
    assert {module: names for module, names in taken.items() if names} == {}


def test_a_private_name_is_seen_however_it_is_taken():
    there = {"pipeline.a": ast.parse("_x = 1"), "pipeline.b": ast.parse("")}
    for text in ("from pipeline.a import _x", "from pipeline import a\nprint(a._x)"):
        assert private(ast.parse(text), there) == ["_x"]
    assert private(ast.parse("from pipeline import a\nprint(a.x, a.__doc__)"), there) == []


@pytest.mark.parametrize("folder", ["pipeline", "tests"])
def test_no_module_imports_a_command_line(folder: str):
    for module, tree in modules(folder).items():
        names = {part for found in imports(tree) for part in found if part}
        assert not [name for name in names if name.rpartition(".")[2] == "__main__"], module


def test_a_base_name_means_one_thing():
    """A kind of beat has its module in every room that treats kinds apart."""
    having = defaultdict(set)
    for path in (ROOT / "pipeline").rglob("*.py"):
        room = path.relative_to(ROOT / "pipeline").parts[0]
        if path.parent.name != "kinds" or path.stem not in kinds():
            having[path.stem].add(room)
    assert {name for name, rooms in having.items() if len(rooms) > 1} == set(SHARED)


def kinds() -> set[str]:
    """The kinds of beat, by their modules."""
    folder = Path(ROOT / "pipeline" / "config" / "kinds")
    return {path.stem for path in folder.glob("*.py")} - {"__init__", "base"}


def test_modules_of_kinds_are_named_after_kinds():
    for path in (ROOT / "pipeline").glob("*/kinds/*.py"):
        assert path.stem in {*kinds(), "__init__", "base"}, path

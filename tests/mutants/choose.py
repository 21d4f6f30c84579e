"""Which tests a mutant is tried by: those that call its function, the quickest first."""

from __future__ import annotations

import ast
import fnmatch
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from tests.mutants.mutate import Mutant

SECONDS = 8.0  # a mutant, those of the tests that are asked last not counted


class Recorded(NamedTuple):
    """What was recorded: a test's seconds, and what it calls itself or its file on import."""

    seconds: dict[str, float]
    calls: dict[str, frozenset[str]]
    on_import: dict[str, frozenset[str]]
    importers: dict[str, list[str]]  # of a module, those that import from it
    last: tuple[str, ...] = ()

    def of(self, mutant: Mutant, most: float = SECONDS) -> list[str]:
        """The tests in the order they are tried in; at the end the last ones, whatever they take.

        A fault outside every function is seen by what calls its module, or one that imports it.
        """
        name = f"{mutant.module}:{mutant.function}"
        found: list[str] = []
        if mutant.function is not None:
            found = [*self._where(self.calls, name), *self._where(self.on_import, name)]
        if not found:
            for module in (mutant.module, *self.importers.get(mutant.module, [])):
                found += self._where(self.calls, f"{module}:*")
        found = list(dict.fromkeys(found))
        last = [test for test in found if test.startswith(self.last)]
        return [*self._quickest([test for test in found if test not in last], most), *last]

    def _where(self, calls: dict[str, frozenset[str]], pattern: str) -> list[str]:
        """Tests with such a call, the quickest first."""
        found = [test for test, called in calls.items() if fnmatch.filter(called, pattern)]
        return sorted(found, key=lambda test: (self.seconds[test], test))

    def _quickest(self, tests: list[str], most: float) -> Iterator[str]:
        """The first ones that fit into the time, and always the first of all."""
        spent = 0.0
        for place, test in enumerate(tests):
            spent += self.seconds[test]
            if place and spent > most:
                return
            yield test


def recorded_of(
    recorded: dict[str, dict[str, Any]], importers: dict[str, list[str]], last: tuple[str, ...]
) -> Recorded:
    return Recorded(
        {test: told["seconds"] for test, told in recorded.items()},
        {test: frozenset(told["calls"]) for test, told in recorded.items()},
        {test: frozenset(told["on_import"]) for test, told in recorded.items()},
        importers,
        last,
    )


def importers_of(pipeline: Path) -> dict[str, list[str]]:
    """Of every module below pipeline/ those that import from it."""
    found: dict[str, list[str]] = {}
    for path in sorted(pipeline.rglob("*.py")):
        name = path.relative_to(pipeline).as_posix()
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            source = (node.module or "") if isinstance(node, ast.ImportFrom) else ""
            if source.startswith("pipeline") and isinstance(node, ast.ImportFrom):
                inner = source.split(".")[1:]
                for words in (inner, *([*inner, alias.name] for alias in node.names)):
                    found.setdefault("/".join(words) + ".py", []).append(name)
    return {module: sorted(set(names)) for module, names in found.items()}

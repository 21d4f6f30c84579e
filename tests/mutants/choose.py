"""Which tests a mutant is tried by: those that call its function, the quickest first.

Seconds are of the processor, so that a busy machine chooses the same tests as an idle one.
"""

from __future__ import annotations

import ast
from pathlib import Path
from typing import Any, NamedTuple

from tests.mutants.mutate import Mutant

QUICK, SECONDS = 3.0, 8.0  # of tests before the wide ones; of all tests but these


class Recorded(NamedTuple):
    """By test: its own seconds, those of each fixture it shares, its calls and its file's."""

    seconds: dict[str, float]
    shared: dict[str, dict[str, float]]
    calls: dict[str, frozenset[str]]
    on_import: dict[str, frozenset[str]]
    importers: dict[str, list[str]]  # of a module, those that import from it
    wide: tuple[str, ...] = ()  # beginnings of names

    def of(self, mutant: Mutant, most: float = SECONDS) -> list[str]:
        """The tests in the order they are tried in: quick ones, wide ones, and the long ones.

        A fault outside every function is seen by what calls its module, or one that imports it.
        """
        found: list[str] = []
        if mutant.function is not None:
            own = {f"{mutant.module}:{mutant.function}"}
            found = [*self._where(self.calls, own), *self._where(self.on_import, own)]
        if not found:
            for module in (mutant.module, *self.importers.get(mutant.module, [])):
                found += self._where(self.calls, self._functions(module))
        found = list(dict.fromkeys(found))
        wide = [test for test in found if test.startswith(self.wide)]
        others = self._fitting([test for test in found if test not in wide], most)
        quick = self._fitting(others, QUICK)
        return [*quick, *wide, *(test for test in others if test not in quick)]

    def _functions(self, module: str) -> set[str]:
        called = frozenset[str]().union(*self.calls.values())
        return {call for call in called if call.startswith(f"{module}:")}

    def _where(self, calls: dict[str, frozenset[str]], wanted: set[str]) -> list[str]:
        """Tests that call one of these, the quickest first."""
        found = [test for test, called in calls.items() if not called.isdisjoint(wanted)]
        return sorted(found, key=lambda test: (self.alone(test), test))

    def alone(self, test: str) -> float:
        """Seconds of a test by itself."""
        return self.seconds[test] + sum(self.shared[test].values())

    def together(self, tests: list[str]) -> float:
        """Seconds of some tests, each fixture that they share made once."""
        fixtures = {name: took for test in tests for name, took in self.shared[test].items()}
        return sum(self.seconds[test] for test in tests) + sum(fixtures.values())

    def _fitting(self, tests: list[str], most: float) -> list[str]:
        """Those that fit into the time, and always the first."""
        kept: list[str] = []
        there, spent = set[str](), 0.0
        for test in tests:
            new = self.shared[test].keys() - there
            takes = self.seconds[test] + sum(self.shared[test][name] for name in new)
            if not kept or spent + takes <= most:
                kept.append(test)
                there, spent = there | new, spent + takes
        return kept


def recorded_of(
    recorded: dict[str, dict[str, Any]], importers: dict[str, list[str]], wide: tuple[str, ...]
) -> Recorded:
    return Recorded(
        {test: told["seconds"] for test, told in recorded.items()},
        {test: told["shared"] for test, told in recorded.items()},
        {test: frozenset(told["calls"]) for test, told in recorded.items()},
        {test: frozenset(told["on_import"]) for test, told in recorded.items()},
        importers,
        wide,
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

"""A pytest plugin that writes down which functions of the pipeline each test calls.

What a fixture calls counts for every test that asks for it, and what a file calls when it is
imported for all its tests; both happen once, in whichever test comes first. So does what a shared
fixture takes.
"""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

import pytest

Codes = set[CodeType]
Key = tuple[str, str, int]  # a fixture: where it is known, its name, which of its parameters


class Calls:
    """Hooks; `tests` has each test's seconds, its shared fixtures', its calls and its file's."""

    def __init__(self, root: Path, wanted: tuple[str, ...]) -> None:
        self.root, self.wanted = root, wanted
        self.now: Codes = set()
        self.fixtures: dict[Key, Codes] = {}
        self.shared: dict[Key, float] = {}
        self.files: dict[str, Codes] = {}
        self.tests: dict[str, dict[str, Any]] = {}

    def listen(self) -> None:
        threading.setprofile(self._heard)
        sys.setprofile(self._heard)

    def stop(self) -> None:
        sys.setprofile(None)
        threading.setprofile(None)

    def _heard(self, frame: FrameType, event: str, _: Any) -> None:
        if event == "call":
            self.now.add(frame.f_code)

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Slow tests are left out, but for the files that are wanted whole."""
        items[:] = [
            item
            for item in items
            if item.get_closest_marker("slow") is None or item.nodeid.startswith(self.wanted)
        ]

    @pytest.hookimpl(hookwrapper=True)
    def pytest_make_collect_report(self, collector: pytest.Collector) -> Iterator[None]:
        self.now = set()
        yield
        self.files.setdefault(collector.nodeid.split("::")[0], set()).update(self.now)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_fixture_setup(self, fixturedef: Any, request: Any) -> Iterator[None]:
        outside, self.now, begun = self.now, set(), _processor()
        yield
        key = fixturedef.baseid, fixturedef.argname, getattr(request, "param_index", 0)
        self.fixtures.setdefault(key, set()).update(self.now)
        self.now |= outside
        if fixturedef.scope != "function":
            self.shared[key] = _processor() - begun

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        self.now, begun, shared = set(), _processor(), sum(self.shared.values())
        yield
        spent = _processor() - begun - (sum(self.shared.values()) - shared)
        asked = [*self._fixtures_of(item)]
        called = self.now.union(*(self.fixtures[key] for key in asked))
        self.tests[item.nodeid] = {
            "seconds": round(spent, 2),
            "shared": {
                "::".join(map(str, key)): round(self.shared.get(key, 0), 2) for key in asked
            },
            "calls": self._names(called),
            "on_import": self._names(self.files.get(item.nodeid.split("::")[0], set())),
        }

    def _fixtures_of(self, item: Any) -> Iterator[Key]:
        indices = item.callspec.indices if hasattr(item, "callspec") else {}
        for base, name, place in self.fixtures:
            here = item.nodeid.startswith(base) and name in item.fixturenames
            if here and indices.get(name, place) == place:
                yield base, name, place

    def _names(self, codes: Codes) -> list[str]:
        """Functions of the pipeline as module:line of their beginning."""
        base = f"{self.root}/pipeline/"
        return sorted(
            f"{code.co_filename.removeprefix(base)}:{code.co_firstlineno}"
            for code in codes
            if code.co_filename.startswith(base) and code.co_name != "<module>"
        )


def _processor() -> float:
    """Seconds of this process and those it waited for: the same whatever else the machine does."""
    return sum(os.times()[:4])

"""A pytest plugin that writes down which functions of the pipeline each test calls.

What a fixture calls counts for every test that asks for it, and what a file calls when it is
imported for all its tests; both happen once, in whichever test comes first.
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


class Calls:
    """Hooks; `tests` has each test's seconds, what it calls, and what its file calls on import."""

    def __init__(self, root: Path, wanted: tuple[str, ...]) -> None:
        self.root, self.wanted = root, wanted
        self.now: Codes = set()
        self.fixtures: dict[tuple[str, str, int], Codes] = {}
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
        outside, self.now = self.now, set()
        yield
        key = fixturedef.baseid, fixturedef.argname, getattr(request, "param_index", 0)
        self.fixtures.setdefault(key, set()).update(self.now)
        self.now |= outside

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        self.now, begun = set(), _processor()
        yield
        called = self.now.union(*self._of_fixtures(item))
        self.tests[item.nodeid] = {
            "seconds": round(_processor() - begun, 2),
            "calls": self._names(called),
            "on_import": self._names(self.files.get(item.nodeid.split("::")[0], set())),
        }

    def _of_fixtures(self, item: Any) -> Iterator[Codes]:
        indices = item.callspec.indices if hasattr(item, "callspec") else {}
        for (base, name, place), codes in self.fixtures.items():
            here = item.nodeid.startswith(base) and name in item.fixturenames
            if here and indices.get(name, place) == place:
                yield codes

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

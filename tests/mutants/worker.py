"""python -m tests.mutants.worker LIBRARIES: in a copy of the project, tries what it is told.

A line of JSON asks, and one answers. Libraries are imported once; every trial is a fork that
imports the project's own code anew, so that it begins at once and knows nothing of another.
"""

from __future__ import annotations

import gc
import importlib
import json
import os
import resource
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from hypothesis import Phase, settings

from tests.mutants.calls import Calls

ROOT = Path.cwd()
TOLD, KEPT = ROOT / "told.txt", ROOT / "kept.json"
ASLEEP = 10  # times as long by the clock as on the processor: the machine may be busy
MEMORY = 8 << 30  # bytes; a fault may make a loop that never ends
OPTIONS = ("-q", "-x", "-p", "no:cacheprovider", "-p", "no:xdist", f"--basetemp={ROOT / 'tmp'}")


class Quick:
    """Hypothesis draws the same inputs for every mutant, and does not look for the simplest."""

    def pytest_configure(self) -> None:
        once = settings(
            derandomize=True,
            deadline=None,
            database=None,
            phases=(Phase.explicit, Phase.generate),
        )
        settings.register_profile("mutants", once)
        settings.load_profile("mutants")


def record(asked: dict[str, Any]) -> dict[str, Any]:
    """A file of tests, run once: what each of its tests calls."""
    KEPT.unlink(missing_ok=True)

    def run() -> int:
        calls = Calls(ROOT, tuple(asked["wanted"]))
        calls.listen()
        code = int(pytest.main([*OPTIONS, asked["record"]], plugins=[Quick(), calls]))
        calls.stop()
        KEPT.write_text(json.dumps(calls.tests), "utf-8")
        return 0 if code == pytest.ExitCode.NO_TESTS_COLLECTED else code

    done = _apart(run, asked["limit"])
    return {**done, "tests": json.loads(KEPT.read_text("utf-8")) if KEPT.exists() else {}}


def attempt(asked: dict[str, Any]) -> dict[str, Any]:
    """Some tests against a module's other text, which is put back afterwards."""
    path = ROOT / "pipeline" / asked["module"]
    own = path.read_bytes()

    def run() -> int:
        sys.dont_write_bytecode = True
        return int(pytest.main([*OPTIONS, *asked["tests"]], plugins=[Quick()]))

    try:
        path.write_text(asked["text"], "utf-8")
        return _apart(run, asked["limit"])
    finally:
        path.write_bytes(own)


def _apart(run: Callable[[], int], limit: float) -> dict[str, Any]:
    """Exit code (negative: a signal, as when the time is up), seconds of processor, last words."""
    if (child := os.fork()) == 0:
        code = 99
        try:
            os.setsid()
            signal.signal(signal.SIGTERM, signal.SIG_DFL)
            os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
            output = os.open(TOLD, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(output, 1)
            os.dup2(output, 2)
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
            signal.setitimer(signal.ITIMER_PROF, limit)
            signal.setitimer(signal.ITIMER_REAL, ASLEEP * limit)
            code = run()
            sys.stdout.flush()
        finally:
            os._exit(code)
    try:
        _, status, used = os.wait4(child, 0)
    finally:
        with suppress(ProcessLookupError):
            os.killpg(child, signal.SIGKILL)  # also processes that its tests had started
    return {
        "code": os.waitstatus_to_exitcode(status),
        "seconds": used.ru_utime + used.ru_stime,
        "told": TOLD.read_text("utf-8", errors="replace")[-3000:],
    }


def main() -> None:
    signal.signal(signal.SIGTERM, lambda *_: sys.exit())  # so that a trial ends with this
    for name in sys.argv[1:]:
        importlib.import_module(name)
    gc.freeze()  # pytest collects garbage twice a run: not what was there before the fork
    for line in sys.stdin:
        asked = json.loads(line)
        answer = record(asked) if "record" in asked else attempt(asked)
        print(json.dumps(answer), flush=True)


if __name__ == "__main__":
    main()

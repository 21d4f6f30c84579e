"""Copies of the project in a temporary folder, each with a process that tries mutants in it."""

from __future__ import annotations

import compileall
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from py_compile import PycInvalidationMode
from queue import SimpleQueue
from typing import Any

from tests.conftest import ROOT, copy_project, snakemake

NOT_COPIED = (".git", ".venv", "output", ".snakemake", "__pycache__", ".*_cache", ".hypothesis")
LIBRARIES = (  # slow to import
    *("duckdb", "jinja2", "matplotlib.figure", "matplotlib.backends.backend_svg", "msgspec"),
    *("num2words", "numpy", "pandas", "PIL.Image", "pyarrow.parquet", "pydantic", "pypdf"),
    *("ruamel.yaml", "scipy.optimize", "scipy.special", "scipy.stats", "statsmodels.api"),
)
ENVIRONMENT = {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1", "CI": "true"}


def demo(folder: Path) -> Path:
    """The demo, built once from code without a fault; or the folder that BUILT names."""
    if "BUILT" in os.environ:
        return Path(os.environ["BUILT"]).resolve()
    folder.mkdir()
    done = snakemake(copy_project(folder), **ENVIRONMENT)
    if done.returncode:
        sys.exit(f"The demo can't be built, so no mutant is tried:\n{done.stderr[-3000:]}")
    return folder


class Copy:
    """One copy and its process."""

    def __init__(self, folder: Path, built: Path) -> None:
        shutil.copytree(ROOT, folder, ignore=shutil.ignore_patterns(*NOT_COPIED))
        (folder / "output").mkdir()
        # By content, not by time: a mutant is written within a second, often in as many letters.
        compileall.compile_dir(
            folder / "pipeline", quiet=2, invalidation_mode=PycInvalidationMode.CHECKED_HASH
        )
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.mutants.worker", *LIBRARIES],
            cwd=folder,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, **ENVIRONMENT, "BUILT": str(built)},
        )

    def ask(self, request: dict[str, Any]) -> dict[str, Any]:
        assert self.process.stdin and self.process.stdout
        self.process.stdin.write(json.dumps(request) + "\n")
        self.process.stdin.flush()
        if not (answer := self.process.stdout.readline()):
            raise RuntimeError("a process that tries mutants has ended before its time")
        told: dict[str, Any] = json.loads(answer)
        return told

    def close(self) -> None:
        self.process.terminate()
        self.process.wait()


class Copies:
    """Some copies that work side by side; answers come in the order of the requests."""

    def __init__(self, folder: Path, built: Path, count: int) -> None:
        self.all = [Copy(folder / f"copy{number}", built) for number in range(count)]
        self.free: SimpleQueue[Copy] = SimpleQueue()
        for copy in self.all:
            self.free.put(copy)
        self.pool = ThreadPoolExecutor(count)

    def ask(self, requests: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
        return self.pool.map(self._ask, requests)

    def _ask(self, request: dict[str, Any]) -> dict[str, Any]:
        copy = self.free.get()
        try:
            return copy.ask(request)
        finally:
            self.free.put(copy)

    def __enter__(self) -> Copies:
        return self

    def __exit__(self, *_: object) -> None:
        self.pool.shutdown(wait=False, cancel_futures=True)
        for copy in self.all:
            copy.close()

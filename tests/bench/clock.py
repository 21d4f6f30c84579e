"""Whole processes by the wall clock, and the most memory they and their children held."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

from tests.conftest import ROOT

PAGE = os.sysconf("SC_PAGE_SIZE")


def seconds(work: Callable[[], object]) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def median(work: Callable[[], object], before: Callable[[], object], runs: int) -> float:
    """The middle of several runs; what comes before each is not counted."""
    taken = []
    for _ in range(runs):
        before()
        taken.append(seconds(work))
    return statistics.median(taken)


def python(*words: str) -> subprocess.Popen[bytes]:
    """A Python process in the project's folder."""
    return subprocess.Popen([sys.executable, *words], cwd=ROOT, stderr=subprocess.DEVNULL)


def measured(*words: str) -> tuple[float, float]:
    """Seconds and gigabytes at the peak of a Python process and all its children together."""
    peak, over = 0, threading.Event()

    def watch(process: int) -> None:
        nonlocal peak
        while not over.wait(0.02):
            peak = max(peak, sum(resident(each) for each in family(process)))

    started = time.perf_counter()
    with python(*words) as process:
        watcher = threading.Thread(target=watch, args=(process.pid,))
        watcher.start()
        status = process.wait()
        taken = time.perf_counter() - started
        over.set()
        watcher.join()
    if status:
        raise SystemExit(f"{' '.join(words)} ended with {status}")
    return taken, peak / 1e9


def family(process: int) -> list[int]:
    """A process and all below it."""
    try:
        below = Path(f"/proc/{process}/task/{process}/children").read_text().split()
    except OSError:
        return [process]
    return [process, *(each for child in below for each in family(int(child)))]


def resident(process: int) -> int:
    """Bytes of memory held; shared pages count once for each who shares them."""
    try:
        return int(Path(f"/proc/{process}/statm").read_text().split()[1]) * PAGE
    except OSError:
        return 0

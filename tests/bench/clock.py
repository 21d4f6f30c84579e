"""Whole processes, with children: by the clock, by what they worked, and the most memory held."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

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


class Measured(NamedTuple):
    """Of a process and all its children together: gigabytes are those at the peak."""

    seconds: float
    processor_seconds: float
    gigabytes: float


def measured(*words: str) -> Measured:
    """A Python process from its start to its end."""
    peak, over = 0, threading.Event()

    def watch(process: int) -> None:
        nonlocal peak
        while not over.wait(0.02):
            peak = max(peak, sum(resident(each) for each in family(process)))

    started = time.perf_counter()
    with python(*words) as process:
        watcher = threading.Thread(target=watch, args=(process.pid,))
        watcher.start()
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        taken = time.perf_counter() - started
        over.set()
        watcher.join()
    if status:
        raise SystemExit(f"{' '.join(words)} ended with {status}")
    return Measured(taken, used.ru_utime + used.ru_stime, peak / 1e9)


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

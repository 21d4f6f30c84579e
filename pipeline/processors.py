"""How many processors there are to work with, where a call does not say how many to take."""

from __future__ import annotations

import os

GIVEN = "OMP_NUM_THREADS"  # the workflow sets it to the threads of the job


def available() -> int:
    """Those that this process was given, or may use: seldom all that the machine has."""
    given = os.environ.get(GIVEN, "")
    if given.isdecimal() and int(given):
        return int(given)
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1

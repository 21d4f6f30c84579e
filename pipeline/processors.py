"""How many processors there are to work with, where nobody says how many to take."""

from __future__ import annotations

import os


def available() -> int:
    """Processors that this process may use: fewer than the machine's where it is held to some."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1

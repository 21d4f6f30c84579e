"""Python in a process of its own that may hold so many bytes and no more: the kernel sees to it.

What is limited is RLIMIT_DATA: all that a process may write and shares with nobody, its libraries'
own data and the stacks of its threads with it. Files that are mapped to be read are not in it, as
they would be in RLIMIT_AS, which says little of a process whose libraries map gigabytes.
"""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from tests.conftest import ROOT

# One process with one thread, so that the limit of one process is that of all the work; and Arrow's
# allocator takes memory as it needs it, not a gigabyte of address space at once.
ALONE = {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1", "MIMALLOC_ARENA_EAGER_COMMIT": "0"}
LIMIT = "import resource\nresource.setrlimit(resource.RLIMIT_DATA, ({most}, {most}))\n"
FULL = ("MemoryError", "malloc of size", "bad_alloc", "Out of Memory")


def limited(most: int, program: str, *words: str) -> subprocess.CompletedProcess[str]:
    """A Python program from its start to its end, in the project's folder; `most` is in bytes."""
    return subprocess.run(
        [sys.executable, "-c", LIMIT.format(most=most) + program, *words],
        cwd=ROOT,
        capture_output=True,
        text=True,
        env={**os.environ, **ALONE},
        check=False,
    )


def out_of_memory(done: subprocess.CompletedProcess[str]) -> bool:
    """Whether it ended since it was given no more, and for no other reason."""
    last = done.stderr.strip().splitlines()[-1:]
    return done.returncode != 0 and any(word in line for line in last for word in FULL)


def needs_a_limit() -> None:
    """Skip, with the reason, where the system lets a process hold more than it is told."""
    try:
        done = limited(100_000_000, "held = bytearray(200_000_000)")
    except OSError as error:
        pytest.skip(f"no process can be started under a limit: {error}")
    if not out_of_memory(done):
        pytest.skip(f"RLIMIT_DATA is not kept on {sys.platform}: {done.stderr[-200:]!r}")

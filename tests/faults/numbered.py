"""One input of an area by its number: made from the seed, tried, and what came of it."""

from __future__ import annotations

import signal
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from typing import NamedTuple

from tests.faults.areas import AREAS, Area
from tests.faults.tried import Tried


class Work(NamedTuple):
    """A process's part of an area's numbers; `tried` where outcomes are kept as they come."""

    at: int
    seed: int
    part: int
    count: int
    parts: int
    folder: Path
    tried: Tried | None = None


def share(work: Work) -> list[tuple[int, str]]:
    """The outcome of each number, those among them that were tried before."""
    area = AREAS[work.at]
    done = work.tried.of(area.name, work.seed) if work.tried else {}
    found = []
    for number in range(work.part, work.count, work.parts):
        if number not in done:
            done[number] = try_number(area, work.seed, number, work.folder)
            if work.tried:
                work.tried.add(area.name, work.seed, number, done[number])
        found.append((number, done[number]))
    return found


def try_number(area: Area, seed: int, number: int, folder: Path) -> str:
    """The outcome of one input; whatever is raised, warned or takes too long is one too."""
    folder.mkdir(parents=True, exist_ok=True)
    rng = Random(f"{seed} {area.name} {number}")
    try:
        with _no_longer_than(area.longest), warnings.catch_warnings():
            warnings.simplefilter("error")
            return area.trial(rng, folder)
    except Exception as error:
        return f"other: {type(error).__name__} out of the trial: {str(error)[:200]}"


@contextmanager
def _no_longer_than(seconds: int) -> Iterator[None]:
    def late(*_: object) -> None:
        raise TimeoutError(f"not done in {seconds} s")

    before = signal.signal(signal.SIGALRM, late)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)

"""One input of an area by its number: made from the seed, tried, and what came of it."""

from __future__ import annotations

import signal
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

from tests.faults.areas import AREAS, Area


def share(work: tuple[int, int, int, int, int, Path]) -> list[tuple[int, str]]:
    at, seed, part, count, parts, folder = work
    return [
        (number, try_number(AREAS[at], seed, number, folder))
        for number in range(part, count, parts)
    ]


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

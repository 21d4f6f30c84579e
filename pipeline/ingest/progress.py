"""How far a stage is that takes long: a bar on a terminal, elsewhere a line at each quarter."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterable, Iterator
from typing import Any, TypeVar

from pipeline.terminal import shown

Item = TypeVar("Item")


class Progress:
    """Told how much is done of a total; says so, with the time that the rest will take."""

    def __init__(self, what: str, total: int, unit: str, fewest: int = 4):
        self._fewest = fewest  # of less than this nothing is told
        self._what, self._total, self._unit = what, total, unit
        self._done = self._said = 0
        self._begun = time.monotonic()
        self._bar: Any = None
        if sys.stderr.isatty() and total >= fewest:
            from tqdm import tqdm

            self._bar = tqdm(total=total, desc=what, unit=unit, leave=False)

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, *error: object) -> None:
        if self._bar is not None:
            self._bar.close()

    def more(self, count: int = 1) -> None:
        """So much more is done."""
        self._done += count
        if self._bar is not None:
            self._bar.update(count)
        elif self._total >= self._fewest and self._done * 4 // self._total > self._said:
            self._said = self._done * 4 // self._total
            print(shown(self._line()), file=sys.stderr)

    def _line(self) -> str:
        done, total = min(self._done, self._total), self._total
        left = (time.monotonic() - self._begun) * (total - done) / done
        more = f", about {left:.0f} s more" if left >= 1 else ""
        return f"{self._what}: {100 * done // total} % of {total:,} {self._unit}{more}"


def progress(items: Iterable[Item], total: int, what: str, unit: str = "chunks") -> Iterator[Item]:
    """The items, told of as they are done with."""
    with Progress(what, total, unit) as told:
        for item in items:
            yield item
            told.more()

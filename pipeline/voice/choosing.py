"""Which form of a sentence stands where: none twice on a page, none twice running.

A form hangs on what is told and of what, so that another finding's change leaves it as it was;
only where it stood on the page already, or just before, does the next one take its place.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from zlib import crc32

from pipeline.voice.sentence import Told

MOST = 2  # times that a form stands in a brief, while there is another


class Voice:
    """The forms that were chosen so far, in the order in which they are read."""

    def __init__(self) -> None:
        self._on_page: defaultdict[str, set[int]] = defaultdict(set)
        self._last: dict[str, int] = {}
        self._times: Counter[tuple[str, int]] = Counter()

    def turn_page(self) -> None:
        """What stands on the next page may stand on this one, too."""
        self._on_page.clear()

    def put(self, sentence: str, of: str) -> str:
        """The sentence in a form of its own; `of` is what it is about, such as a finding's id."""
        if not isinstance(sentence, Told):
            return sentence
        forms = sentence.forms()
        at = self._chosen(sentence.outcome, len(forms), of)
        self._on_page[sentence.outcome].add(at)
        self._last[sentence.outcome] = at
        self._times[sentence.outcome, at] += 1
        return forms[at]

    def _chosen(self, outcome: str, count: int, of: str) -> int:
        """The first that is free, from where its own id points; where none is, the least used."""
        start = crc32(f"{outcome} {of}".encode()) % count
        order = [(start + step) % count for step in range(count)]

        def worn(at: int) -> tuple[bool, bool, int]:
            times = self._times[outcome, at]
            last = self._last.get(outcome) == at
            return (at in self._on_page[outcome], last, times if times >= MOST else 0)

        return min(order, key=worn)

"""A sentence of a script or of captions, with where it stands."""

from __future__ import annotations

from typing import NamedTuple


class Place(NamedTuple):
    """A number out of a slot: its first character, the one after its last, the fact it is of."""

    begins: int
    ends: int
    fact: str


class Passage(NamedTuple):
    """A sentence: its line, or its time in milliseconds, and the heading that it stands under.

    `turns` are (character, time) wherever the words of another caption begin; `slots` the numbers
    that were filled in; `begins` says that it comes first after a blank line. `breaks` are of
    captions without signs: the characters where another sentence may begin, the likeliest first.
    """

    text: str
    line: int | None = None
    start: int | None = None
    heading: str = ""
    turns: tuple[tuple[int, int], ...] = ()
    slots: tuple[Place, ...] = ()
    begins: bool = False
    breaks: tuple[int, ...] | None = None

    def at(self, character: int) -> int | None:
        """When the words there are said, as far as captions know; of a script none."""
        times = [time for begins, time in self.turns if begins <= character]
        return times[-1] if times else self.start

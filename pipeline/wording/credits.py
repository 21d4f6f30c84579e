"""Whose data a brief is made of: only those whose balls are in it are credited."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.selection import Holdings

if TYPE_CHECKING:
    from pipeline.config.project import Source


def credited(sources: Sequence[Source], data: Holdings) -> list[Source]:
    """The topic's sources whose balls its beats and their controls stand on.

    All of them where that was not kept, as in editions of 0.9 and before.
    """
    kept = data.sources
    return [source for source in sources if kept is None or source.id in kept]

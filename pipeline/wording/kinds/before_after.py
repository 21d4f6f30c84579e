"""before_after: the change of every cell across the event, in words."""

from __future__ import annotations

from pipeline.wording.kinds.base import KindWords

WORDS = KindWords()

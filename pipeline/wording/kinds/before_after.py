"""before_after: the change of every cell across the event, in words."""

from __future__ import annotations

from pipeline.wording.kind_words import KindWords

WORDS = KindWords()

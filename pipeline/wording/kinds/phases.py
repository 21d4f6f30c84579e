"""phases: the change of every band of overs, in words."""

from __future__ import annotations

from pipeline.wording.kind_words import KindWords

WORDS = KindWords()

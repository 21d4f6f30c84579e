"""phases: the change of every band of overs, in words."""

from __future__ import annotations

from pipeline.wording.kinds.base import KindWords

WORDS = KindWords()

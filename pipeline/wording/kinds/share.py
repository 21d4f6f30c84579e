"""share: the change of how much of it they bowl or face, in words."""

from __future__ import annotations

from pipeline.wording.kinds.base import KindWords

WORDS = KindWords()

"""How long a frame should stay on screen, from the words on it."""

from __future__ import annotations

from pipeline.wording.script import words

A_WORD, SHORT, LONG, FEW, WEIGHTY = 0.2, 2.0, 3.0, 10, 2.0


def hold_seconds(*texts: str) -> float:
    """0.2 s a word and 2 s (under ten words) or 3 s, and 2 s for what matters.

    A broadcaster's rule for captions (from a secondary source): 16 weighty words 8.2 s.
    """
    count = sum(words(text) for text in texts)
    return round(A_WORD * count + (SHORT if count < FEW else LONG) + WEIGHTY, 1)

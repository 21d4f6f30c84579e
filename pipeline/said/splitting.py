"""Text as its sentences: a full stop inside a number ends none."""

from __future__ import annotations

import re

_END = re.compile(r"(?<=[.!?])[”\"’')]*(?<!”\?) +(?=[^a-z])|\n{2,}")


def sentences_in(text: str) -> list[str]:
    """What people say, asked, is one with what is said to it: '“It rose”? The data agree.'"""
    return [part.strip() for part in _END.split(text) if part.strip()]

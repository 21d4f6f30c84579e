"""Lines for a terminal: headings in a column, their words wrapped beside them."""

from __future__ import annotations

import textwrap

WIDTH, INDENT = 100, 14


def headed(name: str, words: str, indent: int = INDENT) -> list[str]:
    """The words in lines, the heading before the first; `indent` is the column of the words."""
    wrapped = textwrap.wrap(words, WIDTH - indent)
    return [f"  {name if at == 0 else '':{indent - 2}}{part}" for at, part in enumerate(wrapped)]

"""Lines for a terminal: headings in a column, their words wrapped beside them."""

from __future__ import annotations

import textwrap

WIDTH, INDENT = 100, 14


def headed(name: str, words: str, indent: int = INDENT) -> list[str]:
    """The words in lines, the heading before the first; `indent` is the column of the words."""
    wrapped = wrap(words, WIDTH - indent)
    return [f"  {name if at == 0 else '':{indent - 2}}{part}" for at, part in enumerate(wrapped)]


def wrap(words: str, width: int = WIDTH, first: str = "", rest: str = "") -> list[str]:
    """Lines of a width, each with what is put before it; ids and paths stay whole."""
    return textwrap.wrap(
        words,
        width,
        initial_indent=first,
        subsequent_indent=rest,
        break_on_hyphens=False,
        break_long_words=False,
    )

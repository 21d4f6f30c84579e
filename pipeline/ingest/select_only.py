"""Is a query one SELECT, with the order of its rows: asked of its text, before anything is run.

The databases are opened for reading only, too; this says it in the user's words, and earlier. It is
the order of rows that says which ball came first, and without ORDER BY there is none.
"""

from __future__ import annotations

import re

# Comments, texts, names in quotes: nothing in them is a word of the statement.
_PASSED = re.compile(
    r"--[^\n]*|/\*.*?\*/|'(?:[^']|'')*'|\"(?:[^\"]|\"\")*\"|`[^`]*`|\[[^\]]*\]"
    r"|\$(\w*)\$.*?\$\1\$",
    re.DOTALL,
)
_WORD = re.compile(r"[A-Za-z_]\w*|[();]")
WRITING = frozenset(
    (
        *("insert", "update", "delete", "merge", "truncate", "replace", "into", "copy", "lock"),
        *("create", "drop", "alter", "grant", "revoke", "set", "call", "do", "attach", "detach"),
        *("pragma", "vacuum", "reindex", "export", "import", "install", "load", "checkpoint"),
    )
)
READS = ("select", "with")


def why_not(query: str) -> str | None:
    """What keeps a query from being run, and what to do; None for one that may be."""
    words = [found.lower() for found in _WORD.findall(_PASSED.sub(" '' ", query))]
    if ";" in words[:-1]:
        return "more than one statement; write one SELECT"
    if not words or words[0] not in READS:
        return "no SELECT; only reading is done here"
    if writes := [word for word in _bare(words) if word in WRITING]:
        told = f"'{writes[0].upper()}' in it; only reading is done here"
        return f"{told} (a column of that name stands in quotation marks)"
    if not _ordered(words):
        return (
            "no ORDER BY at its end: the order of its rows is the order of the balls; end it with "
            "ORDER BY match, innings, over, ball"
        )
    return None


def _bare(words: list[str]) -> list[str]:
    """Words that are no function's name."""
    follows = [*words[1:], ""]
    return [word for word, after in zip(words, follows, strict=True) if after != "("]


def _ordered(words: list[str]) -> bool:
    """Whether ORDER BY stands outside all brackets."""
    depth = 0
    for word, after in zip(words, [*words[1:], ""], strict=True):
        depth += {"(": 1, ")": -1}.get(word, 0)
        if depth == 0 and (word, after) == ("order", "by"):
            return True
    return False

"""Lines of a topic's "don't say" that are told in other words than their own: 'only spin moved'."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from pipeline.said.cautious import is_doubted, is_held_back, is_question, plain
from pipeline.said.masked_names import masked
from pipeline.said.sounded import Sounded
from pipeline.said.word_lists import filled, words

_MARK = "\N{START OF TEXT}"  # of a letter of a group's name
# By how a line begins the list of only.toml that tells it.
_TOLD_BY = {"only": "only", "the biggest": "loser", "they did it": "better"}


class Forbidden(NamedTuple):
    """`line` is what the topic says of it."""

    begins: int
    ends: int
    line: str


def told_otherwise(text: str, heard: Sounded, lines: Iterable[str]) -> Forbidden | None:
    """The first of the lines that a sentence says, in words that stand in only.toml."""
    told = masked(plain(text), heard, _MARK)
    for line in lines:
        quote = plain(line).lstrip("“")
        for begins, name in _TOLD_BY.items():
            if not quote.startswith(begins):
                continue
            if match := _said(name, text, told):
                return Forbidden(match.start(), match.end(), line)
    return None


def only_one(text: str, heard: Sounded) -> re.Match[str] | None:
    """Where it is said that only one of several groups moved."""
    return None if is_question(text) else _said("only", text, masked(plain(text), heard, _MARK))


def _said(name: str, text: str, told: str) -> re.Match[str] | None:
    """Where a sentence says what a list of only.toml does, unless it is denied or doubted."""
    match = _phrases(name).search(told)
    if match is None or is_doubted(text, match.start()):
        return None
    denies = match[0].startswith(("no", "outside"))
    return None if is_held_back(text, match.start(), denies) else match


@cache
def _phrases(name: str) -> re.Pattern[str]:
    own = {"group": f"{_MARK}[{_MARK} ]*", "changed": "|".join(words("only.only.changed"))}
    own["changed"] = f"(?:{own['changed']})"
    phrases = filled(f"<only.{name}.phrases>", "only", own)
    return re.compile(rf"(?<!\w)(?:{phrases})")

"""How far a column's name says that it is one of ours: folded, in the trade's words."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

from pipeline.look.trade_words import NAMES, OTHERWISE, PAIRS, WORDS

EXACT, NEAR, PART = 1.0, 0.9, 0.35
KNOWN = sorted((word for word in WORDS if len(word) > 1), key=len, reverse=True)
# What a name may have before ours that says nothing more ('match date', 'match venue').
AROUND = frozenset({"match", "innings", "team", "first"})


@cache
def folded(name: str) -> frozenset[str]:
    """The words of a name: case, joints, plurals and synonyms make no odds."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    apart = re.sub(r"(?<=[a-z0-9])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])", " ", plain).lower()
    parts = [part for found in re.findall(r"[a-z]+|\d+", apart) for part in _split(found)]
    return frozenset(_paired(_no_balls(parts)))


def _split(word: str) -> list[str]:
    """A word that is several run together: 'runsoffbat'; itself where it is not."""
    if word in WORDS or len(word) < 5:
        return [word]
    found = _cut(word)
    return found if found else [word]


def _cut(word: str) -> list[str] | None:
    if not word:
        return []
    for known in KNOWN:
        if word.startswith(known):
            rest = _cut(word[len(known) :])
            if rest is not None:
                return [known, *rest]
    return None


def _no_balls(parts: list[str]) -> list[str]:
    """'no ball' is an extra, 'ball no' a number."""
    found: list[str] = []
    for part in parts:
        if part in ("ball", "balls") and found[-1:] == ["no"]:
            found[-1] = "noballs"
        else:
            found.append(part)
    return found


def _paired(parts: list[str]) -> list[str]:
    """Each word as the one that stands for it; two that are one word together."""
    found: list[str] = []
    for word in (WORDS.get(part, part) for part in parts):
        pair = PAIRS.get((found[-1], word)) if found else None
        if pair:
            found[-1] = pair
        elif word:
            found.append(word)
    return found


@cache
def ways(ours: str) -> tuple[frozenset[str], ...]:
    """What a column of ours may be called, as sets of words."""
    return tuple(frozenset(way.split()) for way in NAMES[ours].split("|"))


def said_by_name(ours: str, name: str) -> float:
    """0 to 1: how far the name says that the column is ours."""
    words = folded(name)
    if not words or words & OTHERWISE:
        return 0.0
    best = 0.0
    for rank, way in enumerate(ways(ours)):
        later = 0.01 * rank  # the usual name comes first
        if words == way:
            best = max(best, EXACT - later)
        elif way < words and words - way <= AROUND:
            best = max(best, NEAR - later)
        elif way < words and len(words - way) == 1 and "id" not in words - way:
            best = max(best, PART - later)
    return best

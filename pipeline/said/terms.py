"""The words by which a sentence names what it is about, and where it does so."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence, Set
from typing import NamedTuple

from pipeline.said.tokens import Token

Name = tuple[str, str]  # a cut with one of its values: ('bowler_kind', 'spin')


class Mention(NamedTuple):
    """`begins` to `ends` are positions of tokens; several `values` where a word may be either."""

    begins: int
    ends: int
    cut: str
    values: frozenset[str]


class Terms:
    """Names by their words, longest first; words are in lower case, what hyphens join apart."""

    def __init__(self, named: Iterable[tuple[str, Name]]) -> None:
        found: defaultdict[tuple[str, ...], set[Name]] = defaultdict(set)
        for words, name in named:
            for each in words.split("|"):
                if key := key_of(each):
                    found[key].add(name)
        self._values: defaultdict[str, set[str]] = defaultdict(set)
        for names in found.values():
            for cut, value in names:
                self._values[cut].add(value)
        self._by_first: dict[str, list[tuple[tuple[str, ...], Mapping[str, frozenset[str]]]]] = {}
        for key, names in found.items():
            cuts: defaultdict[str, set[str]] = defaultdict(set)
            for cut, value in names:
                cuts[cut].add(value)
            kept = {cut: frozenset(values) for cut, values in cuts.items()}
            self._by_first.setdefault(key[0], []).append((key, kept))
        for each_first in self._by_first.values():
            each_first.sort(key=lambda item: -len(item[0]))

    def values(self, cut: str) -> Set[str]:
        """Those of a cut that have a name."""
        return self._values.get(cut, set())

    def mentions(self, tokens: Sequence[Token]) -> list[Mention]:
        """What a sentence names, no name within a longer one of the same cut."""
        words = [(at, token.text) for at, token in enumerate(tokens) if token.text not in "-"]
        texts = [text for _, text in words]
        found: list[Mention] = []
        taken: defaultdict[str, int] = defaultdict(int)
        for place, (at, word) in enumerate(words):
            for key, cuts in self._by_first.get(word, ()):
                if tuple(texts[place : place + len(key)]) != key:
                    continue
                ends = words[place + len(key) - 1][0] + 1
                for cut, values in cuts.items():
                    if at >= taken[cut]:
                        found.append(Mention(at, ends, cut, values))
                        taken[cut] = ends
        return found


def key_of(words: str) -> tuple[str, ...]:
    plain = words.lower().replace("’", "'")
    plain = re.sub(r"'s?\b", "", plain) if not plain.startswith("'") else plain
    return tuple(re.findall(r"[^\W_]+", plain))

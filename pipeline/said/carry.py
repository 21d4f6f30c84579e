"""What the sentences before have named: 'it' is of that, until another name stands in its place."""

from __future__ import annotations

from collections.abc import Mapping, Set

from pipeline.said.sounded import Sounded
from pipeline.said.tokens import tokens_of
from pipeline.said.topic_known import Known

KEPT = 2  # sentences of something else, for which a name stays in mind
_OF_BEFORE = {"its", "their", "his", "her", "too", "also", "same", "there", "it", "they", "it's"}
_OF_IT = {"it", "its", "it's", "that", "that's", "they", "their", "them", "this", "same"}
HALF = 0.5  # as far away as another sentence puts a name, one puts it that is of it
_WHOSE = {"its", "their", "his", "her", "too", "also"}
FEW = 4  # words in which a sentence says that it goes on
_ITS_OWN = {"could", "share", "gap", "beside", "listed"}
_NEVER = {"window", "season", "~event", "~control"}


def goes_on(heard: Sounded) -> bool:
    """Whether a sentence says itself that it is of what was named before: 'it fell', 'its'."""
    pronoun = any(token.text in _OF_BEFORE for token in heard.tokens[:FEW])
    return pronoun or any(token.text in _WHOSE for token in heard.tokens)


def _ages(heard: Sounded, told: bool) -> float:
    """How much further away a name is after a sentence: less, where that is of it too."""
    of_it = heard.parts or any(token.text in _OF_IT for token in heard.tokens)
    return 0.0 if told else HALF if of_it else 1.0


class Carried:
    """The names of each cut, with how long ago they were said."""

    def __init__(self, known: Known) -> None:
        self._known = known
        self._heading: str | None = None
        self._said: dict[str, tuple[frozenset[str], float]] = {}
        self._parts: frozenset[str] = frozenset()
        self._of_heading: dict[str, frozenset[str]] = {}

    def begin(self, heading: str, paragraph: bool = False) -> None:
        """A sentence under this heading is next; a new one clears what was said before.

        So does a `paragraph` that begins with it; what the heading names is kept.
        """
        if paragraph:
            self._said, self._parts = {}, frozenset()
        if heading == self._heading:
            return
        self._heading, self._said, self._of_heading = heading, {}, {}
        for mention in self._known.terms.mentions(tokens_of(heading)):
            if mention.cut not in _NEVER:
                old = self._of_heading.get(mention.cut, frozenset())
                self._of_heading[mention.cut] = old | mention.values

    def names(self) -> Mapping[str, Set[str]]:
        """Those that are still in mind; of the heading where no sentence named any."""
        kept = {cut: values for cut, (values, ago) in self._said.items() if ago < KEPT}
        return {**self._of_heading, **kept}

    def parts(self) -> frozenset[str]:
        """What part of a finding the sentence before was of: 'nearly nine' after a drift."""
        return self._parts

    def take(self, heard: Sounded, told: bool = False) -> None:
        """A sentence is done; `told` where a number of it is right of what was named before."""
        self._parts = frozenset(value for each in heard.parts for value in each.values) - _ITS_OWN
        now: dict[str, frozenset[str]] = {}
        for mention in heard.mentions:
            if mention.cut not in _NEVER:
                now[mention.cut] = now.get(mention.cut, frozenset()) | mention.values
        if self._is_new(heard):
            self._said = {}  # a number that is named anew is of what is named with it
        kept = {
            cut: (values, ago + _ages(heard, told)) for cut, (values, ago) in self._said.items()
        }
        self._said = {**kept, **{cut: (values, 0) for cut, values in now.items()}}

    def _is_new(self, heard: Sounded) -> bool:
        """Whether it names a measure, and not in a number's own unit, as of nothing before."""
        inside = [(each.said.first, each.ends) for each in heard.numbers]
        named = any(
            each.cut == "measure" and not any(b <= each.begins < e for b, e in inside)
            for each in heard.mentions
        )
        return named and not goes_on(heard)

"""A sentence in its first form, which knows what it tells: another form of it may be chosen."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Self

from pipeline.voice.forms import voice


class Told(str):
    """What is told, as its outcome and what fills its slots; as text it is the first form.

    So a sentence can be read, joined and tested wherever one is; whoever sets it on a page may
    choose another of its forms.
    """

    outcome: str
    slots: Mapping[str, str]

    def __new__(cls, outcome: str, **slots: str) -> Self:
        """KeyError of an outcome or a slot that the voice does not have: the code's own mistake."""
        made = super().__new__(cls, voice().put(outcome, 0, slots))
        made.outcome, made.slots = outcome, slots
        return made

    def naming(self, **slots: str) -> Self:
        """The same with other words in these slots, as far as it has them."""
        own = {name: words for name, words in slots.items() if name in self.slots}
        return type(self)(self.outcome, **{**self.slots, **own}) if own else self

    def forms(self) -> list[str]:
        """The sentence in each of its forms, in the file's order."""
        each = range(voice().count(self.outcome))
        return [voice().put(self.outcome, at, self.slots) for at in each]

"""config/glossary.yaml: words of the trade in a viewer's language."""

from __future__ import annotations

from collections import Counter
from typing import Annotated

from pydantic import Field, StringConstraints, model_validator

from pipeline.config.fields import Strict

ONE_LINE = 90  # letters: what stands in a line of the box
Word = Annotated[str, StringConstraints(min_length=2, max_length=30, pattern=r"^[^\n]*\w[^\n]*$")]
Meaning = Annotated[
    str, StringConstraints(min_length=3, max_length=ONE_LINE, pattern=r"^[^\n]*[^\n.]$")
]


class Term(Strict):
    """A word or phrase, and what it means."""

    term: Word = Field(description="as a brief says it")
    also: list[Word] = Field([], description="other words for the same; a plural s goes unsaid")
    means: Meaning = Field(description="in one line and a viewer's words, without a full stop")


class Glossary(Strict):
    """config/glossary.yaml."""

    terms: list[Term] = Field(description="in the order in which they are printed")

    @model_validator(mode="after")
    def _each_once(self) -> Glossary:
        words = [word for term in self.terms for word in (term.term, *term.also)]
        count = Counter(word.casefold() for word in words)
        again = [word for word, times in count.items() if times > 1]
        if again:
            raise ValueError(f"'{again[0]}' stands twice, as a term or under 'also'; keep one")
        return self

"""A line to say: its sentences, and the findings that it is of."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from pipeline.text import capitalised
from pipeline.voice.choosing import Voice
from pipeline.voice.sentence import Told


@dataclass(frozen=True)
class Line:
    """Sentences that are said together; `about` are the ids of the findings they are of.

    A sentence may still be in its first form; `voiced` puts each in the form that it is said in.
    """

    sentences: tuple[str, ...]
    about: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        return " ".join(map(capitalised, self.sentences))

    def voiced(self, voice: Voice) -> Line:
        of = " ".join(self.about)
        return replace(self, sentences=tuple(voice.put(each, of) for each in self.sentences))

    def in_any_form(self) -> re.Pattern[str]:
        """The end of a text that is this line, with each sentence in any of its forms."""
        each = (one.forms() if isinstance(one, Told) else [one] for one in self.sentences)
        said = (f"(?:{'|'.join(map(re.escape, forms))})" for forms in each)
        return re.compile(f"{' '.join(said)}$", re.IGNORECASE)

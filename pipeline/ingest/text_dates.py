"""Days as a source writes them; all that are none are one mistake, with the likely form."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np

from pipeline.date_forms import ISO, LIKELY, day_of
from pipeline.errors import Problem
from pipeline.ingest.mistakes import Mistakes, short
from pipeline.ingest.text_blocks import Block

FIRST = {"DD": "day first", "MM": "month first", "YY": "year first"}


@dataclass
class Days:
    """Reads a source's dates, and gathers those that are none."""

    name: str = "date"
    form: str = ISO
    _wrong: Mistakes = field(default_factory=Mistakes)
    _forms: tuple[str, ...] = (ISO, *LIKELY)
    _in_order: bool = True  # all can be read as year, month and day, if not with two digits each
    _right: int = 0  # rows

    @property
    def matches(self) -> set[str]:
        """Those with a date that is none."""
        return self._wrong.matches

    def read(self, block: Block) -> np.ndarray:
        """Days (datetime64[D]) of the column; NaT where it has none."""
        column = block.columns[self.name]
        made = [day_of(text, self.form) for text in column.values]
        found: np.ndarray = np.array(made, "datetime64[D]")[column.codes]
        blank = column.having(lambda text: not text.strip())
        wrong = np.isnat(found) & ~blank
        self._right += int((~np.isnat(found)).sum())
        if wrong.any():
            told = {column.values[code] for code in np.unique(column.codes[wrong])}
            self._forms = tuple(form for form in self._forms if _all_of(told, form))
            self._in_order &= _all_of(map(_two_digits, told), ISO)
            self._wrong.add(block, wrong, f"'{{{self.name}}}' is no date; expected {self.form}")
        return found

    def problems(self) -> list[Problem]:
        """One for all of them, at the first, with the form that they seem to have."""
        found = list(self._wrong.found.items())
        if not found:
            return []
        rows = sum(alike.count for _, alike in found)
        (first,) = Mistakes(found=dict(found[:1])).problems()
        file, alike = found[0][0][0], found[0][1]
        more = f"; {rows - 1:,} more row{'s' if rows > 2 else ''} like it" if rows > 1 else ""
        files = len(found) - 1
        other = f", also in {files:,} other file{'s' if files > 1 else ''}" if files else ""
        told = f"{short(alike.told)}{more}{other}; {self._likely()}"
        return [Problem(file.label, told, first.line, 1)]

    def _likely(self) -> str:
        """What to write in sources.yaml, or on a few rows where all others are as they should."""
        if self._right > 10 * sum(alike.count for alike in self._wrong.found.values()):
            return f"{self._right:,} other rows have such a one; write these so too"
        if ISO in self._forms:
            return f"they are {ISO}: leave date_format out for this source in sources.yaml"
        if self._in_order:
            return f"write the month and the day with two digits, as {ISO} has them"
        if not self._forms:
            return "they are not all of one form that is known; mend them, or say date_format"
        firsts = [FIRST[form[:2]] for form in self._forms if form[:2] in FIRST]
        settings = " or ".join(f"date_format: {form}" for form in self._forms)
        asked = f"{' or '.join(dict.fromkeys(firsts))}? " if firsts else ""
        return f"{asked}write {settings} for this source in sources.yaml"


def _two_digits(text: str) -> str:
    """A day with a nought before what has one digit."""
    return re.sub(r"-(?=[0-9](-|$))", "-0", text)


def _all_of(texts: Iterable[str], form: str) -> bool:
    return all(day_of(text, form) for text in texts)

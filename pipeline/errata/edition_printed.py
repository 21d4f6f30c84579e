"""What `correction --edition` prints: each number that moved since, its uses, drafts, captions."""

from __future__ import annotations

from collections.abc import Iterator

from pipeline.contracts.errata import EditionErrata, EditionUse, Errata
from pipeline.errata.captions_printed import captions_printed
from pipeline.errata.draft import day
from pipeline.errata.printed import facts_printed, wrapped
from pipeline.wording import numbers

ASK = "Where each stands: python -m pipeline correction ID; --json has all of it."


def edition_printed(found: EditionErrata) -> list[str]:
    """Lines to print."""
    head = f"{found.topic}: edition {found.edition} of {day(found.date)}"
    if not found.moved:
        return [head, *wrapped("nothing to correct: the brief says what it said")]
    count = numbers.counted(sum(len(each.facts) for each in found.moved), "number")
    of = numbers.counted(len(found.moved), "question")
    lines = [head, *wrapped(f"{count} of {of} moved or turned since. {ASK}")]
    for each in found.moved:
        lines += ["", each.asked, *_short(each)]
    for said in found.captions:
        lines += captions_printed(said)
    return lines


def _short(found: Errata) -> Iterator[str]:
    yield from facts_printed(found)
    for use in found.editions:
        yield from wrapped(_used(use))
    for text in found.drafts:
        yield from wrapped(text)


def _used(use: EditionUse) -> str:
    """'Used in 3 lines to say, 2 charts; cited by 1 other.'"""
    lines = sum(sentence.own for sentence in use.sentences)
    parts = [numbers.counted(lines, "line") + " to say", numbers.counted(len(use.charts), "chart")]
    cited = f"; cited {numbers.counted(len(use.cited), 'time')}" if use.cited else ""
    return f"Used in {' and '.join(parts)}{cited}."

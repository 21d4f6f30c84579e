"""No two beats begin with the same sentence: a later one says which beat it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pipeline.brief.beats import BeatPage
from pipeline.brief.runsheet import opening


def openings_apart(pages: Sequence[BeatPage]) -> list[BeatPage]:
    """The pages in their order, each with an opening of its own."""
    told: set[str] = set()
    apart = []
    for page in pages:
        if page.said:
            first = next(each for each in _may_be(page) if _begins(page, each) not in told)
            told.add(_begins(page, first))
            page = page if first == page.said[0] else _begun(page, first)
        apart.append(page)
    return apart


def _begins(page: BeatPage, first: str) -> str:
    """All of its opening; of a page without one the first sentence of its first line."""
    return first if page.opening else opening([first])


def _may_be(page: BeatPage) -> Iterator[str]:
    """What it begins with, or the same as of this page."""
    first = page.said[0]
    yield first
    yield f"On “{page.title}”: {first}"
    yield f"On “{page.title}”, beat {page.position}: {first}"


def _begun(page: BeatPage, first: str) -> BeatPage:
    """The page with what is said first put so."""
    if page.opening:
        return replace(page, opening=replace(page.opening, sentences=(first,)))
    at = next(at for at, part in enumerate(page.parts) if part.told)
    parts = list(page.parts)
    line, *rest = parts[at].told
    parts[at] = replace(parts[at], told=[replace(line, sentences=(first,)), *rest])
    return replace(page, parts=parts)

"""No two beats without an opening begin alike: a later one says whose its line is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pipeline.brief.beats import BeatPage
from pipeline.brief.runsheet import opening
from pipeline.episode.lines_of import AS_IN


def openings_apart(pages: Sequence[BeatPage]) -> list[BeatPage]:
    """The pages in their order, each with an opening of its own."""
    told: dict[str, str] = {}  # the heading of the page that has the opening
    apart = []
    for page in pages:
        first = next((line for part in page.parts for line in part.told), None)
        if first is not None and page.opening is None:
            line = next(
                each for each in _may_be(first.text, page, told) if opening([each]) not in told
            )
            told[opening([line])] = page.title
            page = _begun(page, line)
        apart.append(page)
    return apart


def _may_be(line: str, page: BeatPage, told: dict[str, str]) -> Iterator[str]:
    """The line, the same as of the page that has its opening, or as of this page."""
    yield line
    if not line.startswith(AS_IN):
        yield f"{AS_IN}{told[opening([line])]}”: {line}"
    yield f"On “{page.title}”: {line}"
    yield f"On “{page.title}”, beat {page.position}: {line}"


def _begun(page: BeatPage, line: str) -> BeatPage:
    """The page with its first line put so."""
    at = next(at for at, part in enumerate(page.parts) if part.told)
    parts = list(page.parts)
    first, *rest = parts[at].told
    parts[at] = replace(parts[at], told=[replace(first, sentences=(line,)), *rest])
    return replace(page, parts=parts)

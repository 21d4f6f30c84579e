"""An edition of a built brief, sealed."""

from __future__ import annotations

from pipeline.archive.bag import seal
from pipeline.archive.contents import Asked, fill
from pipeline.archive.current import check
from pipeline.archive.edition import content_of, edition_of
from pipeline.contracts.editions import Edition
from pipeline.editions.store import editions, locked, read_edition, staging, take


def archived(asked: Asked) -> str:
    """Seal the next edition, unless the newest says the same; the line to print.

    Raises UserError when the topic is not built, or its outputs are older than what made them.
    """
    check(asked)
    content = content_of(asked)
    folder = asked.archive / asked.topic
    with locked(folder):
        there = editions(folder)
        newest = read_edition(folder / str(there[-1])) if there else None
        if newest and newest.content == content:
            return f"{asked.topic}: nothing has changed since {_named(newest)}"
        number = there[-1] + 1 if there else 1
        edition = edition_of(asked, number, content)
        with staging(folder) as made:
            fill(asked, edition, made)
            files = seal(made, edition)
            place = take(made, folder / str(number))
    return f"{asked.topic}: {_named(edition)}, {files} files, is in {place}"


def _named(edition: Edition) -> str:
    return f"edition {edition.edition} ({edition.date})"

"""index.html over the topics that are built and the archive."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import NamedTuple

from pipeline.contracts.facts import Summary
from pipeline.editions.reading import MAKE, VERIFY, read_summary
from pipeline.editions.store import editions, read_edition
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.templating import environment, style
from pipeline.wording import numbers
from pipeline.wording.windows import day_said


class Entry(NamedTuple):
    """A brief on the shelf, with the folder its files are in; of an edition its number and date.

    `why` says why the brief is not up to date.
    """

    summary: Summary
    link: str
    edition: int | None = None
    date: date | None = None
    why: str | None = None


def write_shelf(
    out: Path, topics: list[str], publisher: str, why: Mapping[str, str] | None = None
) -> None:
    """index.html of these topics, in the folder of all outputs.

    `why` are those that are not up to date; they may have no brief yet.
    """
    write_atomically(out / "index.html", shelf(out, topics, publisher, why))


def shelf(
    out: Path, topics: list[str], publisher: str, why: Mapping[str, str] | None = None
) -> str:
    """The page, with links relative to the folder; editions newest first."""
    why = why or {}
    unbuilt = [topic for topic in why if not (out / topic / "summary.json").is_file()]
    content = {
        "publisher": publisher,
        "topics": [_built(out, topic, why.get(topic)) for topic in topics if topic not in unbuilt],
        "unbuilt": {topic: why[topic] for topic in unbuilt},
        "archived": _archived(out / "archive"),
        "day": day_said,
        "counted": numbers.counted,
    }
    page = environment().get_template("shelf.html.jinja")
    return page.render(css=style("shelf.css"), **content)


def _built(out: Path, topic: str, why: str | None) -> Entry:
    """What a brief says of itself. Raises UserError when it was not built."""
    if not (out / topic / "summary.json").is_file():
        path = out / topic / "summary.json"
        raise UserError(Problem(str(path), f"no such brief; {MAKE}"))
    return Entry(read_summary(out / topic, MAKE), f"{topic}/", why=why)


def _archived(archive: Path) -> list[list[Entry]]:
    """Archived editions of each topic, the newest first; none when nothing is archived."""
    found = []
    for topic in sorted(archive.iterdir()) if archive.is_dir() else []:
        entries = []
        for number in reversed(editions(topic)):
            folder = topic / str(number)
            summary = read_summary(folder / "data", VERIFY)
            link = f"archive/{topic.name}/{number}/data/"
            entries.append(Entry(summary, link, number, read_edition(folder).date))
        found += [entries] if entries else []
    return found

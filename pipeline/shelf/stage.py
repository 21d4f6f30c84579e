"""index.html over the topics that are built and the archive."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pipeline.editions.store import editions, read_about
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.templating import environment, style

View = dict[str, Any]


def write_shelf(out: Path, topics: list[str], publisher: str) -> None:
    """index.html of these topics, in the folder of all outputs."""
    write_atomically(out / "index.html", shelf(out, topics, publisher))


def shelf(out: Path, topics: list[str], publisher: str) -> str:
    """The page, with links relative to the folder; editions newest first."""
    content = {
        "publisher": publisher,
        "topics": [_entry(out / topic, f"{topic}/") for topic in topics],
        "editions": _editions(out / "archive"),
    }
    page = environment().get_template("shelf.html.jinja")
    return page.render(css=style("shelf.css"), **content)


def _entry(folder: Path, link: str) -> View:
    """What a brief says of itself. Raises UserError when it was not built."""
    path = folder / "summary.json"
    try:
        return {**json.loads(path.read_text("utf-8")), "link": link, "edition": None}
    except FileNotFoundError:
        raise UserError(Problem(str(path), "no such brief; run make brief")) from None


def _editions(archive: Path) -> list[View]:
    """Archived editions, by topic and then the newest first; none when nothing is archived."""
    found = []
    for topic in sorted(archive.iterdir()) if archive.is_dir() else []:
        for number in reversed(editions(topic)):
            link = f"archive/{topic.name}/{number}/data/"
            folder = archive / topic.name / str(number)
            date = read_about(folder)["date"]
            found.append({**_entry(folder / "data", link), "edition": number, "date": date})
    return found

"""python -m pipeline.shelf --out FOLDER: index.html over the topics built there and the archive."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from pipeline.config.load import DEFAULT, load
from pipeline.editions.store import editions, read_about
from pipeline.errors import Problem, UserError, run_stage, write_atomically
from pipeline.pages import environment, style

View = dict[str, Any]


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.shelf", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--out", type=Path, required=True, help="the folder of all outputs")
    options = parser.parse_args()
    config = load(options.config)
    page = shelf(options.out, list(config.topics), config.project.title)
    write_atomically(options.out / "index.html", page)


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


if __name__ == "__main__":
    run_stage(main)

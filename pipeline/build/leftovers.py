"""Where the briefs are, and what earlier settings or versions left behind that nothing reads."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from pipeline.config.load import load_project
from pipeline.config.topic_names import FOLDER, FOLDERS, SUFFIX, topic_names
from pipeline.kept_script import said_files
from pipeline.records.outputs import RAW
from pipeline.topic_files import CHECK

PDF = "brief.pdf"
MADE = (PDF, "findings.json", "tallies.parquet", "summary.json")  # marks the folder of a topic


def current(config: Path) -> list[str]:
    """The topics that a build makes."""
    topics = load_project(config).project.topics
    return topic_names(config / FOLDER) if topics == "all" else sorted(topics)


def briefs(config: Path, output: Path) -> list[Path]:
    """The PDFs of today's topics that are there."""
    return [path for name in current(config) if (path := output / name / PDF).is_file()]


def leftovers(config: Path, output: Path) -> list[Path]:
    """Folders of topics and sources that are no more, and files of sources in an older shape.

    Records, editions and whatever else somebody put into the folder are none.
    """
    found = [*_of_topics(config, output), *_of_checks(config, output)]
    return [*found, *_of_sources(config, output / "data")]


def _of_topics(config: Path, output: Path) -> Iterator[Path]:
    names = {*current(config), *topic_names(config / FOLDER), *FOLDERS}
    for folder in _folders(output):
        if folder.name not in names and any((folder / name).is_file() for name in MADE):
            yield folder


def _of_checks(config: Path, output: Path) -> Iterator[Path]:
    """Checks of a script that is no more."""
    for name in current(config):
        if not said_files(config / FOLDER / f"{name}{SUFFIX}"):
            yield from (path for file in CHECK if (path := output / name / file).is_file())


def _of_sources(config: Path, data: Path) -> Iterator[Path]:
    sources = load_project(config).sources
    for folder in _folders(data):
        if folder.name in sources:
            older = folder.glob("*.parquet")
            yield from sorted(path for path in older if path.name not in RAW)
        elif any((folder / name).is_file() for name in RAW):
            yield folder


def _folders(place: Path) -> list[Path]:
    return sorted(path for path in place.glob("[!.]*") if path.is_dir())


def told(config: Path, output: Path) -> str:
    """What was left, as a sentence; '' where nothing was."""
    found = ", ".join(str(path) for path in leftovers(config, output))
    return f"left from earlier, read by nothing, to delete when you like: {found}" if found else ""

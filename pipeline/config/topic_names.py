"""Names of topics: of their files, and so of folders, rules and words of a command line."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from pathlib import Path

from pipeline.errors import Problem
from pipeline.kept_script import beside

FOLDER = "topics"  # of the configuration
SUFFIX = ".yaml"
_NAME = re.compile(r"[a-z][a-z0-9_-]{0,59}")
FOLDERS = {"archive", "data", "preview"}  # of output/, beside the topics'
RULES = {"all", "ingest", "clean", "metrics", "significance", "script", "charts", "brief", "shelf"}
BEGINNINGS = ("archive_", "charts_")  # of rules that are named after topics
PLAIN = (
    "a topic's name has small letters, digits, - and _, begins with a letter, and has at most "
    "60 characters"
)


def wrong_name(name: str) -> str | None:
    """What is wrong with a topic's name, or None."""
    if not _NAME.fullmatch(name):
        return PLAIN
    if name in FOLDERS:
        return "a folder of output/ has this name; call the topic something else"
    if name in RULES or name.startswith(BEGINNINGS):
        return "a step of the workflow has this name; call the topic something else"
    return None


def topic_names(folder: Path) -> list[str]:
    """The topics that have a file, whatever they are called."""
    return sorted(path.stem for path in folder.glob(f"*{SUFFIX}") if not path.name.startswith("."))


def wrong_files(folder: Path, chosen: Collection[str] | None = None) -> Iterator[Problem]:
    """Topics whose names can't be used, and files that were meant as topics.

    Only those that are chosen, by the names of their files; all of the folder, if none are given.
    """
    for path in sorted(folder.iterdir()) if folder.is_dir() else []:
        if path.name.startswith(".") or (chosen is not None and path.stem not in chosen):
            continue
        if path.suffix == SUFFIX:
            wrong = None if path.is_file() else "not a file; a topic is one"
            wrong = wrong or wrong_name(path.stem)
        elif path.suffix.lower() in (".yml", SUFFIX):
            wrong = f"a topic's file ends in {SUFFIX}; rename it"
        else:
            continue
        if wrong:
            yield Problem(str(path), wrong)


def passed_over(folder: Path) -> list[str]:
    """Other files among the topics, which nothing reads."""
    there = sorted(folder.iterdir()) if folder.is_dir() else []
    topics = [folder / f"{name}{SUFFIX}" for name in topic_names(folder)]
    read = {path.name for topic in topics for path in beside(topic)}
    others = [path.name for path in there if path.suffix.lower() not in (".yml", SUFFIX)]
    return [name for name in others if name not in read]

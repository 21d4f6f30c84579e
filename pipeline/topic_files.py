"""The files of a topic's folder, named here once: for the workflow, editions, rebuild and README.

A file that a stage is to write more needs its line here, and nothing else.
"""

from __future__ import annotations

from typing import NamedTuple


class TopicFile(NamedTuple):
    """Its name, the stage that writes it, and what it is in a few words."""

    name: str
    stage: str
    what: str


FILES = (
    TopicFile("brief.pdf", "brief", "the brief, to read or print"),
    TopicFile("brief.html", "brief", "the brief, in a browser"),
    TopicFile("talking-points.md", "brief", "the lines to say, with times"),
    TopicFile("script.html", "brief", "the script in large type: the kept one, else the draft"),
    TopicFile("script.md", "brief", "a script to start from, its numbers filled from the facts"),
    TopicFile("episode.json", "brief", "what is said, in its order, with what each line is of"),
    TopicFile("facts.csv", "brief", "every number by its id, with its interval, as a table"),
    TopicFile("facts.json", "brief", "every number by its id, with its interval"),
    TopicFile("summary.json", "brief", "the brief in short"),
    TopicFile("script-check.html", "script", "scripts and captions, each number held to its fact"),
    TopicFile("script-check.json", "script", "the same as data"),
    TopicFile("script-state.json", "script", "the same in short, as the top sheet says it"),
    TopicFile("findings.json", "significance", "every comparison, unrounded, with its query"),
    TopicFile("tallies.parquet", "metrics", "sums by match, window, cell and measure"),
    TopicFile("clusters.parquet", "metrics", "sums by batter, bowler or side, of groups of them"),
    TopicFile("mix.parquet", "metrics", "the headlines’ sums by innings, and what each was of"),
    TopicFile("selection.json", "metrics", "which matches, seasons and cells were taken"),
)


def written_by(stage: str) -> list[str]:
    return [file.name for file in FILES if file.stage == stage]


BRIEF = written_by("brief")
PAGE, STATE = "script-check.html", "script-state.json"
CHECK = written_by("script")  # only where there is a script or captions
NUMBERS = [file.name for file in FILES if file.stage not in ("brief", "script")]
PAGES = [name for name in BRIEF if name.endswith((".pdf", ".html"))]  # shown in a report
LISTS = [name for name in BRIEF if name not in PAGES]
TABLES = [name for name in BRIEF if name.endswith(".csv")]
# What an edition has beside them, its charts and its settings.
OF_EDITION = {
    "edition.json": "what this edition was made of and with",
    "inputs.json": "the match files and sheets it was made from, with their checksums",
    "corrections.json": "what was mended in these data, by whom and why",
    "quality.json": "what was read, kept, unknown and odd in the data",
    "around.json": "what the brief took from earlier editions",
    "datapackage.json": "the tables described as a Data Package",
    "README.md": "what this folder is",
}
WHAT = {file.name: file.what for file in FILES} | OF_EDITION

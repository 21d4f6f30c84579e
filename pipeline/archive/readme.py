"""README.md of an edition, for somebody who has only its folder."""

from __future__ import annotations

from pipeline.brief.content import USUAL_CAUTIONS
from pipeline.contracts.editions import Credit, Edition, Inputs
from pipeline.contracts.facts import Summary
from pipeline.markdown import address, literal
from pipeline.topic_files import CHECK, FILES, OF_EDITION

FOLDERS = {
    "charts/": "frames for the video, charts, and the numbers behind each (CSV)",
    "config/": "the settings and sheets as they were; `merged.json`: what each stage saw",
}


def readme(edition: Edition, summary: Summary, inputs: Inputs) -> str:
    """The page as Markdown."""
    kept = [file for file in FILES if summary.checked or file.name not in CHECK]
    names = {file.name: file.what for file in kept} | FOLDERS | OF_EDITION
    listed = [f"- `{name}`: {what}" for name, what in names.items()]
    parts = [
        _head(edition, summary),
        "## Where to look first\n\n" + "\n".join(listed),
        _check(),
        _again(edition, inputs),
        "## Whose data\n\n" + "\n".join(_credit(source) for source in edition.sources),
        "## Before it is used\n\n" + "\n".join(f"- {line}" for line in USUAL_CAUTIONS),
    ]
    return "\n\n".join(parts) + "\n"


def _head(edition: Edition, summary: Summary) -> str:
    answer = "\n".join(f"- {literal(line)}" for line in summary.answer)
    return (
        f"# {literal(edition.title)}\n\n"
        f"Edition {edition.edition} of the brief `{edition.topic}`, {edition.date}, by "
        f"{literal(edition.publisher)}: what was said in one episode about cricket, with every "
        "number behind it. It is sealed: a change is a new edition.\n\n"
        f"**Question.** {literal(summary.question)}\n\n**Answer.**\n\n{answer}\n\n"
        f"It rests on {summary.matches}, {summary.first} to {summary.last} "
        f"(data {edition.fingerprint})."
    )


def _check() -> str:
    return (
        "## Is it whole?\n\n"
        "This folder is the payload (`data/`) of a BagIt 1.0 bag (RFC 8493); PATH is the folder "
        "above it. Either of these reads every file and compares checksums:\n\n"
        "```\nbagit.py --validate PATH\npython -m pipeline verify PATH\n```\n\n"
        "The first is the program of the Python library `bagit`, the second is Good Length's own, "
        "and lists all that is damaged, missing or extra."
    )


def _again(edition: Edition, inputs: Inputs) -> str:
    commit = edition.commit
    at = f" at commit {commit.id}" if commit else ""
    if commit and commit.with_changes_that_are_not_committed:
        at += " (with changes that were not committed)"
    held = (
        "The match files are in `inputs/`."
        if inputs.match_files_included
        else "The match files are not in this folder; `inputs.json` says which are needed, and "
        "their checksums tell whether you have the same ones."
    )
    version = edition.software["good-length"]
    named = f"Good Length {version}" if version else "Good Length"
    return (
        f"## Making it again\n\nIt was made with {named}{at}; versions of all libraries are in "
        f"`edition.json`. {held} In a folder of the project:\n\n```\n{edition.rebuild}\n```"
    )


def _credit(source: Credit) -> str:
    lines = [
        f"- {literal(source.title)}, {literal(source.publisher)}, retrieved {source.retrieved}.",
        f"  Licence: {literal(source.licence)}. Credit line: {literal(source.credit)}",
        *([f"  {literal(source.notice)}"] if source.notice else []),
        *([f"  {address(source.url)}"] if source.url else []),
    ]
    return "\n".join(lines)

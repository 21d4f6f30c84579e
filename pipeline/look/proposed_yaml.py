"""A proposal as a source of sources.yaml, commented out: what is there already stays as it is."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from pathlib import Path

from pipeline.config.written import TODO
from pipeline.look.proposal import Proposal
from pipeline.look.sampled import samples
from pipeline.terminal import shown
from pipeline.text import slug

NAME = re.compile(r"^\s*(?:#\s*)*- id: ([a-z][a-z0-9_-]*)", re.MULTILINE)
ITEM = re.compile(r"^( *)- ", re.MULTILINE)
KEY = re.compile(rf'\s*(?:# {TODO} )?"?([^":]+)"?:')
PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9_ ]*")
NOT_TEXT = frozenset({"y", "n", "yes", "no", "true", "false", "on", "off", "null"})


def block(made: Proposal, path: str, identity: str, today: str, indent: int) -> list[str]:
    """The lines of the source, without the marks of comments, indented as the file's sources."""
    lines = [
        f"- id: {identity}",
        f"  path: {quoted(path)}",
        "  layout: table",
        f"  title: {TODO}                    # name of the data, as a brief's sources list it",
        f"  publisher: {TODO}                # whose data they are",
        f"  licence: {TODO}                  # as its publisher names it",
        f"  retrieved: {today}            # when they were fetched",
    ]
    if made.query:
        lines += ["  query: |", *(f"    {line}" for line in made.query.splitlines())]
    lines += ["  columns:                      # ours: theirs", *_columns(made)]
    lines += [f"    # {TODO} {name}: {what}" for name, what in made.missing.items()]
    if made.date_format:
        lines.append(f"  date_format: {quoted(made.date_format)}")
    if made.written or made.values:
        lines += ["  written:                      # how its cells are written", *_written(made)]
    if made.constants:
        lines.append("  constants:                    # what no column says")
        lines += _keys(made.constants.items(), 4, made.todo)
    return [" " * indent + shown(line) for line in lines]


def _columns(made: Proposal) -> list[str]:
    return [
        _said(f"    {ours}: {quoted(guess.column.name)}", f"{guess.sure}: {samples(guess.column)}")
        for ours, guess in made.columns.items()
    ]


def _written(made: Proposal) -> list[str]:
    lines = []
    for key, value in made.written.items():
        text = json.dumps(value, ensure_ascii=False) if isinstance(value, list) else None
        line = f"    {key}: {text or _scalar(value)}"
        lines.append(_said(line, made.todo[key]) if key in made.todo else line)
    if made.values:
        lines.append("    values:                     # their word: ours")
    for ours, words in made.values.items():
        lines += [f"      {ours}:", *_keys(words.items(), 8, {})]
    return lines


def _scalar(value: object) -> str:
    return str(value) if isinstance(value, int) else quoted(str(value))


def _keys(items: Iterable[tuple[str, str]], indent: int, todo: dict[str, str]) -> list[str]:
    return [f"{' ' * indent}{quoted(key)}: {quoted(value)}" for key, value in items]


def _said(line: str, comment: str) -> str:
    return f"{line:<34}  # {comment}"


def undecided(lines: Iterable[str]) -> list[str]:
    """The key of each line of a block that a person has to decide; of a column its name of ours."""
    return [found[1] for line in lines if TODO in line and (found := KEY.match(line))]


def quoted(text: str) -> str:
    """As YAML, on one line; a plain word as it is."""
    if PLAIN.fullmatch(text) and text.strip() == text and text.lower() not in NOT_TEXT:
        return text
    return json.dumps(text, ensure_ascii=False)


def identity_of(path: Path, text: str) -> str:
    """A name for the source that none in the file has, in a comment or out of it."""
    stem = re.sub(r"^[^a-z]+", "", slug(path.name.partition(".")[0]))[:50] or "table"
    taken = set(NAME.findall(text))
    numbered = (f"{stem}-{number}" for number in range(2, len(taken) + 3))
    return next(name for name in (stem, *numbered) if name not in taken)


def indent_of(text: str) -> int:
    """Where the items of the file's list begin."""
    found = ITEM.search(text)
    return len(found[1]) if found else 2


def appended(text: str, lines: list[str]) -> tuple[str, int, int]:
    """The file's text with the lines as comments at its end; the first and last line of these."""
    end = "\r\n" if "\r\n" in text else "\n"
    before = text if text.endswith(("\n", "\r\n")) or not text else text + end
    first = before.count("\n") + 1
    commented = "".join(f"# {line}{end}" for line in lines)
    return before + commented, first, first + len(lines) - 1

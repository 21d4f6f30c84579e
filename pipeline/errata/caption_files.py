"""Captions and scripts as they are read: SubRip and WebVTT, however they break or roll; text."""

from __future__ import annotations

import html
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pysubs2

from pipeline.errata.hearing import Word, heard
from pipeline.errors import Problem, UserError, words_of
from pipeline.wording import script

LARGEST = 2 * 1024 * 1024  # bytes; an hour of captions that roll is about half of one megabyte
LONGEST = 5_000  # characters of one caption: to look for marks in more could take hours
SCRIPTS = (".txt", ".md")  # plain words without times

EXPECTED = "expected SubRip (.srt), WebVTT (.vtt) or a script (.txt, .md)"


class Caption(NamedTuple):
    """One event: its start in milliseconds, and the words of each of its lines."""

    start: int
    lines: list[list[Word]]


def captions(path: Path) -> list[Caption]:
    """The events in the order of time. Raises UserError when it is no file of captions."""
    text = _text(path)
    if is_script(path):
        return list(_of_script(text))
    layout = "vtt" if text.lstrip().startswith("WEBVTT") else "srt"
    longest = max(map(len, text.split("-->")))
    if longest > LONGEST:
        message = f"no captions: {longest:,} characters without a time (-->); {EXPECTED}"
        raise UserError(Problem(str(path), message))
    try:
        events = pysubs2.SSAFile.from_string(text, format_=layout).events
        events.sort(key=lambda event: event.start)
        found = [Caption(e.start, _lines(e.plaintext, at)) for at, e in enumerate(events)]
    except (pysubs2.Pysubs2Error, ValueError) as error:
        raise UserError(Problem(str(path), f"not readable captions: {words_of(error)}")) from None
    if not found:
        raise UserError(Problem(str(path), f"no captions in it; {EXPECTED}"))
    return found


def is_script(path: Path) -> bool:
    """Whether it has no times, so that they are estimated."""
    return path.suffix.lower() in SCRIPTS


def _of_script(text: str) -> Iterator[Caption]:
    """A script's lines, each when it would begin if all is read at the usual rate."""
    before = 0
    for at, line in enumerate(filter(str.strip, text.splitlines())):
        yield Caption(round(script.seconds(before) * 1000), [heard(line, at)])
        before += script.words(line)


def _text(path: Path) -> str:
    try:
        if path.exists() and not path.is_file():
            raise UserError(Problem(str(path), "not a file of captions or a script"))
        if path.exists() and path.stat().st_size > LARGEST:
            message = (
                f"{path.stat().st_size:,} bytes; the most is {LARGEST:,}: is it the right file?"
            )
            raise UserError(Problem(str(path), message))
        return path.read_text("utf-8-sig")
    except UnicodeDecodeError as error:
        raise UserError(Problem(str(path), f"not UTF-8 text (byte {error.start})")) from None
    except OSError as error:
        raise UserError(Problem(str(path), f"can't be read: {error.strerror}")) from None


def _lines(text: str, at: int) -> list[list[Word]]:
    """An event's lines; what follows a blank one (a note, a style) is not of the event."""
    own = html.unescape(text.strip("\n").partition("\n\n")[0])
    return [words for line in own.split("\n") if (words := heard(line, at))]


def spoken(events: list[Caption]) -> list[Word]:
    """All words once: lines that an event repeats from the one before it are left out.

    Rolling captions show a line again above the next one, or grow a line word by word.
    """
    said: list[Word] = []
    before: list[list[Word]] = []
    for event in events:
        words = [word for line in event.lines for word in line]
        said += words[_repeated(before, [word.text for word in words]) :]
        before = event.lines or before
    return said


def _repeated(before: list[list[Word]], words: list[str]) -> int:
    """How many of the words are whole last lines of the event before; the most there are."""
    for first in range(len(before)):
        last = [word.text for line in before[first:] for word in line]
        if len(last) > 1 and words[: len(last)] == last:
            return len(last)
    return 0

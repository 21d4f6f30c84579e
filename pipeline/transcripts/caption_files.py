"""Captions as they are read: SubRip and WebVTT, however they break or roll; each word once."""

from __future__ import annotations

import html
import re
from pathlib import Path
from typing import NamedTuple

import pysubs2

from pipeline.errors import Problem, UserError, words_of

LARGEST = 2 * 1024 * 1024  # bytes; an hour of captions that roll is about half of one megabyte
LONGEST = 5_000  # characters of one caption: to look for marks in more could take hours

EXPECTED = "expected SubRip (.srt), WebVTT (.vtt) or a script (.txt, .md)"
_UNSAID = re.compile(r"<[\d:.]+>|\[[^\[\]\n]{0,60}\]|^\s*(?:-|>>+|&gt;&gt;)(?=\s)|♪", re.MULTILINE)
_SIGNS = re.compile(r"^\W+|\W+$")


class Caption(NamedTuple):
    """Words that are shown from one time to another, in milliseconds; its lines as they stand."""

    start: int
    end: int
    lines: list[str]

    @property
    def text(self) -> str:
        return " ".join(self.lines)


def captions(path: Path) -> list[Caption]:
    """The captions in the order of time. Raises UserError when it is no file of captions."""
    text = text_of(path)
    layout = "vtt" if text.lstrip().startswith("WEBVTT") else "srt"
    longest = max(map(len, text.split("-->")))
    if longest > LONGEST:
        message = f"no captions: {longest:,} characters without a time (-->); {EXPECTED}"
        raise UserError(Problem(str(path), message))
    try:
        events = pysubs2.SSAFile.from_string(text, format_=layout).events
        events.sort(key=lambda event: event.start)
        found = [Caption(e.start, e.end, _lines(e.plaintext)) for e in events]
    except (pysubs2.Pysubs2Error, ValueError) as error:
        raise UserError(Problem(str(path), f"not readable captions: {words_of(error)}")) from None
    if not found:
        raise UserError(Problem(str(path), f"no captions in it; {EXPECTED}"))
    return found


def text_of(path: Path) -> str:
    """The text of a file of either kind. Raises UserError where it can't be read as one."""
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


def _lines(text: str) -> list[str]:
    """A caption's lines; what follows a blank one (a note, a style) is not of the caption.

    Times of single words, marks of speakers and what is only heard ('[Music]') are no words.
    """
    own = html.unescape(_UNSAID.sub(" ", text.strip("\n").partition("\n\n")[0]))
    return [words for line in own.split("\n") if (words := " ".join(line.split()))]


def spoken(shown: list[Caption]) -> list[Caption]:
    """The captions with every word once: lines repeated from the one before are left out.

    Rolling captions show a line again above the next one, or grow a line word by word.
    """
    said: list[Caption] = []
    before: list[str] = []
    for caption in shown:
        words = caption.text.split()
        new = words[_repeated(before, [_bare(word) for word in words]) :]
        if new:
            said.append(Caption(caption.start, caption.end, [" ".join(new)]))
        before = caption.lines or before
    return said


def _repeated(before: list[str], words: list[str]) -> int:
    """How many of the words are whole last lines of the caption before; the most there are."""
    for first in range(len(before)):
        last = [_bare(word) for word in " ".join(before[first:]).split()]
        if len(last) > 1 and words[: len(last)] == last:
            return len(last)
    return 0


def _bare(word: str) -> str:
    return _SIGNS.sub("", word.lower()) or word

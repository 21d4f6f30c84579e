"""Captions as they are read: SubRip and WebVTT, however they break."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pysubs2
from pysubs2.formats.subrip import SubripFormat
from pysubs2.formats.webvtt import WebVTTFormat

from pipeline.errors import Problem, UserError, not_utf_8, words_of

LARGEST = 2 * 1024 * 1024  # bytes; an hour of captions that roll is about half of one megabyte
LONGEST = 5_000  # characters of one caption: to look for marks in more could take hours

EXPECTED = "expected SubRip (.srt), WebVTT (.vtt) or a script (.txt, .md)"
_UNSAID = re.compile(r"<[\d:.]+>|\[[^\[\]\n]{0,60}\]|^\s*(?:-|>>+|&gt;&gt;)(?=\s)|♪", re.MULTILINE)
_INLINE = re.compile(r"<[\d:.,]+>|</?c(?:\.[^<>\s]*)?>")  # when a word is said, and how it looks
_TIMED = re.compile(r"^\s*[\d:.,]*\d\s*-->|-->\s*\d[\d:.,]*(?:\s|$)")
_TIMES = {"srt": (SubripFormat, "00:00:01,000 --> 00:00:02,500"),
          "vtt": (WebVTTFormat, "00:00:01.000 --> 00:00:02.500")}  # fmt: skip


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
    if broken := list(_broken(text, layout, str(path))):
        raise UserError(broken)
    text = _INLINE.sub(_apart, text)  # two times in a line would make it a line of times
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
        raise UserError(not_utf_8(path, error)) from None
    except OSError as error:
        raise UserError(Problem(str(path), f"can't be read: {error.strerror}")) from None


def _broken(text: str, layout: str, file: str) -> Iterator[Problem]:
    """Lines of times that can't be read as such: what stands under one would be lost."""
    kind, like = _TIMES[layout]
    for number, line in enumerate(text.split("\n"), start=1):
        if _TIMED.search(line) and len(kind.TIMESTAMP.findall(line)) != 2:
            written = " ".join(line.split())
            message = f"'{written[:60]}' is no line of times; write it as {like}"
            yield Problem(file, message, number, 1)


def _apart(inline: re.Match[str]) -> str:
    return "" if "c" in inline[0] else " "


def _lines(text: str) -> list[str]:
    """A caption's lines; what follows a blank one (a note, a style) is not of the caption.

    Times of single words, marks of speakers and what is only heard ('[Music]') are no words.
    """
    own = html.unescape(_UNSAID.sub(" ", text.strip("\n").partition("\n\n")[0]))
    return [words for line in own.split("\n") if (words := " ".join(line.split()))]

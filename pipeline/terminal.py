"""Lines for a terminal: wrapped in a column, nothing unseen in them, and not too long.

Names from archives, sheets, settings and captions are others' text. Printed as it is, it could
clear the screen, write a line of its own or turn the direction of the rest; so whatever is printed
goes through `say`, and mistakes through `fitted`.
"""

from __future__ import annotations

import io
import os
import re
import sys
import textwrap
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager, suppress

WIDTH, INDENT = 100, 14
LONGEST = 300  # characters of a line that tells a mistake
# No part of any text: control characters, separators that some programs take for ends of lines,
# what turns the direction of all that follows, halves of characters.
HARMFUL = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029"
    "\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]"
)
_QUOTED, _KEPT = 60, 24  # a longer name in quotes is cut to this many characters at either end
# A name in quotes may hold apostrophes inside words; that of "can't" opens none.
_LONG_NAME = re.compile(rf"(?<!\w)'((?:[^']|(?<=\w)'(?=\w)){{{_QUOTED},}})'(?!\w)")


def headed(name: str, words: str, indent: int = INDENT) -> list[str]:
    """The words in lines, the heading before the first; `indent` is the column of the words."""
    wrapped = wrap(words, WIDTH - indent)
    return [f"  {name if at == 0 else '':{indent - 2}}{part}" for at, part in enumerate(wrapped)]


def wrap(words: str, width: int = WIDTH, first: str = "", rest: str = "") -> list[str]:
    """Lines of a width, each with what is put before it; ids and paths stay whole."""
    return textwrap.wrap(
        words,
        width,
        initial_indent=first,
        subsequent_indent=rest,
        break_on_hyphens=False,
        break_long_words=False,
    )


def say(*lines: str) -> None:
    """Print lines at once, each as one line whatever stands in it."""
    print("\n".join(map(shown, lines)), flush=True)


def say_aside(line: str) -> None:
    """A line beside what was asked for, on standard error."""
    print(fitted(shown(one_line(line))), file=sys.stderr, flush=True)


def shown(text: str) -> str:
    """The text on one line, what can't be seen in it as an escape: '\\x1b', '\\u202e'.

    Letters and marks of every script stay, and so do spaces of any width.
    """
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() or _space(c) else _escape(c) for c in text)


def one_line(text: str) -> str:
    """The lines of a message one after another."""
    return " ".join(line.strip() for line in text.strip().split("\n"))


def harmless(text: str) -> str:
    """The text with escapes for what is no part of any; lines and joiners of letters stay.

    For pages and pictures, where a name has to look as it is written.
    """
    return HARMFUL.sub(lambda found: _escape(found[0]), text)


def _space(character: str) -> bool:
    return unicodedata.category(character) == "Zs"


def _escape(character: str) -> str:
    return character.encode("unicode_escape").decode("ascii")


def fitted(line: str, most: int = LONGEST, kept: str = "") -> str:
    """The line within a length: long names in quotes are cut first, then its middle.

    What to do stands at a line's end, and where it is at its beginning. An end that is to be `kept`
    stays whole, however long; the rest has half of the length at least.
    """
    if len(line) <= most:
        return line
    if kept and line.endswith(kept):
        return fitted(line.removesuffix(kept), max(most - len(kept), most // 2)) + kept
    line = _LONG_NAME.sub(lambda found: f"'{_cut(found[1], 2 * _KEPT)}'", line)
    return _cut(line, most)


def _cut(text: str, most: int) -> str:
    """Both ends of the text, with a mark between them where something is left out."""
    if len(text) <= most:
        return text
    first = most // 2
    return f"{text[:first]}…{text[len(text) - (most - first - 1) :]}"


@contextmanager
def to_any_reader() -> Iterator[None]:
    """Print what the output's encoding lacks as escapes, and end quietly when its reader leaves.

    A reader leaves early in `... | head -1`: what is left to print is nobody's any more.
    """
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    try:
        yield
    except BrokenPipeError:
        _print_to_nobody()
        raise SystemExit(1) from None
    finally:
        try:
            sys.stdout.flush()
        except BrokenPipeError:
            _print_to_nobody()


def _print_to_nobody() -> None:
    """So that the interpreter's own last flush finds somebody to take it."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())

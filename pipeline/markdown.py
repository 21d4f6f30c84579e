"""Text that stands in Markdown as it is: names may hold markup, links, or code."""

from __future__ import annotations

import re

from pipeline.terminal import shown

_MARKUP = re.compile(r"[\\`*\[\]<>]|(?<![^\W_])_|_(?![^\W_])|~|&(?=#?\w+;)")
_BEGINS = re.compile(r"^(?:[#+=-]|\d{1,9}(?=[.)]\s))")  # a heading, a list, a line under a heading
_ESCAPED = re.compile(
    r"\\(?:([\\`*\[\]<>_~&#+=.){}-])"  # markup
    r"|x([\da-f]{2})|u((?!d[89a-f])[\da-f]{4})|U(00(?:0[\da-f]|10)[\da-f]{4})|(t))"  # unseen
)
_SLOT = re.compile(r"\{(?=\{|$)|\}(?=\}|$)")  # of two braces the first; the last before a slot
_ADDRESS = re.compile(r"https?://[!#-;=?-\[\]_a-z~]+")


def literal(text: str) -> str:
    """The text with a backslash before what would be markup, on one line, nothing unseen in it."""
    escaped = _MARKUP.sub(r"\\\g<0>", " ".join(text.splitlines()))
    return shown(_BEGINS.sub(_kept, escaped))


def plain(written: str) -> str:
    """The text that `literal` wrote so; one without escapes as it is.

    Halves of characters stay escapes, since no text can hold them.
    """
    return _ESCAPED.sub(_unescaped, written)


def _unescaped(found: re.Match[str]) -> str:
    markup, *unseen, tab = found.groups()
    number = next(filter(None, unseen), "")
    return markup or (tab and "\t") or chr(int(number, 16))


def _kept(found: re.Match[str]) -> str:
    """A number keeps its digits: the escape stands before the point that makes it a list."""
    return f"{found[0]}\\" if found[0].isdigit() else f"\\{found[0]}"


def outside_slots(text: str) -> str:
    """The text as `literal` has it, and no brace in it begins or ends a slot."""
    return _SLOT.sub(r"\\\g<0>", literal(text))


def address(url: str) -> str:
    """A web address as a link; anything else as text."""
    return f"<{url}>" if _ADDRESS.fullmatch(url) else literal(url)

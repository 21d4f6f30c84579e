"""Bowling styles in free text to arm, kind and style; what can't be read is unknown and named.

A cell may tell several styles ("Right arm Medium, Right arm Offbreak"): the first is the bowler's,
the others are kept. Names and codes of the trade are in `style_words`. Hands stand here too.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from typing import NamedTuple

from pipeline.clean.style_words import (
    ARM_ONLY,
    BATTING,
    CODES,
    LEFT_CODES,
    LEFT_NAMES,
    NONE,
    RIGHT_NAMES,
    SAME,
    STYLES,
)


class Style(NamedTuple):
    arm: str
    kind: str
    style: str


class Told(NamedTuple):
    """What a cell tells: the first style, the others, and the parts that can't be read."""

    first: Style
    others: tuple[Style, ...] = ()
    unread: tuple[str, ...] = ()


UNKNOWN = Style("unknown", "unknown", "unknown")
# Between two styles. A stroke between two speeds is one style of pace: "fast/medium".
_BETWEEN = re.compile(r"[,;/&+|()\n\r]| and | or | also | plus ")
_SPEEDS = re.compile(r"\b(fast|medium|med)\s*/\s*(fast|medium|med)\b(?![\s-]*(fast|medium|med))")
_LETTER_STROKE = re.compile(r"\b([rln])\s*/\s*(a|h|arm|hand)\b")
_DOTTED = re.compile(r"(?<=\b\w)\.(?=\w\b)")


@cache
def read_style(text: str) -> Told:
    """Everything that the cell tells; a blank one tells nothing, and nothing of it is unread.

    ASSUME: nobody bowls with both arms, so an arm that one part names holds for parts that name
    none (common practice).
    """
    written = _plain(text)
    if not any(map(str.isalnum, text)) or re.fullmatch(NONE, _words(written)):
        return Told(UNKNOWN)
    parts = [part for part in map(_words, _parts(written)) if part]
    parts = [part for part in parts if not re.fullmatch(f"{BATTING}|{NONE}", part)]
    arms = [arm for arm in map(_arm, parts) if arm != "unknown"]
    told = [part for part in parts if not re.fullmatch(ARM_ONLY, part)]
    styles = [_style(part, arms[0] if arms else "unknown") for part in told]
    if not told:  # an arm alone, or a batting hand
        return Told(UNKNOWN._replace(arm=arms[0] if arms else "unknown"), (), (written or text,))
    unread = [part for part, style in zip(told, styles, strict=True) if style.kind == "unknown"]
    read = [style for style in styles[1:] if style.kind != "unknown" and style != styles[0]]
    return Told(styles[0], tuple(dict.fromkeys(read)), tuple(unread))


def _plain(text: str) -> str:
    """Small letters without accents, apostrophes and the dots of abbreviations."""
    marked = unicodedata.normalize("NFKD", text.lower())
    letters = "".join(c for c in marked if not unicodedata.combining(c) and c not in "'\u2019")
    return _DOTTED.sub("", re.sub(r"[^\x00-\x7f]", " ", letters)).strip()


def _parts(written: str) -> list[str]:
    joined = _SPEEDS.sub(r"\1 \2", _LETTER_STROKE.sub(r"\1\2", written))
    return [piece for part in _BETWEEN.split(joined) for piece in _by_arm(part or "")]


def _by_arm(part: str) -> list[str]:
    """A second 'right arm' begins a second style, though nothing stands between them."""
    arms = list(re.finditer(r"\b(right|left)[\s-]*arm\b", part))
    if len(arms) < 2:
        return [part]
    return [part[: arms[1].start()], *_by_arm(part[arms[1].start() :])]


def _words(part: str) -> str:
    words = " ".join(re.sub(r"[^a-z0-9]+", " ", part).split())
    for pattern, same in SAME:
        words = re.sub(pattern, same, words)
    return " ".join(words.split())


def _style(words: str, arm: str) -> Style:
    """One phrase or code; `arm` is that of the other parts."""
    own, code = _arm(words), _code(words)
    for pattern, kind, style in CODES:
        if re.fullmatch(pattern, code):
            return Style(arm if own == "unknown" else own, kind, style)
    for pattern, kind, style in STYLES:
        if re.search(pattern, words):
            return Style(arm if own == "unknown" else own, kind, style)
    return UNKNOWN._replace(arm=arm if own == "unknown" else own)


def _code(words: str) -> str:
    return re.sub(r"^(right|left) arm ", "", words).replace(" ", "")


def _arm(words: str) -> str:
    """The arm that a phrase says, or that its name is of."""
    for arm in ("left", "right"):
        if re.search(rf"\b{arm}\b", words):
            return arm
    if any(re.fullmatch(pattern, _code(words)) for pattern, _, _ in CODES):
        return "left" if re.fullmatch(LEFT_CODES, _code(words)) else "right"
    if re.search(LEFT_NAMES, words):
        return "left"
    return "right" if re.search(RIGHT_NAMES, words) else "unknown"


# 'left', 'LHB', 'Left-hand bat', 'left handed batter', 'l.h.b.', 'bats right'
_HAND = re.compile(
    r"(bats )?(left|right|l|r)( ?h(and(ed|er)?)?)?( ?bat(s|sman|swoman|ter|ting)?)?"
    r"|l ?h ?b|r ?h ?b|lefty|righty"
)


def read_hand(text: str) -> str | None:
    """'left', 'right', or 'unknown' for a blank cell; None for what can't be read."""
    words = " ".join(re.sub(r"[^a-z0-9]+", " ", _plain(text)).split())
    if not any(map(str.isalnum, text)) or words in ("unknown", "not known", "n a"):
        return "unknown"
    found = _HAND.fullmatch(words)
    if not found:
        return None
    return "left" if words.removeprefix("bats ").startswith("l") else "right"

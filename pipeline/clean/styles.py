"""Bowling styles in free text to arm, kind and style; what can't be read is unknown and named.

A cell may tell several styles ("Right arm Medium, Right arm Offbreak"): the first is the bowler's,
the others are kept. Names and codes of the trade are in `style_words`. Hands stand here too.
"""

from __future__ import annotations

import re
import unicodedata
from difflib import get_close_matches
from functools import cache
from typing import NamedTuple

from pipeline.clean.style_words import (
    ARM_ONLY,
    ARMS,
    BATTING,
    CODES,
    LEFT_CODES,
    LEFT_NAMES,
    NONE,
    NOT,
    RIGHT_NAMES,
    SAME,
    STYLES,
    WORDS,
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
_BETWEEN = re.compile(
    r"[,;/&+|()\n\r\t]| and | or | also | plus |(?<=[a-z]{4})(?<!orth)\.\s"
    r"|(?<!\b(?:off|leg|arm))(?<!slow|hand)(?<!wrist)\s-+>?\s"
    r"(?=right|left|off|leg|slow left|spin|wrist|googly|chinaman|orthodox)"
)
_SPEEDS = re.compile(r"\b(fast|medium|med)\s*/\s*(fast|medium|med)\b(?![\s-]*(fast|medium|med))")
_SLOW = re.compile(r"\b(?:(slow)\s*/\s*(medium|med)|(medium|med)\s*/\s*(slow))\b(?=\s*($|[,;(]))")
_LETTERS = re.compile(r"\b([rl]a?[fm])\s*/\s*([fm])\b")
_LONE_ARM = re.compile(r"(?:^|[,;(/])\s*(left|right)[\s-]*arm(?:ed)?\s*(?:$|[,;)/])")
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
    parts = [part for part in parts if not _passed_over(part)]
    arms = [arm for arm in map(_arm, parts) if arm != "unknown"]
    told = [part for part in parts if not re.fullmatch(ARM_ONLY, part)]
    alone = set(_LONE_ARM.findall(written))
    styles = [_style(part, arms[0] if arms else "unknown", alone) for part in told]
    if not told:  # an arm alone, or a batting hand
        return Told(UNKNOWN._replace(arm=arms[0] if arms else "unknown"), (), (written or text,))
    unread = [
        part
        for part, style in zip(told, styles, strict=True)
        if style.kind == "unknown" or _arm_in_doubt(part, alone)
    ]
    read = [style for style in styles[1:] if style.kind != "unknown" and style != styles[0]]
    return Told(styles[0], tuple(dict.fromkeys(read)), tuple(unread))


def _plain(text: str) -> str:
    """Small letters without accents, apostrophes and the dots of abbreviations."""
    marked = unicodedata.normalize("NFKD", text.lower())
    letters = "".join(c for c in marked if not unicodedata.combining(c) and c not in "'\u2019")
    letters = re.sub("[\u2010-\u2015\u2212]", "-", letters)
    return _DOTTED.sub("", re.sub(r"[^\x00-\x7f]", " ", letters)).strip()


def _parts(written: str) -> list[str]:
    joined = _SPEEDS.sub(r"\1 \2", _LETTERS.sub(r"\1\2", _LETTER_STROKE.sub(r"\1\2", written)))
    joined = _SLOW.sub("slow medium", joined)
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


def _passed_over(words: str) -> bool:
    """A batting hand, or that there is no style; but not where a style is told with it."""
    return bool(re.fullmatch(NONE, words) or (re.fullmatch(BATTING, words) and not _found(words)))


def _found(words: str) -> tuple[str, str] | None:
    """Kind and style of a phrase's own words."""
    found = ((kind, style) for pattern, kind, style in STYLES if re.search(pattern, words))
    return next(found, None)


def _style(words: str, arm: str, alone: set[str]) -> Style:
    """One phrase or code; `arm` is that of the other parts, `alone` those that stand by themselves.

    What is nearly a word of a style is a slip of the pen, which might decide: "fast mediun".
    """
    own, code = _arm(words), _code(words)
    told = "unknown" if _arm_in_doubt(words, alone) else arm if own == "unknown" else own
    for pattern, kind, style in CODES:
        if re.fullmatch(pattern, code):
            return Style(told, kind, style)
    found = _found(words)
    if not found or _nearly(words, WORDS) or re.search(NOT, words) or re.fullmatch(BATTING, words):
        return UNKNOWN._replace(arm=told)
    return Style(told, *found)


def _nearly(words: str, these: tuple[str, ...]) -> bool:
    """Whether a word of the phrase that nothing reads is nearly one of these."""
    for pattern in (r"unorth\w+", *(pattern for pattern, _, _ in STYLES)):
        words = re.sub(pattern, " ", words)
    left = [word for word in words.split() if word not in ARMS and len(word) > 2]
    return any(get_close_matches(word, these, 1, 0.75) for word in left)


def _arm_in_doubt(words: str, alone: set[str]) -> bool:
    """Both arms in one phrase, a slip of the pen, or a name of the other arm than stands alone."""
    said = set(re.findall(r"\b(?:left|right)\b", words))
    if said:
        return len(said) > 1
    return _nearly(words, ARMS) or (bool(alone) and _arm(words) not in (*alone, "unknown"))


def _code(words: str) -> str:
    return re.sub(r"^(right|left) arm ", "", words).replace(" ", "")


def _arm(words: str) -> str:
    """The arm that a phrase says, or that its name is of."""
    said = set(re.findall(r"\b(?:left|right)\b", words))
    if said:
        return said.pop() if len(said) == 1 else "unknown"
    if any(re.fullmatch(pattern, _code(words)) for pattern, _, _ in CODES):
        return "left" if re.fullmatch(LEFT_CODES, _code(words)) else "right"
    left, right = re.search(LEFT_NAMES, words), re.search(RIGHT_NAMES, words)
    if left and right:  # "orthodox off-spin" is said too
        return "unknown"
    return "left" if left else "right" if right else "unknown"


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

"""The cell of a bowling style in its parts, each a style, a hand or a remark, in plain words."""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

from pipeline.clean.style_words import CODES, SAME

# Between two styles. A stroke between two speeds is one style of pace: "fast/medium"; a colon may
# stand between the name of what follows and it: "bowls: off-break".
_BETWEEN = re.compile(
    r"[,;/&+|(){}<>\[\]\\\n\r\t]| and | or | also | plus | with | as well as "
    r"|(?<=[a-z]{4})(?<!orth)\.\s|(?<!bats)(?<!bowls)(?<!ting)(?<!ling)(?<!style)(?<!arm)\s*:"
    r"|(?<!\b(?:off|leg|arm))(?<!slow|hand)(?<!wrist)\s-+>?\s"
    r"(?=right|left|off|leg|slow left|spin|wrist|googly|chinaman|orthodox)"
)
_SPEEDS = re.compile(r"\b(fast|medium|med)\s*/\s*(fast|medium|med)\b(?![\s-]*(fast|medium|med))")
_SLOW = re.compile(r"\b(?:(slow)\s*/\s*(medium|med)|(medium|med)\s*/\s*(slow))\b(?=\s*($|[,;(]))")
_LETTERS = re.compile(r"\b([rl]a?[fm])\s*/\s*([fm])\b")
_LETTER_STROKE = re.compile(r"\b([rln])\s*/\s*(a|h|arm|hand)\b")
_DOTTED = re.compile(r"(?<=\b\w)\.(?=\w\b)")
_HUMPS = re.compile(r"(?<=[a-z])(?=[A-Z])")  # 'RightArmOffbreak'
_DASHES, _POINTS = "[\u2010-\u2015\u2212]", "[\u00b7\u2022\u2027]"
# "slow left arm (chinaman)" is one style; without a second word it is of the fingers.
_NAMED_AFTER = re.compile(r"(slow left[\s-]*arm)\s*[-,(:;]+\s*(?=chinam|wrist|googl|unorth)")
_BOTH_ARMS = re.compile(
    r"\b(left|right)\b([\s-]*arm)?\s*(and|or|&|/)\s*(left|right)\b(?=[\s-]*arm)"
)


class Part(NamedTuple):
    """As it is written, without capitals and accents, and in plain words."""

    written: str
    words: str


def plain(text: str) -> str:
    """Small letters without accents, apostrophes and the dots of abbreviations.

    A question mark beside something is a word: what it is put to is not sure.
    """
    marked = unicodedata.normalize("NFKD", _HUMPS.sub(" ", text.replace("_", " ")).lower())
    letters = "".join(c for c in marked if not unicodedata.combining(c) and c not in "'\u2019")
    letters = re.sub(_POINTS, ";", re.sub(_DASHES, "-", letters))
    ascii_only = _DOTTED.sub("", re.sub(r"[^\x00-\x7f]", " ", letters))
    return re.sub(r"\?+", " maybe ", ascii_only).strip()


def parts_of(written: str) -> list[Part]:
    """The parts of a plain text that hold any word."""
    joined = _SPEEDS.sub(r"\1 \2", _LETTERS.sub(r"\1\2", _LETTER_STROKE.sub(r"\1\2", written)))
    joined = _BOTH_ARMS.sub("both", _NAMED_AFTER.sub(r"\1 ", _SLOW.sub("slow medium", joined)))
    joined = re.sub(r"<br ?/?>", ";", joined)
    pieces = [piece for part in _BETWEEN.split(joined) for piece in _by_arm(part or "")]
    found = [Part(piece.strip(), one) for piece in pieces for one in _by_code(words_of(piece))]
    return [part for part in found if part.words]


def _by_arm(part: str) -> list[str]:
    """A second 'right arm' begins a second style, though nothing stands between them."""
    arms = list(re.finditer(r"\b(right|left)[\s-]*arm\b", part))
    if len(arms) < 2:
        return [part]
    return [part[: arms[1].start()], *_by_arm(part[arms[1].start() :])]


def _by_code(words: str) -> list[str]:
    """Codes with nothing but a blank or a hyphen between them are a style each: 'RM OB'."""
    codes = words.split()
    return codes if len(codes) > 1 and all(map(in_codes, codes)) else [words]


def words_of(part: str) -> str:
    """Small letters and digits with single blanks, in the words of `style_words`."""
    words = " ".join(re.sub(r"[^a-z0-9]+", " ", part).split())
    for pattern, same in SAME:
        words = re.sub(pattern, same, words)
    return " ".join(words.split())


def in_codes(code: str) -> tuple[str, str] | None:
    """Kind and style of a short code."""
    found = ((kind, style) for pattern, kind, style in CODES if re.fullmatch(pattern, code))
    return next(found, None)

"""Bowling styles in free text to arm, kind and style; what can't be read is unknown and named.

A cell may tell several styles ("Right arm Medium, Right arm Offbreak"): the first is the bowler's,
the others are kept. Names and codes of the trade are in `style_words`. Hands stand here too.
"""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from pipeline.clean.style_arms import arm_of, code_of, named_arm, nearly, only, said_arm
from pipeline.clean.style_parts import Part, parts_of, plain, words_of
from pipeline.clean.style_words import (
    ARM_ONLY,
    ASIDE,
    BATTING,
    DOUBTFUL,
    NO_BOWLER,
    NONE,
    STYLES,
    UNORTHODOX,
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
_LONE_ARM = re.compile(r"(?:^|[,;:(/])\s*(left|right)[\s-]*arm(?:ed)?\s*(?:$|[,;:)/])")


@cache
def read_style(text: str) -> Told:
    """Everything that the cell tells; a blank one tells nothing, and nothing of it is unread.

    ASSUME: nobody bowls with both arms, so an arm that one part names holds for parts that name
    none (common practice); where names of both arms meet, the arm is in doubt.
    """
    written = plain(text)
    if not any(map(str.isalnum, text)) or re.fullmatch(NONE, words_of(written)):
        return Told(UNKNOWN)
    parts = parts_of(written)
    told = [part for part in parts if not _passed_over(part.words)]
    hands = [part for part in parts if _hand_alone(part)]
    alone = set(_LONE_ARM.findall(written))
    of_arms = [part for part in parts if part in told or re.fullmatch(ARM_ONLY, part.words)]
    said = {arm for part in of_arms if part not in hands and (arm := said_arm(part.words))}
    if not told:  # an arm alone, or a batting hand; or that there is nothing to tell
        nothing = any(re.fullmatch(NONE, part.words) for part in parts) and not said
        return Told(UNKNOWN._replace(arm=only(said)), (), () if nothing else (written or text,))
    said = said or {arm for part in told if (arm := named_arm(part.words))}
    arms = [arm_of(part.words, said, alone) for part in told]
    kinds = [_kind(part.words) for part in told]
    doubted = [
        part.words
        for part, arm, kind in zip(told, arms, kinds, strict=True)
        if kind is None or arm is None
    ]
    if "unknown" in arms:  # of whom a batting hand might be the arm
        doubted += [part.written for part in hands]
    doubted += [part.words for part in parts if re.fullmatch(NO_BOWLER, part.words)]
    return _in_order(arms, kinds, doubted)


def _in_order(
    arms: list[str | None], kinds: list[tuple[str, str] | None], doubted: list[str]
) -> Told:
    """The styles of a cell's parts, with what of them is in doubt."""
    styles = [
        Style(arm or "unknown", *(kind or UNKNOWN[1:]))
        for arm, kind in zip(arms, kinds, strict=True)
    ]
    first, *others = [_sharper(style, styles) for style in styles]
    read = [style for style in others if style.kind != "unknown" and style != first]
    return Told(first, tuple(dict.fromkeys(read)), tuple(doubted))


def _passed_over(words: str) -> bool:
    """What tells no style, where another part does: an arm, a batting hand, a remark."""
    aside = any(re.fullmatch(pattern, words) for pattern in (NONE, ASIDE, ARM_ONLY))
    return aside or bool(re.fullmatch(BATTING, words) and not _found(words))


def _hand_alone(part: Part) -> bool:
    """'Left-handed' is how somebody bats, or the arm."""
    return bool(re.fullmatch(ARM_ONLY, part.words)) and "hand" in part.written


def _found(words: str) -> list[tuple[str, str]]:
    """Kinds and styles of a phrase's words, no word taken twice, the most telling first."""
    found = {}
    for pattern, kind, style in STYLES:
        rest = re.sub(pattern, " # ", words)
        if rest != words:
            found[pattern], words = (kind, style), rest
    if any(pattern != UNORTHODOX and kind != style for pattern, (kind, style) in found.items()):
        found.pop(UNORTHODOX, None)  # beside a style it says how that is bowled
    return list(found.values())


def _kind(words: str) -> tuple[str, str] | None:
    """Kind and style of one phrase or code; None where it has none, or is in doubt.

    In doubt: a slip of the pen, which might decide ("fast mediun"); words of pace and of spin, or
    of both spins, with nothing between them ("medium off-break").
    """
    if code := code_of(words):
        return code
    found = _found(words)
    if not found or nearly(words, WORDS):
        return None
    if re.search(DOUBTFUL, words) or re.fullmatch(BATTING, words):
        return None
    exact = {each for each in found if each[0] != each[1]}
    if len({kind for kind, _ in found}) > 1 or len({s for kind, s in exact if kind == "spin"}) > 1:
        return None
    return next((each for each in found if each in exact), found[0])


def _sharper(style: Style, styles: list[Style]) -> Style:
    """The style that another part names where this one says no more than the kind: 'slow (OB)'."""
    if style.style != style.kind or style == UNKNOWN:
        return style
    named = (s for s in styles if s.kind == style.kind != s.style and s.arm == style.arm)
    return next(named, style)


# 'left', 'LHB', 'Left-hand bat', 'left handed batter', 'l.h.b.', 'bats right'
_HAND = re.compile(
    r"(bats )?(left|right|l|r)( ?h(and(ed|er)?)?)?( ?bat(s|sman|swoman|ter|ting)?)?"
    r"|l ?h ?b|r ?h ?b|lefty|righty"
)


def read_hand(text: str) -> str | None:
    """'left', 'right', or 'unknown' for a blank cell; None for what can't be read."""
    words = " ".join(re.sub(r"[^a-z0-9]+", " ", plain(text)).split())
    if not any(map(str.isalnum, text)) or words in ("unknown", "not known", "n a"):
        return "unknown"
    found = _HAND.fullmatch(words)
    if not found:
        return None
    return "left" if words.removeprefix("bats ").startswith("l") else "right"

"""How a number says a fact: the value itself or an end of what it could be, and which way."""

from __future__ import annotations

from pipeline.said.number_heard import Heard
from pipeline.said.read_numbers import Said
from pipeline.said.rounding import How, ends_told, rounds, rounds_end
from pipeline.said.subjects import CLAUSE
from pipeline.said.targets import MOVES, WINDOW, Target
from pipeline.said.units import OVER

_OF_ENDS = {"at least", "at most", "up to", "as much as", "as little as", "no more than"}
_OF_ENDS |= {"no less than", "more than", "less than", "under", "over", "as many as", "as few as"}

FEW = 3  # from here it may lie between two whole numbers


def how_said(target: Target, heard: Heard) -> tuple[How, float | None]:
    """How rightly, and the end that is said where it is one."""
    said = heard.said
    if said.form == "times":
        return _times(target, said), None
    spread = heard.pair is not None and heard.pair.spread
    if _of_ends(heard) and (spread or target.role in MOVES) and (told := ends_told(target)):
        for end, exact in zip(told, (target.low or 0, target.high or 0), strict=True):
            if rounds_end(said, end, exact) and _on_its_side(exact, target, heard):
                return "right", exact
        if _holds(target, heard):
            return "right", None
        if heard.pair and heard.pair.spread and target.role in MOVES:
            return _near_end(target, said), None
    digits = target.fact.digits if target.fact else 0
    if digits is None or (target.unit == OVER and target.role in MOVES):
        digits = max(digits or 0, 1)  # 'a run an over' is none of 0.74
    comes_to = heard.hedge == "up to" and target.role == "level"  # 'quicker, up to 4.77'
    return rounds(said, target.value, digits, "" if comes_to else heard.hedge), None


def _near_end(target: Target, said: Said) -> How:
    ends = (target.low or 0.0, target.high or 0.0)
    near = any(rounds(said, end, 0) in ("right", "near") for end in ends)
    return "near" if near else "off"


def _holds(target: Target, heard: Heard) -> bool:
    """'Eleven to twelve' of 11.6: two whole numbers, of which it is between."""
    if heard.between is None:
        return False
    low, high = heard.between
    value = abs(target.value)
    next_to = low.is_integer() and high == low + 1
    return next_to and value >= FEW and low <= value <= high


def _of_ends(heard: Heard) -> bool:
    spread = heard.pair is not None and heard.pair.spread
    return spread or heard.hedge in _OF_ENDS or "could" in heard.all_parts


def _on_its_side(exact: float, target: Target, heard: Heard) -> bool:
    """Of a range the far end may not be said first with the sign of the other."""
    return target.role not in MOVES or not heard.way or exact * heard.way >= 0


def _times(target: Target, said: Said) -> How:
    """'twice what it was', of a change in per cent."""
    if target.role != "move" or target.unit != "per cent":
        return "off"
    return rounds(said, 1 + target.value / 100, 0)


def way_fits(target: Target, heard: Heard, end: float | None) -> bool:
    """Whether it goes the way that is said, and is on the side that is said."""
    if target.role in MOVES:
        exact = target.value if end is None else end
        told_of = _told_of(target, heard)
        if told_of is None:
            return True
        exact *= told_of
        way = heard.way
        if heard.said.signed:
            way = 1 if heard.said.value >= 0 else -1
        if not way or not exact:
            return True
        return (exact * way > 0) != (heard.denied and end is None)
    if target.role == "level":
        return side_fits(target, heard) and verb_fits(target, heard)
    return True


def _told_of(target: Target, heard: Heard) -> int | None:
    """-1 where the first of two groups is its subject: what is 2 per cent higher at the one is
    lower at the other. None where either may be meant."""
    named = heard.names.get(target.between) if target.between and target.finding else None
    if named is None or len(named.values) != 1 or not target.finding:
        return 1
    if not named.values & {target.finding.sides[0]}:
        return 1
    return -1 if named.level == CLAUSE else None


def side_fits(target: Target, heard: Heard) -> bool:
    """Whether it is of the window that is said, where one is."""
    if target.side is None or WINDOW not in target.names:
        return True
    if heard.hedge == "up to" and heard.side is None:
        return target.side == 1
    return heard.side is None or heard.side == target.side


def verb_fits(target: Target, heard: Heard) -> bool:
    """'rose to four point one' of what fell; of two groups, 'lower at the coast'."""
    if not heard.way or not target.moved or target.side is None or heard.denied:
        return True
    if WINDOW in target.names:
        goes = heard.leads in ("to", "from") or (heard.pair is not None and not heard.pair.spread)
        return not goes or heard.way == target.moved
    if heard.rivals and target.between not in heard.rivals:
        return True  # 'cheaper there than pace': of which two it is lower, another cut says
    expected = target.moved if target.side else -target.moved
    return heard.way == expected

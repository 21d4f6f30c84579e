"""Whether a number is a right rounding of a fact, one that goes too far, or neither."""

from __future__ import annotations

from typing import Literal

from pipeline.said.read_numbers import Said
from pipeline.said.targets import Target
from pipeline.wording import phrases

How = Literal["right", "near", "off"]
RIGHT, NEAR = 0.05, 0.10  # of the value: how far a coarse rounding may be off; how far is 'near'
SAME = 0.02  # of the value: how far beyond 'nearly' it may be, and be rounded to the same
TRUE = 0.002  # the same of 'more than', which is true or not
_TINY = 1e-9
_PARTS = (1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4, 1.0)
UNDER = {
    "less than",
    "under",
    "below",
    "within",
    "up to",
    "well under",
    "well below",
    "no more than",
    "at most",
    "fewer than",
    "smaller than",
}
JUST_OVER = {"just over", "just above", "a little over", "a bit over", "a touch over"}
JUST_OVER |= {
    "slightly over",
    "slightly more than",
    "just more than",
    "a shade over",
}
JUST_UNDER = {"just under", "just below", "nearly", "almost", "not quite", "a shade under"}
JUST_UNDER |= {"a little under", "a bit under", "getting on for", "close to", "a touch under"}
OVER = {"more than", "over", "well over", "well above", "above", "at least", "no less than"}


def rounds(said: Said, value: float, digits: int | None, hedge: str = "") -> How:
    """A number without its sign against a value; `digits` are those that a line says it with."""
    told, exact = abs(said.value), abs(value)
    off = abs(told - exact)
    relative = off / exact if exact else (0.0 if not off else 1.0)
    if hedge in UNDER:
        return _bound(told, exact, said.step, 1)
    if hedge in OVER and exact > told:
        part = said.form == "share" and exact - told <= said.step / 2
        if part or relative <= NEAR:
            return "right"
    if hedge in OVER and told - exact > TRUE * exact:
        return "near" if relative <= NEAR + _TINY else "off"
    if hedge in (*JUST_OVER, *JUST_UNDER):
        over = hedge in JUST_OVER
        beyond = exact - told if over else told - exact
        if beyond < -(TRUE if over else SAME) * exact:
            return "near" if relative <= NEAR + _TINY else "off"
        if 0 <= beyond <= said.step / 2 + _TINY and relative <= NEAR + _TINY:
            return "right"
    if any(_rounded(told, exact, step) for step in _steps(said)):
        fine = digits is not None and said.step <= 10.0**-digits + _TINY
        if fine or relative <= RIGHT + _TINY:
            return "right"
    if said.form == "share" and _is_nearest_part(told, exact) and relative <= NEAR + _TINY:
        return "right"  # 'half a run' of 0.47
    printed = round(exact, digits or 1)
    near = relative <= NEAR + _TINY or abs(told - printed) <= NEAR * printed + _TINY
    return "near" if near else "off"


def _is_nearest_part(told: float, exact: float) -> bool:
    """Whether of the parts that people say none is nearer."""
    return told in _PARTS and min(_PARTS, key=lambda part: abs(part - exact)) == told


def _steps(said: Said) -> list[float]:
    """To what it may be rounded: a whole that ends in noughts to any of those digits."""
    if not said.whole:
        return [said.step]
    found, step = [said.step], said.step
    while step > 1:
        step /= 10
        found.append(step)
    return found


def _rounded(told: float, exact: float, step: float) -> bool:
    return abs(told - exact) <= step / 2 * (1 + 1e-6) + _TINY * max(1.0, exact)


def _bound(told: float, exact: float, step: float, way: int) -> How:
    """'less than one per cent', 'under five': true, and no further off than a step or a tenth."""
    if exact <= told * (1 + _TINY) and (told - exact <= max(step, NEAR * told)):
        return "right"
    return "near" if exact and abs(told - exact) / exact <= NEAR else "off"


def ends_told(target: Target) -> tuple[float, float] | None:
    """Both ends of what it could be, as a line rounds them."""
    if target.low is None or target.high is None:
        return None
    low, high, _ = phrases.ends_told(target.low, target.high)
    return low, high


def rounds_end(said: Said, told: float, exact: float) -> bool:
    """An end is said as a line says it, or as any right rounding of it."""
    if abs(abs(told) - abs(said.value)) < 1e-6:
        return True
    return rounds(said, exact, 1) == "right" and any(
        _rounded(abs(said.value), abs(exact), step) for step in _steps(said)
    )

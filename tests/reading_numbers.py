"""Numbers read back out of words and digits, by code of its own: 'nearly four and a half'."""

from __future__ import annotations

import re
from typing import NamedTuple

UNITS = "nought one two three four five six seven eight nine ten eleven twelve thirteen fourteen"
UNITS += " fifteen sixteen seventeen eighteen nineteen"
SMALL = {word: at for at, word in enumerate(UNITS.split())}
ONES = [[word] for word, at in SMALL.items() if at < 10]
DECADES = "twenty thirty forty fifty sixty seventy eighty ninety"
TENS = {word: 10 * at for at, word in enumerate(DECADES.split(), 2)}
LARGE = {"hundred": 100, "thousand": 1000, "million": 1_000_000}
PARTS = {
    ("a", "half"): 1 / 2,
    ("a", "third"): 1 / 3,
    ("two", "thirds"): 2 / 3,
    ("a", "quarter"): 1 / 4,
    ("three", "quarters"): 3 / 4,
}
NEARNESS = ("nearly", "about", "just over", "less than", "under", "within", "up to")
WORD = re.compile(r"[−+]?\d[\d,]*(?:\.\d+)?|[a-z]+|[.,;:%]")


class Read(NamedTuple):
    """A number as it is said: how near it claims to be, half of its last digit, what follows."""

    value: float
    half: float
    near: str
    after: str

    def holds(self, exact: float) -> bool:
        """Whether the size of the exact value is what was said."""
        off, slack = abs(exact) - abs(self.value), 1e-9 * max(1.0, abs(exact))
        if self.near in ("less than", "under", "within"):
            return off <= slack
        if abs(off) > self.half + slack:
            return False
        if self.near == "nearly":
            return off < 0
        return off > 0 if self.near == "just over" else True


def numbers_in(text: str) -> list[Read]:
    """Every number of a sentence, in its order."""
    words = WORD.findall(text.lower().replace("-", " "))
    found, at = [], 0
    while at < len(words):
        read = _number(words, at)
        if read is None:
            at += 1
            continue
        value, half, end = read
        near = _near(words, at)
        found.append(Read(value, half, near, " ".join(words[end : end + 3])))
        at = end
    return found


def digits(text: str) -> tuple[float, float]:
    """The first number that is shown in digits, signed, and half of its last digit."""
    (shown, *_) = re.findall(r"[−+]?\d[\d,]*(?:\.\d+)?", text)
    return _digits(shown)


def _digits(shown: str) -> tuple[float, float]:
    plain = shown.replace("−", "-").replace(",", "")
    return float(plain), 0.5 * 10.0 ** -len(plain.partition(".")[2])


def _near(words: list[str], at: int) -> str:
    before = " ".join(words[max(0, at - 2) : at])
    return next((near for near in NEARNESS if re.search(rf"\b{near}$", before)), "")


def _number(words: list[str], at: int) -> tuple[float, float, int] | None:
    """(value, half of its last digit, where it ends); None where no number begins."""
    if words[at][-1].isdigit():
        value, half = _digits(words[at])
        return value, half, at + 1
    if words[at] == "half" and words[at + 1 : at + 2] in (["a"], ["an"]):
        return 0.5, 0.05, at + 2
    alone = PARTS.get(tuple(words[at : at + 2]))
    if alone is not None:
        return alone, 0.01, at + 2
    if words[at] == "half":
        return 0.5, 0.01, at + 1
    if words[at : at + 2] == ["one", "in"] and _whole(words, at + 2):
        count, end = _whole(words, at + 2) or (1, at)
        return 1 / count, 0.1 / count, end
    whole = _whole(words, at)
    if whole is None:
        return None
    value, end = whole
    part = PARTS.get(tuple(words[end + 1 : end + 3])) if words[end : end + 1] == ["and"] else None
    if part is not None:
        return value + part, 0.05, end + 3
    if words[end : end + 1] != ["point"] or words[end + 1 : end + 2] not in ONES:
        return float(value), 0.5, end
    end, places = end + 1, ""
    while end < len(words) and SMALL.get(words[end], 10) < 10:
        places += str(SMALL[words[end]])
        end += 1
    return float(f"{value}.{places}"), 0.5 * 10.0 ** -len(places), end


def _whole(words: list[str], at: int) -> tuple[int, int] | None:
    """A whole number in words: groups of thousands, each a count of hundreds and what is over."""
    total, end = 0, at
    while (group := _hundreds(words, end)) is not None:
        count, end = group
        scale = LARGE.get(words[end], 1) if end < len(words) else 1
        total, end = total + count * scale, end + (scale > 1)
        if scale == 1:
            break
        following = _hundreds(words, end + 1) if words[end : end + 1] == ["and"] else None
        end += following is not None and following[0] < 100
    return (total, end) if end > at else None


def _hundreds(words: list[str], at: int) -> tuple[int, int] | None:
    below = _below_hundred(words, at)
    if below is None or words[below[1] : below[1] + 1] != ["hundred"]:
        return below
    count, end = below[0] * 100, below[1] + 1
    over = _below_hundred(words, end + 1) if words[end : end + 1] == ["and"] else None
    if over is None or words[over[1] : over[1] + 1] == ["hundred"]:
        return count, end
    return count + over[0], over[1]


def _below_hundred(words: list[str], at: int) -> tuple[int, int] | None:
    word = words[at] if at < len(words) else ""
    if word in TENS:
        ones = SMALL.get(words[at + 1], 10) if at + 1 < len(words) else 10
        return (TENS[word] + ones, at + 2) if 0 < ones < 10 else (TENS[word], at + 1)
    return (SMALL[word], at + 1) if word in SMALL else None

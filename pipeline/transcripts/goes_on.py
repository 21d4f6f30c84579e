"""Whether a number, or a number with its unit, goes on from one word to the next."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from pipeline.slots.number_words import number_spans

_SIGNS = re.compile(r"^[\"'“‘(\[]+|[,;:\"'”’)\]]+$")
_FIGURE = re.compile(r"[+\-−]?\d[\d.,]*(?:st|nd|rd|th|%|s)?")
_PARTS = {
    "half",
    "third",
    "thirds",
    "quarter",
    "quarters",
    "oh",
    "zero",
    "point",
    "twice",
    "percent",
}
_UNITS = {
    *(
        "per",
        "percent",
        "cent",
        "%",
        "percentage",
        "point",
        "points",
        "pts",
        "run",
        "runs",
        "over",
        "overs",
    ),
    *("ball", "balls", "wicket", "wickets", "match", "matches", "innings", "season", "seasons"),
    *("hundred", "thousand", "million", "billion", "third", "thirds", "quarter", "quarters"),
}
# What stands between two parts of a number, of a range, of a score.
_BETWEEN = {"and", "in", "to", "or", "for", "point", "minus"}
# No sentence ends after these.
_OPEN = {
    *("a", "an", "the", "of", "by", "from", "to", "in", "at", "and", "or", "than", "per", "with"),
    *("about", "nearly", "roughly", "almost", "around", "just", "minus", "point", "percentage"),
    *("between", "only", "some", "every", "each"),
}
# What goes on with a sentence that stands before it, and begins none.
_FOLLOWS = {
    *("of", "by", "to", "than", "per", "down", "up", "from", "fell", "rose", "was", "were", "is"),
    *("are", "had", "has", "went", "came", "held", "moved", "fewer", "higher", "lower"),
    *("percent", "points", "between"),
}
KEPT = 10_000  # words that are known again
_STOPS = (".", "!", "?", "…")


def goes_on(word: str, following: str, after: Sequence[str] = ()) -> bool:
    """Whether no sentence ends between two words; `after` are the words behind them.

    'forty' | 'three point eight', 'eight' | 'per cent', 'eight' | 'and a half', 'fell by' | 'two'.
    """
    if word.endswith(_STOPS):
        return False
    last, first = _bare(word), _bare(following)
    behind = [_bare(each) for each in after]
    if last in _OPEN or first in _FOLLOWS or (last in _UNITS and first in ("a", "an", "per")):
        return True
    if first in ("and", "or") and behind != [] and _is_number(behind[0]):
        return True
    if not _is_number(last) or word.endswith((",", ";", ":")):
        return False
    if _is_number(first) or first in _UNITS:
        return True
    if first in _BETWEEN and behind[:1] == ["a"]:
        return behind[1:2] != [] and behind[1] in _PARTS
    if first in ("a", "an", "of"):
        return any(each in _UNITS for each in behind[:2])
    return first in _BETWEEN and behind != [] and _is_number(behind[0])


@lru_cache(KEPT)
def _bare(word: str) -> str:
    return _SIGNS.sub("", word).lower()


@lru_cache(KEPT)
def _is_number(word: str) -> bool:
    return bool(word in _PARTS or _FIGURE.fullmatch(word) or number_spans(word))

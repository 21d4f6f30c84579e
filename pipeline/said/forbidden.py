"""What a topic's "don't say" lists hold against a sentence, beside the claims of a cause."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Set
from functools import cache
from typing import NamedTuple

from pipeline.said.cautious import is_cautious, is_held_back, is_question, plain
from pipeline.said.sounded import Sounded
from pipeline.said.targets import EVENT, SHARE, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import PER_CENT

_SAME = re.compile(
    r"\bnot the (?:slightest|least|smallest) difference\b|\b(?:exactly|precisely|just|completely"
    r"|absolutely) the same\b|\b(?:no|not (?:a|any"
    r"|one bit of)"
    r"|zero|makes? no|made no) (?:real |actual |bit of )?difference\b|\bidentical\b|\bno odds\b"
    r"|\bno different\b|\bno change (?:at all|whatsoever)\b|\bn't (?:make|made) (?:a"
    r"|any) difference\b"
)
_NO_ODDS = re.compile(
    r"(?<=no difference)[^.;]{0,20}\bwhether\b|(?<=no odds)[^.;]{0,20}\bwhether\b"
)
_MOST_OF_IT = 0.10


class Forbidden(NamedTuple):
    """`line` is what the topic says of it."""

    begins: int
    ends: int
    line: str


def forbidden(
    text: str, heard: Sounded, carried: Mapping[str, Set[str]], known: Known
) -> Forbidden | None:
    """`carried` are the names of the sentences before and of the heading."""
    told = plain(text)
    if is_question(text) or is_cautious(_NO_ODDS.sub(" ", told)):
        return None
    for match in _SAME.finditer(told):
        line = _line(known.banned, ("no difference", "exactly the same"))
        own = match.group().startswith(("no ", "not ", "makes no", "made no", "n't"))
        if line and (own or not is_held_back(text, match.start())):
            return Forbidden(match.start(), match.end(), line)
    return _quoted(text, told, known) or _of_itself(heard, carried, known)


def _line(lines: Iterable[str], words: tuple[str, ...]) -> str | None:
    return next((line for line in lines if any(word in plain(line) for word in words)), None)


def _quoted(text: str, told: str, known: Known) -> Forbidden | None:
    """The very words of a line that is no claim of a cause, and no number."""
    for line, quote in quotes_of(tuple(known.banned)):
        match = quote.search(told)
        if match and not is_held_back(text, match.start()):
            return Forbidden(match.start(), match.end(), line)
    return None


@cache
def quotes_of(lines: tuple[str, ...]) -> list[tuple[str, re.Pattern[str]]]:
    """Each line with its quoted words, as they are heard."""
    found = []
    for line in lines:
        quote = re.match(r"“([^”]*)”", line)
        words = re.findall(r"[a-z']+", plain(quote[1])) if quote else []
        if len(words) > 1 and words[0] != "because" and not re.search(r"\d", line):
            said = r"\W+".join(map(re.escape, words))
            found.append((line, re.compile(rf"\b{said}\b")))
    return found


def _of_itself(heard: Sounded, carried: Mapping[str, Set[str]], known: Known) -> Forbidden | None:
    """'down sixteen per cent' of a share: its move as a part of itself."""
    line = _line(known.banned, (" per cent.”",))
    for number in heard.numbers:
        part = number.said.form == "share" and not number.own_unit
        if number.plain or not number.is_move or not (part or number.unit == PER_CENT):
            continue
        if line is None or {"step", "drift"} & number.all_parts:
            continue  # those are told in per cent of the share itself
        names = {cut: named.values for cut, named in number.names.items()}
        fitting = [each for each in known.shares_moved if _names_fit(each, names, carried)]
        value = number.said.value * (100 if part else 1)
        if fitting and not any(_are_points(each, value) for each in fitting):
            first, last = heard.tokens[number.said.first], heard.tokens[number.ends - 1]
            return Forbidden(first.begins, last.ends, line)
    return None


def _are_points(target: Target, value: float) -> bool:
    """Whether it is the move in points, said with the wrong unit."""
    return abs(abs(target.value) - value) <= _MOST_OF_IT * abs(target.value)


def _names_fit(
    target: Target, names: Mapping[str, Set[str]], carried: Mapping[str, Set[str]]
) -> bool:
    told = names if "measure" in names else {**carried, **names}
    return "measure" in told and all(
        target.names.get(cut) in values or (cut == "measure" and _is_share(target, values))
        for cut, values in told.items()
        if cut not in (WINDOW, EVENT, "season")
    )


def _is_share(target: Target, measures: Set[str]) -> bool:
    """Whether 'its share' is said of a group's share of the balls."""
    return SHARE in measures and target.names.get("measure", "").endswith("-share")

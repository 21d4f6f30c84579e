"""What a topic's "don't say" lists hold against a sentence, beside the claims of a cause."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache
from typing import NamedTuple

from pipeline.said.cautious import is_cautious, is_held_back, is_question, plain
from pipeline.said.sounded import Sounded
from pipeline.said.subjects import Named
from pipeline.said.targets import WINDOW, Target
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


def forbidden(text: str, heard: Sounded, known: Known) -> Forbidden | None:
    told = plain(text)
    if is_question(text) or is_cautious(_NO_ODDS.sub(" ", told)):
        return None
    for match in _SAME.finditer(told):
        line = _line(known.banned, ("no difference", "exactly the same"))
        own = match.group().startswith(("no ", "not ", "makes no", "made no", "n't"))
        if line and (own or not is_held_back(text, match.start())):
            return Forbidden(match.start(), match.end(), line)
    return _quoted(text, told, known) or _of_itself(heard, known)


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


def _of_itself(heard: Sounded, known: Known) -> Forbidden | None:
    """'down sixteen per cent' of a share: its move as a part of itself."""
    for number in heard.numbers:
        part = number.said.form == "share" and not number.own_unit
        if number.plain or not number.is_move or not (part or number.unit == PER_CENT):
            continue
        value = number.said.value * (100 if part else 1)
        for target in known.shares_moved:
            relative = _relative(target)
            moved = target.finding is not None and target.finding.verdict == "changed"
            if relative is None or not moved or not _names_fit(target, number.names):
                continue
            if abs(abs(relative) - value) <= _MOST_OF_IT * abs(relative):
                first, last = heard.tokens[number.said.first], heard.tokens[number.ends - 1]
                line = _line(known.banned, (" per cent.”",))
                return Forbidden(first.begins, last.ends, line) if line else None
    return None


def _relative(target: Target) -> float | None:
    finding = target.finding
    change = finding.effect.relative if finding and finding.effect else None
    return change.value * 100 if change and change.value else None


def _names_fit(target: Target, names: Mapping[str, Named]) -> bool:
    return "measure" in names and all(
        target.names.get(cut) in named.values
        for cut, named in names.items()
        if cut not in (WINDOW, "season")
    )

"""What a topic's "don't say" lists hold against a sentence, beside the claims of a cause."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Set
from functools import cache

from pipeline.contracts.finding import Turn
from pipeline.said.cautious import is_doubted, is_held_back, is_question, plain, surely
from pipeline.said.compared_changes import gaps_of
from pipeline.said.meant import names_in, told_of
from pipeline.said.only_said import Forbidden, told_otherwise
from pipeline.said.sounded import Sounded
from pipeline.said.targets import EVENT, SHARE, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import PER_CENT
from pipeline.said.word_lists import pattern

_SURE = (
    r"(?:\b|(?=n't))(?:<sure_same>|<none_of> (?:<bits> )*<things>)\b"
    r"|(?:n't|\bnot|\bnever) (?:make|made) (?:<bits> |a |any |of )*difference\b"
)
_NOTHING = r"(?:\b|(?=n't))(?:<stayed>|<nothing>)\b"
_BEFORE, _AFTER = r"\b<denied>\W*$", r"^\W*(?:\w+ )?<denied_after>"
_DENIES = re.compile(r"(?:no|not|n't|nothing|never|zero|makes? no|made no|without)\b")
_WHETHER = re.compile(
    r"(?<=no difference)[^.;]{0,20}\bwhether\b|(?<=no odds)[^.;]{0,20}\bwhether\b"
)
_NEAR_IT = 0.3


def forbidden(
    text: str, heard: Sounded, carried: Mapping[str, Set[str]], known: Known
) -> Forbidden | None:
    """`carried` are the names of the sentences before and of the heading."""
    if is_question(text):
        return None
    told = surely(plain(text))
    line = _line(known.banned, ("no difference", "exactly the same"))
    for match in _same(told, heard, carried, known) if line else ():
        whole = _WHETHER.sub(lambda found: " " * len(found.group()), text)
        if not is_doubted(whole, match.start()) and not _is_denied(text, match):
            return Forbidden(match.start(), match.end(), str(line))
    return (
        _quoted(text, told, known)
        or told_otherwise(text, heard, known.banned)
        or _of_itself(heard, carried, known)
    )


def _same(
    told: str, heard: Sounded, carried: Mapping[str, Set[str]], known: Known
) -> Iterator[re.Match[str]]:
    """Where it is said that nothing is different; by a verb, only of what can't be told."""
    yield from pattern(_SURE, "sameness").finditer(told)
    for match in pattern(_NOTHING, "sameness").finditer(told):
        names = names_in(heard.mentions, 0, len(heard.tokens))
        found = told_of(names, carried, known)
        if pattern(r"\b<gaps>\b", "comparisons").search(told):
            found = [*gaps_of(names, known)] or found
        if "turn" in match[0]:
            found = [each for each in known.findings if isinstance(each, Turn)]
        if found and all(finding.verdict == "can't tell" for finding in found):
            yield match


def _is_denied(text: str, match: re.Match[str]) -> bool:
    told = plain(text)
    before, after = told[: match.start()], told[match.end() :]
    denies = bool(_DENIES.match(match[0]))
    return (
        bool(pattern(_BEFORE, "sameness").search(before))
        or bool(pattern(_AFTER, "sameness").search(after))
        or is_held_back(text, match.start(), denies)
    )


def _line(lines: Iterable[str], words: tuple[str, ...]) -> str | None:
    return next((line for line in lines if any(word in plain(line) for word in words)), None)


def _quoted(text: str, told: str, known: Known) -> Forbidden | None:
    """The very words of a line that is no claim of a cause, and no number."""
    for line, quote in quotes_of(tuple(known.banned)):
        match = quote.search(told)
        if match and not is_doubted(text, match.start()) and not _is_denied(text, match):
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
        if any(_is_relative(each, value) for each in fitting):
            first, last = heard.tokens[number.said.first], heard.tokens[number.ends - 1]
            return Forbidden(first.begins, last.ends, line)
    return None


def _is_relative(target: Target, value: float) -> bool:
    """Whether it is the move as a part of the share, and not just a wrong number of points."""
    finding = target.finding
    effect = finding.effect if finding and finding.verdict == "changed" else None
    change = effect.relative if effect else None
    told = abs(change.value) * 100 if change else 0.0
    return told > 0 and abs(told - value) <= _NEAR_IT * told


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

"""Claims that the event made a change: 'because of the long grass', 'the grass cut the runs'."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from pipeline.said.caused import has_change, has_effect, is_dated, surely
from pipeline.said.cautious import is_cautious, is_held_back, is_question, plain
from pipeline.said.number_table import SMALL

if TYPE_CHECKING:
    from pipeline.said.sounded import Sounded

_VERBS = """
made makes make making cut cuts caused causes drove drives helped helps hurt hurts rescued
rescues saved saves killed kills brought brings slowed slows pushed pushes gave gives turned
turns lifted lifts forced forces led leads meant means changed changes cost costs boosted boosts
did does worked works reduced reduces raised raises lowered lowers pulled pulls knocked knocks
dragged drags handed hands stopped stops transformed explains explained accounts produced
produces created creates tamed choked strangled squeezed rewarded punished dried robbed ruined
suits suited hampered hampers hinders hindered benefited benefits shifted shifts swung let lets
kept keeps put puts sent sends took takes doubled halved wrecked flattened stole steals added
adds trimmed shaved
"""
# 'It was down to six' is of no cause.
_NO_NUMBER = (
    r"(?! (?:(?:about|nearly|around|roughly|just|over|under|almost) )*"
    rf"(?:\d|{'|'.join(map(re.escape, SMALL))}|half)\b)"
)
_BY = (
    r"\b(?:because of|thanks to|due to|owing to|as a (?:direct |clear |plain |simple )?result of"
    r"|on account of|a result of"
    r"|the result of"
    r"|courtesy of|a consequence of|caused by|driven by|brought (?:about|on) by|explained by"
    r"|attributable to|thanks largely to|thanks mainly to|blamed on|credit (?:goes )?to"
    r"|triggered by"
    r"|put (?:that|it|this) down to|can be put down to|is (?:all )?down to|was (?:all )?down to"
    r"|'s (?:all )?down to|owes? (?:it|that|this|everything|all) to|the product of|fuelled by)\b"
    + _NO_NUMBER
)
_DENIED = re.compile(r"\b(?:not|never|no|hardly)\b|n't\b")
# Of a change that was just told, whatever it was that made it.
_CHANGE = (
    r"(?:the |that |this |its |their |all of )*(?:whole )?(?:fall|drop|rise|change|difference"
    r"|decline|jump|increase|decrease|gap|step|improvement|shift|dip|collapse|surge)"
)
_EXPLAINS = re.compile(
    r"\b(?:that|this|which|it)(?: (?:alone|really|all|surely|largely|fully))*"
    rf" (?:explains|explained|accounts for|accounted for|caused|is behind|was behind) {_CHANGE}\b"
)
_FOLLOWS = re.compile(r"\bas a (?:direct |clear |plain |simple )?(?:result|consequence)\b(?! of)")
_NEAR = 40  # characters in which what is blamed is named
_STOP_WORDS = """
bowling captains captain game games bowl bat batting match matches season
the a an of in to is it did does do was were who what why when how really and or for with by at
on their its his her our your that this these those has have had be been are not no long let
help paid grow say says more ball balls data they them turn turned also
"""
# Patterns that say with their own words that something was made.
_WHOLE = {2, 3, 4, 6, 8, 9, 10, 11, 12, 13, 14, 15, 16}
# By what an event may be called, whatever it was.
_RULES = {"rule change", "change of rule", "new rule", "law change", "new regulation"}
_STOP = set(_STOP_WORDS.split())


class Causes:
    """Patterns of one topic: `event` is what a claim would name, with what else its title names."""

    def __init__(self, events: Iterable[str], title: str, known: Iterable[str]) -> None:
        named = {_bare(event) for event in events if event}
        words = {name.rpartition(" ")[2] for name in named}
        others = re.findall(r"[a-z]{3,}", plain(_without_names(title)))
        words |= {
            word.removesuffix("s")
            for word in others
            if word not in _STOP and word not in set(known)
        }
        if named:
            words |= _RULES
        found = "|".join(sorted(map(re.escape, {*named, *words}), key=len, reverse=True)) or "(?!)"
        thing = (
            r"(?:(?:the|that|this|those|a|(?:19|20)\d\d|longer|long|new|sea|change of|change in) )*"
            rf"(?:{found})s?"
        )
        verbs = "|".join(_VERBS.split())
        self._names = re.compile(rf"\b(?:{found})s?\b")
        self._patterns = [
            re.compile(_BY),
            re.compile(
                rf"\b{thing}(?: (?:itself|alone|really|has|had|have|clearly|simply|just|also|then"
                rf"|there|here|must have|will have|surely|definitely|certainly"
                rf"|grew and))* (?:{verbs})\b(?! (?:by|from|not|never)\b)"
            ),
            re.compile(rf"\b{thing} (?:is|was|were|are)(?: \w+)? (?:why|behind|to blame"
            rf"|the reason|what"
                       rf"|the cause|responsible)\b"),
            re.compile(rf"\b(?:it's|it was|that's|that was|it is|that is)(?: all)? {thing}"
                       rf"(?: that| which| doing| at work| for you|[.!,]|$)"),
            re.compile(rf"\b(?:blame|credit|thank|thanks) (?:for \w+ )?(?:goes to |to )?{thing}"),
            re.compile(rf"\b(?:because|so that|as|reason|that's why|which is why"
            rf"|cause)\b.*\b(?:{found})s?\b"
                       if found else "(?!)"),
            re.compile(rf"\b(?:{found})s?\b.*\b(?:that's why|which is why|and so (?!did|does|has"
            rf"|have|was|is|are)|so that"
            rf"|that did it"
                       rf"|as a result|therefore|hence|the effect of|thereby)\b"),
            re.compile(
                rf"\b(?:letting|leaving|growing|lengthening|raising|changing|not (?:cutting"
                rf"|mowing))\b[^,.;:]{{0,30}}\b(?:{found})s?\b[^,.;:]{{0,20}}? (?:{verbs})\b"
            ),
            re.compile(r"\bcause and effect\b"),
            re.compile(rf"\bwithout {thing}"),
            re.compile(rf"\breason\b.*\b(?:is|was) {thing}"),
            re.compile(
                r"\b(?:it's|it was|that's|it is) (?:the |that |this )[a-z ]{2,30}? (?:that"
                r"|which) (?:has |have )?"
                rf"(?:{verbs})\b"
            ),
            re.compile(
                r"\b(?:it's|it was) the (?:groundsmen|groundstaff|clubs|committee|league"
                r"|rules?) who"
                rf" (?:{verbs})\b"
            ),
            re.compile(rf"\b{thing} to (?:thank|blame)\b"),
            re.compile(
                rf"\b{thing} (?:is|was|has been) (?:really |very )?(?:good|great|bad|kind|hard"
                r"|a gift|a godsend|a disaster|a help)\b"
            ),
            re.compile(rf"\b(?:{found})s?\b.*\bthat is why\b"),
            re.compile(rf"\beffect of {thing}|\b{thing}(?:'s)? (?:effect|impact)\b"),
        ]  # fmt: skip

    def found(self, text: str, heard: Sounded) -> re.Match[str] | None:
        """The first claim of a cause that is stated, and not asked, denied or doubted."""
        told = surely(plain(text))
        if is_question(text) or is_cautious(told) or is_dated(told):
            return None
        for at, pattern in enumerate(self._patterns):
            for match in pattern.finditer(told):
                loose = at == 5 and match.group().startswith(("as ", "reason"))
                if (
                    not loose
                    and not is_held_back(told, match.start())
                    and not _DENIED.search(match[0])
                    and self._says_what(told, heard, match, at)
                ):
                    return match
        return _of_what_was_told(told, heard)

    def _says_what(self, told: str, heard: Sounded, match: re.Match[str], at: int) -> bool:
        """Whether what made it is the event, and something is made by it."""
        begins, ends = match.span()
        if at == 0:
            blamed = re.split(r"[,.;:]", told[ends : ends + _NEAR])[0]
            if not self._names.search(blamed):
                thanked = re.match(r" \w+ for\b", told[ends:])
                return not thanked and has_change(heard, begins, ends)
            ends += len(blamed)
            return not told[:begins].strip() + told[ends:].strip(" .!") or has_effect(
                told, heard, begins, ends
            )
        if at in _WHOLE:
            return True
        return has_effect(told, heard, begins, ends)


def _of_what_was_told(told: str, heard: Sounded) -> re.Match[str] | None:
    """'That explains the fall', 'fell as a result'."""
    match = _EXPLAINS.search(told)
    if match is None and (match := _FOLLOWS.search(told)):
        begins, ends = match.span()
        match = match if has_effect(told, heard, begins, ends) else None
    return match if match and not is_held_back(told, match.start()) else None


def _without_names(title: str) -> str:
    """Without words that have a capital inside a sentence: whose matches they are made nothing."""
    return re.sub(r"(?<=[\w,] )[A-Z]\w+(?: [A-Z]\w+)*", " ", title)


def _bare(event: str) -> str:
    return re.sub(r"^(?:the|a|an) ", "", plain(event))

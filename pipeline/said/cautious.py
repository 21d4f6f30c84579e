"""Words that hold back: what can't be told, what is asked, denied, or only said by others."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from pipeline.said.word_lists import pattern

_CAUTION = r"\b(?:<cautions>|(?:\w+n't|<cannot>)(?: <between>){0,6} <know>)(?!\w)"
_OF_WHY = (
    r"^(?: (?:say|tell|know|prove|exactly|really|quite|sure|clear|you|us|about|just))* <of_why>\b"
)
_OF_IT = r"\b(?:<of_it>|this (?:is|was|may|might|could|one))\b"
_OTHERS = (
    r"\b(?:<tellers>(?:'(?:ll|d|ve|re))?(?: \w+){0,5} <tell>"
    r"|(?:the|a|that|this|one|old|popular) (?:\w+ ){0,2}<tales>(?: \w+){0,3}"
    r" (?:<tell>|<tale_tells>)"
    r"|<tales> (?:is|was|goes|that)|(?!<ours>\b)\w+(?<!i)(?<!we)\)? <he_tells>"
    r"|(?:the|these|those|my|our|your) (?:\w+ )?\w+s (?:will |'ll |would )?<they_tell>)\b"
    r"|\b<tempting>\b"
)
_POINT = re.compile(r"(?<=\d)[.,](?=\d)")  # is no end of a clause
_SIGNS = ":;—"
_QUOTED = re.compile(r"“[^”]*”|\"[^\"]*\"")
_ASKS = re.compile(
    r"(?:(?:so|and|but|now|well|ok|okay|right) )*(?:did|does|do|is|was|were|are|has|have|can|could"
    r"|would|should|will) (?:the|it|that|this|they|we|you|i|a|an|any|all|\w+s)\b"
    r"|(?:did|does|is|was|has) (?!now|also|down|up|still|not)\w+ \w+"
)
_HAD = re.compile(r"(?:^|[.;,:] )(?:and |but )?(?:had|should|were|suppose|imagine) $")
_OUR_CARD = re.compile(r"^[^:.“\"]{0,40}: ?$")  # 'Caption: “...”' quotes nobody
_FEW = 3  # words of an aside: 'perhaps', 'or maybe not'
_NEAR = 60  # characters before a claim in which a word denies it


def plain(text: str) -> str:
    """In lower case with straight apostrophes and no full stop in a number, as patterns read it.

    It is as long as the text.
    """
    told = text.lower().replace("’", "'").replace("‘", "'")
    return _POINT.sub("_", told)


def surely(told: str) -> str:
    """Without words of being sure, which deny nothing; as long as it was."""
    sure = pattern(r"\b<sure>\b", "causes")
    return sure.sub(lambda match: " " * len(match.group()), told)


def _cautions(told: str) -> Iterator[re.Match[str]]:
    return pattern(_CAUTION, "doubts").finditer(surely(told))


def holds_back(text: str, is_named: Callable[[int, int], bool]) -> bool:
    """Whether a caution of a text is about what it says, and not about why or of another thing.

    `is_named` tells whether something of the topic is named between two characters.
    """
    told = plain(text)
    for match in _cautions(told):
        begins = max(told.rfind(sign, 0, match.start()) for sign in _SIGNS) + 1
        ends = min((at for sign in _SIGNS if (at := told.find(sign, match.end())) > 0),
                   default=len(told))  # fmt: skip
        if _is_of_why(told[match.end() : ends]):
            continue
        piece = told[begins:ends]
        may = pattern(r"^<may>\b", "doubts").match(match.group())
        if not may or len(piece.split()) <= _FEW or _is_of_it(piece) or is_named(begins, ends):
            return True
    return False


def _is_of_why(after: str) -> bool:
    """What is not asked: 'we can't say why' leaves the change itself as it was said."""
    return bool(pattern(_OF_WHY, "doubts").search(after))


def _is_of_it(piece: str) -> bool:
    return bool(pattern(_OF_IT, "doubts").search(piece))


def is_cautious(text: str) -> bool:
    return any(_cautions(plain(text)))


def is_doubted(text: str, begins: int) -> bool:
    """Whether a caution is about what begins here, and not what that is set against.

    'We can't say how it came, but the fall was the larger' doubts nothing of the fall.
    """
    told = plain(text)
    for match in _cautions(told):
        between = told[match.end() : begins]
        before = match.end() <= begins
        set_apart = before and pattern(r"\b<contrasts>\b|;", "doubts").search(between)
        if not set_apart and not _is_how_much(told[match.end() :]):
            return True
    return False


def _is_how_much(after: str) -> bool:
    return bool(re.match(r"(?: \w+){0,2} how (?:much|far|big|many)\b", after))


def is_question(text: str) -> bool:
    """Also of captions without signs: 'did the grounds do that'."""
    told = text.rstrip(" ”\"')")
    unsigned = not told.endswith((".", "!", "?", "…"))
    return told.endswith("?") or bool(unsigned and _ASKS.match(told.lower()))


def is_held_back(text: str, begins: int, denies: bool = False) -> bool:
    """Whether what begins here is denied, asked, doubted, quoted or what others say.

    What `denies` itself is not denied by a word before it: 'no, there is no difference'.
    """
    told = surely(plain(text))
    before = told[:begins]
    clause = re.split(r"[:;.,—] |\bbut\b", before)[-1][-_NEAR:]
    if not denies and pattern(r"n't\b|\b<denied>\b", "doubts").search(clause):
        return True
    if _HAD.search(before):
        return True
    return is_of_others(text, begins)


def is_of_others(text: str, begins: int) -> bool:
    """Whether what begins here is what others say, or stands in quotation marks."""
    told = surely(plain(text))
    before = told[:begins] + ("that" if told[begins:].startswith("that ") else "")
    if pattern(_OTHERS, "doubts").search(before):
        return True
    if pattern(r"[,—.;”\"-] ?(?:<so_they_say>)\b", "doubts").search(told[begins:]):
        return True
    return any(
        m.start() <= begins < m.end() and not _OUR_CARD.search(text[: m.start()])
        for m in _QUOTED.finditer(text)
    )

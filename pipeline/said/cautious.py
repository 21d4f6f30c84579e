"""Words that hold back: what can't be told, what is asked, denied, or only said by others."""

from __future__ import annotations

import re
from collections.abc import Callable

CAUTION = re.compile(
    r"\b(?:ca(?:n't|nnot|n not)|couldn't|could not|wo(?:n't|uld not)|wouldn't|don't|do not|doesn't)"
    r" (?:really |quite |yet |even |be |ever |honestly |actually )*(?:tell|told|say|said|call"
    r"|called"
    r"|show|shown|settle|settled|know|sure|rule|split|separate|certain|prove|pin|swear|bet|bank"
    r"|lean"
    r"|give you|read|decide|decided|distinguish|have enough|claim)\b"
    r"|\b(?:may|might|could) (?:\w+ )?(?:be|have|well|just|only|only be)\b|\bperhaps\b|\bmaybe\b"
    r"|\bpossibly\b|\bprobably\b|\bunclear\b|\buncertain\w*\b|\btoo close\b|\bnot (?:enough|sure"
    r"|clear|certain|proven|settled|told|something we)|\bisn't (?:enough|clear|sure|settled)"
    r"|\bwhether\b|\bplain figures\b|\bface of it\b|\bhard to (?:say|tell)|\bas far as \w+ can\b"
    r"|\busual swings?\b|\bcould do (?:that|it|this)\b"
    r"|\b(?:can|could) neither\b|\bsettles? nothing\b|\bnothing (?:is )?settled\b"
    r"|\b(?:might|may)[.!]?$|\bno (?:bigger|larger|more) than luck\b|\bluck alone\b"
    r"|\bwithin (?:what )?luck\b|\binconclusive\b|\bjury\b|\bundecided\b|\benough to (?:call|say"
    r"|tell)\b|\b(?:we|you|i"
    r"|they|nobody|one) (?:can't|cannot)\b"
    r"|\bso it looks\b|\bif (?:that|it) isn't\b|\bwe think\b|\b(?:no|not an?"
    r"|not the) (?:\w+ )?(?:change|gap|difference|fall|rise|move|one) (?:that )?(?:we|you|i"
    r"|anyone) can\b|\bcan we (?:say|call|tell)"
    r"|\bno (?:verdict|telling"
    r"|way of (?:knowing|telling))|\b(?:be|just|only|no more than|within|inside|down to) (?:luck"
    r"|chance|noise)\b|\blooks like\b|\bseem\w*\b|\bappear\w*\b|\bsuggest\w*\b|\bhint\w*\b"
    r"|\bnobody (?:can|could)|\bnot one we can|\bnone (?:of (?:it|them) )?we can|\bnothing we can"
    r"|\bby itself\b|\bunproven\b|\bcaution\b|\bcareful\b|\btake (?:it|that|this) with\b"
    r"|\bunsettled\b|\bdoubt\w*\b|\bluck (?:can|could|makes|would)|\bnot (?:a )?(?:real|one you)"
    r"|\bswings? (?:that|as)|\b(?:data|numbers|figures|matches|evidence) (?:can't|won't|don't"
    r"|do not)"
    r"|\bwithin the (?:noise|margin|swing)|\bnor can\b|\bimpossible to\b|\bopen question\b"
    r"|\bby chance\b|\bthe noise\b|\bno sure\b|\bnot a verdict\b|\bcall it either way\b"
    r"|\bwithout being able\b|\bcan only guess\b|\bguess\b|\banyone's guess\b|\bestimate only\b"
)
_DENIED = re.compile(
    r"n't\b|\bnot\b|\bno\b|\bnone\b|\bnever\b|\bnobody\b|\bnothing\b|\bneither\b|\bcannot\b"
    r"|\bwithout\b"
    r"|\bwhether\b|\bif\b|\bunless\b|\bmyth\b|\bwrong\b|\brather than\b"
)
_OTHERS = re.compile(
    r"\b(?:people|they|some|fans|folk|everyone|everybody|many|critics|pundits|you|coaches|players"
    r"|captains|spinners|others|the theory|the story|the claim|the idea|the temptation|legend)"
    r"(?:'(?:ll|d|ve|re))?(?: \w+){0,3} (?:say|says|said|claim|claimed|claims|think|thought"
    r"|believe|reckon|argue"
    r"|hear|heard"
    r"|is|goes|told|tell|insist|swear|assume|blame|want)\b|\bit's (?:said|claimed|tempting)"
    r"|\btempting|\b(?:easy|nice|love|like|good) to (?:say|tell|think|believe|blame)\b"
    r"|\btemptation\b|\bsupposed\b|\bsupposedly\b|\bso-called\b|\ballegedly\b"
)
_QUOTED = re.compile(r"“[^”]*”|\"[^\"]*\"")


def plain(text: str) -> str:
    """In lower case with straight apostrophes, as patterns read it; as long as the text is."""
    return text.lower().replace("’", "'").replace("‘", "'")


# Of what is not asked: 'we can't say why' leaves the change itself as it was said.
_OF_WHY = re.compile(
    r"^(?:n't)?(?: (?:say|tell|know|prove|exactly|really|quite|sure|clear|you|us|about|just))*"
    r" (?:why|how come|what (?:made|caused|did|drove|explains|lies|is behind|was behind)|who"
    r"|whose|the (?:reason|cause))\b"
)
_MAY = re.compile(r"^(?:perhaps|maybe|possibly|probably|may|might|could|if|we think)\b")
_OF_IT = re.compile(
    r"\b(?:it|it's|that|that's|they|those|neither|either|nothing|none|luck|chance|noise|swings?"
    r"|changes?|gap|difference|fall|rise|drop|step|drift|trend|same|so|not|numbers?|figures?"
    r"|data)\b|\bthis (?:is|was|may|might|could|one)\b"
)
_FEW = 3  # words of an aside: 'perhaps', 'or maybe not'


def holds_back(text: str, is_named: Callable[[int, int], bool]) -> bool:
    """Whether a caution of a text is about what it says, and not about why or of another thing.

    `is_named` tells whether something of the topic is named between two characters.
    """
    told = plain(text)
    for match in CAUTION.finditer(told):
        begins = max(told.rfind(sign, 0, match.start()) for sign in ":;—") + 1
        ends = min((at for sign in ":;—" if (at := told.find(sign, match.end())) > 0),
                   default=len(told))  # fmt: skip
        if _OF_WHY.search(told[match.end() : ends]):
            continue
        piece = told[begins:ends]
        own = not _MAY.match(match.group()) or len(piece.split()) <= _FEW
        if own or _OF_IT.search(piece) or is_named(begins, ends):
            return True
    return False


def is_cautious(text: str) -> bool:
    return bool(CAUTION.search(plain(text)))


def is_question(text: str) -> bool:
    return text.rstrip(" ”\"')").endswith("?")


def is_held_back(text: str, begins: int) -> bool:
    """Whether what begins here is denied, asked, doubted, quoted or what others say."""
    told = plain(text)
    before = told[:begins]
    clause = re.split(r"[:;.] ", before)[-1]
    if _DENIED.search(clause[-60:]) or _OTHERS.search(before):
        return True
    return any(m.start() <= begins < m.end() for m in _QUOTED.finditer(text))

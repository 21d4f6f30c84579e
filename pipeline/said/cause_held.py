"""What keeps a cause from being stated: it is denied, asked after, left open, or others' view."""

from __future__ import annotations

import re

from pipeline.said.cautious import is_doubted
from pipeline.said.word_lists import pattern

_DENIED = re.compile(r"\b(?:not|never|hardly|nothing)\b|n't\b")
_ASIDE = re.compile(  # ', not bowling,', 'a policy of not mowing'
    r",? (?:and )?(?:not|never)(?: just| only)? [^,.;]{1,30},"
    r"|\b(?:of|by|for) not \w+ing\b|\bnot to \w+"
)
_ASKED = re.compile(
    r"\b(?:ask\w*|wonder\w*|look\w* (?:at|into)|check\w*|test\w*|f(?:i|ou)nd out|knows?|see|shows?"
    r"|about|of) "
    r"(?:what|how|why|where|when) (?:\w+ )?$|\bwhatever (?:\w+ )?$"
    r"|(?<!fair )(?<!safe )\bto (?:say|claim|argue|suggest|conclude|think|believe) "
    r"(?:that )?(?:the )?$"
)
_COULD = re.compile(r"\b(?:could|might|may|would)(?: \w+)? $")
_OTHERS = (
    r"\b(?!(?:you|he|she)\b)(?:<doubts.tellers>|old \w+s|(?:anyone|anybody|whoever|those)(?: who)?)"
    r"(?:'(?:ll|d|ve|re))?"
    r"(?: (?!<finite_verbs>\b)\w+){0,5} <says_why>\b"
)


def is_denied(claim: str) -> bool:
    """Whether the words of a claim deny it; 'the captains, not the bowlers, did' states it."""
    return bool(_DENIED.search(_ASIDE.sub("", claim)))


def is_open(told: str, begins: int, ends: int) -> bool:
    """Whether it is doubted, asked after, or said by others."""
    before = told[:begins]
    return bool(
        _ASKED.search(before)
        or _COULD.search(before)
        or is_doubted(told, begins)
        or _is_left_open(told)
        or is_others_view(told, ends)
    )


def _is_left_open(told: str) -> bool:
    """'What it did is another matter', or it 'left them as they were'."""
    return bool(pattern(r"\b(?:<left_open>|<no_change>)\b", "causes").search(told))


def is_others_view(told: str, ends: int) -> bool:
    """'Plenty of coaches put it down to the weather': up to there it is theirs."""
    return bool(pattern(_OTHERS, "causes").search(told[:ends]))

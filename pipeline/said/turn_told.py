"""What is told of findings of their own: a turning point, and rates with the mix set aside."""

from __future__ import annotations

import re

from pipeline.contracts.finding import Finding, Rates, Turn
from pipeline.said.cautious import is_held_back, plain
from pipeline.said.sounded import Sounded
from pipeline.said.targets import WINDOW
from pipeline.said.topic_known import Known

_WHO_ASIDE = re.compile(
    r"\b(?:leav\w+|strip\w*|tak\w+|set\w*|hold\w*|keep\w*|put\w*)\b[^.;]{0,30}"
    r"\b(?:who (?:was |were |had )?(?:bowl|fac)\w+|the mix\b)"
)
_TURNED = re.compile(
    r"\bturned (?:in|between|around|round|after|at the start|there|then|for|with the|that)\b"
    r"|\bturned[.,;]|\b(?:turning|tipping) points? (?:was|were|came|is|fell|for|in|of|arrived)\b"
    r"|\b(?:the|a) (?:watershed|hinge|pivot) (?:was|came|is|fell|for|in|year|season)\b"
    r"|\bthe turn (?:in|for|of|came|was|is|at)\b"
    r"|\b(?:was|is|as|marks?|marked|being) (?:the|a) (?:turning point|watershed|hinge|pivot)\b"
)


def rates_of(text: str, known: Known) -> list[Finding]:
    """'Leave out who bowled, and it still fell': what is left of a change, with the mix aside."""
    aside = _WHO_ASIDE.search(plain(text))
    return [each for each in known.findings if isinstance(each, Rates)] if aside else []


def turn_of(text: str, heard: Sounded, known: Known) -> tuple[int, int, Finding] | None:
    """'It turned in 2017': a turning point that the data can't tell."""
    match = _TURNED.search(plain(text))
    turns = [each for each in known.findings if isinstance(each, Turn)]
    named = any(each.cut not in (WINDOW, "season") for each in heard.mentions)
    if not match or not named or is_held_back(text, match.start()):
        return None
    if not turns or any(each.verdict != "can't tell" for each in turns):
        return None
    return match.start(), match.end(), turns[0]

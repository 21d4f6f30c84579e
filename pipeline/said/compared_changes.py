"""'Spin fell more than pace did': changes of two groups compared, which only a gap can carry."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence, Set

from pipeline.contracts.finding import Gap
from pipeline.said.cautious import is_cautious, is_question, plain
from pipeline.said.meant import names_in
from pipeline.said.sounded import Sounded
from pipeline.said.targets import EVENT, OVERS, WHOLE, WINDOW
from pipeline.said.topic_known import Known

_CHANGE = (
    r"(?:f[ae]ll|fallen|rose|risen|rise|dropp?(?:ed)?|climb(?:ed)?|chang(?:ed|e)|mov(?:ed|e)|improved"
    r"|gain(?:ed|s)?|lost|lose|benefit(?:ed)?|went (?:up|down)|gone (?:up|down)|grew|shrank"
    r"|jump(?:ed)?"
    r"|came down|increas(?:ed|e)|decreas(?:ed|e)|slipped|suffered|paid|slid|got cheaper|cheapened"
    r"|crept up|declin(?:ed|e)|dip(?:ped)?|swing|swung|cut|step|fall|surg(?:ed|e)|(?:was|were"
    r"|got|been) hit|punished|squeezed|affected)"
)
_MORE = (
    r"(?:more|further|farther|faster|harder|less|steeper|quicker|twice as (?:much|far)|sharper"
    r"|three times as much|even more|far more|much more|by more|by less|as much)"
)
_SIZE = (
    r"(?:bigger|larger|smaller|steeper|greater|deeper|sharper|biggest|largest|steepest|sharpest)"
)
NO_GROUPS = (WINDOW, "season", "measure", "part", EVENT)
_OF_TWO = re.compile(r"\bof the (?:two|pair)\b|\bthan the other\b")
_PATTERNS = [
    re.compile(rf"\b{_CHANGE}\b[^.;]{{0,60}}?\b{_MORE}\b[^.;]{{0,40}}?\b(?:than|as)\b"),
    re.compile(rf"\b{_MORE} of (?:it|that|the fall|the rise) (?:than|was)\b"),
    re.compile(rf"\b{_SIZE}\b[^.;]{{0,25}}?\b{_CHANGE}\b[^.;]{{0,50}}?\b(?:than|for|was|of|came|belongs)\b"),
    re.compile(rf"\b{_CHANGE}\b[^.;]{{0,30}}\b(?:was|is) {_SIZE}\b[^.;]{{0,40}}?\bthan\b"),
    re.compile(
        r"\b(?:pulled (?:away|clear)|moved apart|drifted apart|grew apart|gap (?:widened"
        r"|narrowed|grew"
        r"|closed|opened|shrank|has widened|between)|(?:widened|narrowed|closed"
        r"|opened)(?: up)? the gap"
        r"|diverged|outpaced|outstripped|left \w+ (?:bowling )?behind|caught up)\b"
    ),
    re.compile(rf"\b{_CHANGE} (?:the )?(?:most|hardest|furthest|least)\b"),
    re.compile(r"\bmore than \w+ did\b"),
    re.compile(r"\b(?:dwarfs?|dwarfed|eclipses?|eclipsed|outdoes|outdid|exceeds?|exceeded)\b"),
    re.compile(
        r"\b(?:helps?|helped|suits?|suited|hurts?|affects?|affected|favou?rs?|favou?red|benefits?)\b"
        r"[^.;]{0,40}\bmore than\b"
    ),
]  # fmt: skip


def compared(
    text: str, heard: Sounded, carried: Mapping[str, Set[str]], known: Known
) -> re.Match[str] | None:
    """Where it is said that one group's change was the larger, which no finding carries."""
    told = _without_sizes(plain(text), heard)
    if (
        is_question(text)
        or is_cautious(text)
        or re.search(r"n't|\b(?:not|no|neither|nothing|nobody|hardly)\b", told)
    ):
        return None
    names = names_in(heard.mentions, 0, len(heard.tokens))
    groups = [cut for cut, values in names.items() if _are_groups(cut, values, known)]
    if not groups and _OF_TWO.search(told):
        groups = [cut for cut in names if cut not in (*NO_GROUPS, OVERS)]
    if not groups:
        return None
    for pattern in _PATTERNS:
        if match := pattern.search(told):
            return None if _is_carried(groups, names, carried, known) else match
    return None


def _without_sizes(told: str, heard: Sounded) -> str:
    """'less than one per cent' compares no groups."""
    for number in heard.numbers:
        if number.hedge:
            first = max(0, number.said.first - len(number.hedge.split()))
            begins, ends = heard.tokens[first].begins, heard.tokens[number.said.first].begins
            told = told[:begins] + "_" * (ends - begins) + told[ends:]
    return told


def _are_groups(cut: str, values: Set[str], known: Known) -> bool:
    """Two of a cut's values that are judged one by one."""
    return len(values) > 1 and cut not in NO_GROUPS


def _is_carried(
    groups: Sequence[str], names: Mapping[str, Set[str]], carried: Mapping[str, Set[str]],
    known: Known,
) -> bool:  # fmt: skip
    """Whether a gap that changed is one between these groups, in the overs that are named."""
    for target in known.changes:
        finding = target.finding
        if not isinstance(finding, Gap) or finding.verdict != "changed":
            continue
        named = names.get(OVERS, set()) - {WHOLE}
        overs = named or carried.get(OVERS) or set()
        own = target.names.get(OVERS)
        fits = own in overs if own else not named
        if target.between in groups and set(finding.sides) <= set(names[target.between]) and fits:
            return True
    return False

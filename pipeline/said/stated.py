"""A change, or that nothing changed, stated as a fact where the data can't tell."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence, Set

from pipeline.contracts.finding import Finding, Gap
from pipeline.said.cautious import holds_back, is_question
from pipeline.said.meant import meant, names_in
from pipeline.said.sounded import Sounded
from pipeline.said.targets import OVERS, WINDOW
from pipeline.said.terms import Mention
from pipeline.said.tokens import BREAKS, Token, joined
from pipeline.said.topic_known import Known
from pipeline.said.up_or_down import way_of_word

_JOINS = {"and", "while", "whereas", "but", "though", "although", "yet"}
_SAME = re.compile(
    r"\b(?:held|holds|hold|stayed|stays|stay|unchanged|steady|flat|stable|constant|remained|remains"
    r"|the same|no change|unmoved|stood still|level|standing still|unaffected|untouched|equal"
    r"|alike|no different|nothing happened|nothing changed|nothing moved|just as|as often"
    r"|as many|as before|identical|never moved|never changed)\b"
    r"|(?:n't|not|never) (?:really |actually )?(?:change|changed|move|moved|shift|budge|budged"
    r"|differ)"
)
_DID_NOT = re.compile(r"\b(?:(?:did|does|do) not|didn't|doesn't|don't)$")
_THAN_IT_WAS = re.compile(
    r"\b(?:lower|higher|more|less|fewer|cheaper|dearer|better|worse|tighter|slower|faster|quicker)"
    r"(?: \w+)? than (?:(?:it|they) (?:was|were|used|had)|before|at|inland|right|left|on the)\b"
)
_MOVED = re.compile(
    r"\b(?:changed|moved|improved|improves|shifted|suffered|got (?:better|worse|harder|easier"
    r"|cheaper)"
    r"|harder|easier|better|worse|paid for|benefited|profited|dried up|love|hate|faster|slower"
    r"|quicker|struggle|struggled|thrive|thrived|prosper|prospered|exploded|boomed|collapsed"
    r"|outscore|outscored|outperform|outperformed|cash in)\b"
)
# What tells of another thing than the change itself.
_OTHER = re.compile(
    r"\b(?:drift\w*|steps?|stepped|trend|had been|already|on its way|going into|heading|anywhere"
    r"|per"
    r" season|a season|each season|every season|could|would|should|used to|margin|less than|under"
    r"|smaller than|no more than|one of|numbers we|looked|season by season|year by year|all-time"
    r"|between|somewhere|we'd|i'd|you'd|they'd|it'd|nobody has|both times|sure to|played"
    r"|fewer than|with fewer|more than luck|next to|measured against|together)\b"
)
SHORT = 2  # tokens of a clause that only says which way
_OPEN = re.compile(r"\b(?:somewhere|anywhere|anything) (?:between|from)\b")


def stated(
    text: str, following: str, heard: Sounded, carried: Mapping[str, Set[str]], known: Known
) -> Iterator[tuple[int, int, Finding]]:
    """Where it is stated, in characters, and the finding that can't be told."""
    if is_question(text) or _is_open(text, heard) or _is_open(following, known.heard(following)):
        return
    tokens = heard.tokens
    if _OPEN.search(joined(tokens)) or _is_of_a_gap(heard, known):
        return
    of_other = False
    for begins, ends in clauses(tokens):
        said = joined(tokens[begins:ends])
        goes_on = of_other and ends - begins <= SHORT
        of_other = bool(_OTHER.search(said))
        if goes_on:
            continue  # 'the trend was one per cent a season, upwards'
        if ends == begins or _OTHER.search(said) or not _says(tokens, begins, ends, said):
            continue
        names = _names(heard.mentions, begins, ends)
        found = meant(names, carried, known) if names or carried else []
        if found and all(finding.verdict == "can't tell" for finding in found):
            yield tokens[begins].begins, tokens[ends - 1].ends, found[0]
            return


def _is_open(text: str, heard: Sounded) -> bool:
    """Whether a sentence says that what it names, or what was said before it, can't be told."""

    def named(begins: int, ends: int) -> bool:
        return any(begins <= heard.tokens[each.begins].begins < ends for each in heard.mentions)

    return holds_back(text, named)


def _is_of_a_gap(heard: Sounded, known: Known) -> bool:
    """Whether both groups of a gap are told of: their changes are what it is of."""
    names = names_in(heard.mentions, 0, len(heard.tokens))
    for target in known.changes:
        finding = target.finding
        if isinstance(finding, Gap):
            both = set(finding.sides) <= set(names.get(target.between, set()))
            if both and target.names.get(OVERS) in (None, *names.get(OVERS, ())):
                return OVERS not in names or OVERS in target.names
    return False


def _says(tokens: Sequence[Token], begins: int, ends: int, said: str) -> bool:
    if (
        _SAME.search(said)
        or _MOVED.search(said)
        or _DID_NOT.search(said)
        or _THAN_IT_WAS.search(said)
    ):
        return True
    return any(way_of_word(tokens, at) for at in range(begins, ends))


def clauses(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Stretches of tokens between commas, full stops and words that set one against another."""
    first = 0
    for at, token in enumerate(tokens):
        if token.text in BREAKS or token.text in _JOINS:
            yield first, at
            first = at + 1
    yield first, len(tokens)


def _names(mentions: Sequence[Mention], begins: int, ends: int) -> dict[str, Set[str]]:
    """Of the clause, with those before it in the sentence where it has none of a cut."""
    every = [each for each in mentions if each.cut != "season"]
    own = names_in(every, begins, ends)
    for each in every:
        if each.begins < begins and each.cut not in own and each.cut != WINDOW:
            own[each.cut] = each.values
    if not set(own) - {WINDOW, "overs"}:
        for each in every:
            if each.begins >= ends and each.cut not in own and each.cut != WINDOW:
                own[each.cut] = each.values
    return own

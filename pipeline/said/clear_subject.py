"""Whether a sentence says what its number is of, in words that nothing of the topic has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set

from pipeline.said.common_words import PRONOUNS, TALK, VERBS
from pipeline.said.number_table import LARGE, PARTS, SMALL, TIMES
from pipeline.said.tokens import BREAKS, Token
from pipeline.said.up_or_down import way_of_word

SHORT = 3  # letters: a word of no more says nothing by itself
_BEGINS_A_CLAUSE = {"and", "but", "which", "because", "so"}
_DETERMINERS = {"the", "their", "our", "his", "her", "its", "all", "those", "these", "your"}
# Where no signs are set, a clause is at its end before one of these.
_JOINS = {*_BEGINS_A_CLAUSE, *BREAKS, "i", "you", "we", "they", "he", "she", "it", "it's", "that's"}
_IN_A_SUBJECT = {*_DETERMINERS, "a", "an", "of", "at", "in", "on", "for", "by", "against", "with"}
# Verbs that are things where nobody who does them stands before.
_THINGS = {"catches", "drops", "scores", "averages", "totals", "draws", "calls", "losses", "sets"}
_ARTICLES = {"the", "a", "an", "average", "mean", "and", "but", "so", "our", "their", "its"}
_LEADS_ON = {"at", "in", "of", "on", "for", "during", "near", "is", "was", "are", "were", "sits"}
_LEADS_ON |= {"along", "by", "around", "stands", "stood", "runs", "reached"}
_CRICKET_WORDS = """
bowlers bowler batters batter batsmen sides side teams team players player grounds ground captains
overs over balls ball wickets wicket runs matches match games game innings season seasons change
difference effect economy rate rates shares part parts half fall rise move jump shift answer
figure figures number numbers cost price bill people everyone nobody bowling batting scoring cricket
verdict estimate interval range spread margin rest others those ways question questions
"""
_CRICKET = set(_CRICKET_WORDS.split())
# What facts have parts of, and what they have none of.
_BASES = {"balls", "ball", "deliveries", "bowling", "itself", "change", "fall", "work", "separates"}
_BASES |= {"overs", "it", "that", "comparisons", "ways", "bowlers", "batters", "players"}
_ENDS = {"in", "at", "on", "for", "by", "off", "with", "is", "was", ",", "."}
_QUANTITIES = {"more", "less", "fewer", "extra", "additional"}
_OTHER_BASES = {"runs", "wickets", "decisions", "catches", "matches", "games", "people"}
_OTHER_BASES |= {"teams", "sides", "points", "crowds", "innings", "reviews", "captains"}
_OTHER_BASES |= {"them", "us", "fans", "members", "clubs", "grounds", "tickets", "money", "wins"}
HEAD = 3  # tokens from the begin of a clause to its first noun
_LIGHT = {*TALK, *VERBS, *PRONOUNS, *SMALL, *LARGE, *PARTS, *TIMES}


def has_subject(
    tokens: Sequence[Token], spans: Sequence[tuple[int, int]], piece: tuple[int, int], ends: int,
    named: Sequence[tuple[int, int]] = (), signs: bool = True,
) -> bool:  # fmt: skip
    """Whether a thing that nothing of the topic names is what a number is of.

    It stands before the verb of the number's clause, of the one before where that has none, or
    right after the number; what else a sentence says ('on the graphic') is no subject of it.
    `spans` are the numbers with their units, `ends` is where this one's end; `named` is what names
    of the topic take up. Without `signs` a sentence may be several, of which the last one counts.
    """
    inside = {at for begins, last in spans for at in range(begins, last)}
    told = {at for begins, last in named for at in range(begins, last)}
    if _is_counted(tokens, ends, inside | told):
        return True
    if not signs:
        first = next((begins for begins, last in spans if last == ends), ends)
        return _is_of_a_thing(tokens, _begins_at(tokens, first, inside, told), first, inside, told)
    clauses = [each for each in _clauses(tokens) if each[0] < piece[1]]
    return any(_is_of_a_thing(tokens, begins, last, inside, told) for begins, last in clauses)


def _is_counted(tokens: Sequence[Token], at: int, inside: Set[int]) -> bool:
    """'Seventeen umpires', 'half the captains', 'ninety per cent of statistics'."""
    at += at < len(tokens) and tokens[at].text == "of"
    at += at < len(tokens) and tokens[at].text in _DETERMINERS
    if at >= len(tokens) or at in inside or _is_past(tokens[at].text):
        return False
    return _says_what(tokens, at)


def _is_of_a_thing(
    tokens: Sequence[Token], begins: int, ends: int, inside: Set[int], named: Set[int]
) -> bool:
    led = False
    for at in range(begins, ends):
        text = tokens[at].text
        if text in _THINGS and not led:
            return True
        if text in VERBS or at in inside or (led and _is_past(text)):
            return False
        led = led or (tokens[at].kind == "word" and text not in {*SMALL, *_ARTICLES})
        if at not in named and _says_what(tokens, at):
            return True
    return False


def _begins_at(tokens: Sequence[Token], first: int, inside: Set[int], named: Set[int]) -> int:
    """Where no signs are: the first word of what stands before a number's verb.

    It is behind the verb before that one, a word that joins clauses, or one that no subject has.
    """
    nouns = things = False
    for at in range(first - 1, -1, -1):
        text = tokens[at].text
        if at in inside or text in _JOINS:
            return at + 1
        if text in VERBS or _is_past(text) or way_of_word(tokens, at):
            if nouns:
                return at + 1
        elif at in named:
            nouns = True
        elif _says_what(tokens, at):
            nouns = things = True
        elif nouns and not things and text in TALK and text not in _IN_A_SUBJECT:
            return at + 1
    return 0


def _is_past(word: str) -> bool:
    return len(word) > 4 and word.endswith("ed")


def is_part_of_others(
    tokens: Sequence[Token], ends: int, named: Sequence[tuple[int, int]] = ()
) -> bool:
    """Whether a part is one of what no fact has parts of: 'ten per cent of their runs'.

    So is a number of what is said right after it: 'nine per cent less water'.
    """
    if ends >= len(tokens):
        return False
    told = {at for begins, last in named for at in range(begins, last)}
    if ends not in told and _is_thing(tokens, ends):
        return True  # 'eighty per cent humidity'
    if tokens[ends].text in _QUANTITIES:
        return ends + 1 not in told and _is_thing(tokens, ends + 1)
    if tokens[ends].text != "of":
        return False
    for at in range(ends + 1, min(ends + 5, len(tokens))):
        if tokens[at].text in _BASES or tokens[at].text in _ENDS or at in told:
            return False
        if tokens[at].text in _OTHER_BASES or _is_thing(tokens, at):
            return True
    return False


def _is_thing(tokens: Sequence[Token], at: int) -> bool:
    """A noun of which there is more or less, and that is neither cricket's nor a way to talk."""
    if at >= len(tokens) or not _says_what(tokens, at) or tokens[at].text in _CRICKET:
        return False
    following = tokens[at + 1].text if at + 1 < len(tokens) else ""
    return not tokens[at].text.endswith(("ing", "er", "ive")) and following != "than"


def has_other_head(
    tokens: Sequence[Token], named: Sequence[tuple[int, int]], piece: tuple[int, int]
) -> bool:
    """Whether a clause begins with a noun that nothing has: 'humidity at inland grounds'.

    `named` are what the topic's names and parts take up.
    """
    for at in range(piece[0], min(piece[1], piece[0] + HEAD)):
        if any(begins <= at < ends for begins, ends in named):
            return False
        if _says_what(tokens, at):
            text = tokens[at + 1].text if at + 1 < piece[1] else ""
            return text in _LEADS_ON and tokens[at].text not in _CRICKET
        if tokens[at].text not in _ARTICLES:
            return False
    return False


def _says_what(tokens: Sequence[Token], at: int) -> bool:
    token = tokens[at]
    return (
        token.kind == "word"
        and len(token.text) > SHORT
        and token.text not in _LIGHT
        and not token.text.endswith("ly")
        and not way_of_word(tokens, at)
    )


def _clauses(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    first = 0
    for at, token in enumerate(tokens):
        if token.text in BREAKS or token.text in _BEGINS_A_CLAUSE:
            yield first, at
            first = at + (token.text in BREAKS)
    yield first, len(tokens)

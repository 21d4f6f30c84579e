"""Names that nothing of a topic has: a player, a ground or a side that no fact is about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set

from pipeline.said.no_statistic import MONTHS
from pipeline.said.number_table import DIGITS, SMALL
from pipeline.said.terms import Mention
from pipeline.said.tokens import BREAKS, Token
from pipeline.said.up_or_down import DRIVES, GOES, way_of_word

CUT = "bowler"
_DAYS = (
    "monday tuesday wednesday thursday friday saturday sunday i i'm i'd i'll i've mr mrs ok okay"
)
_KNOWN = {*MONTHS, *_DAYS.split(), *SMALL, *DIGITS, "cricket", "cup", "league"}
# What a player does, as the first word of a sentence is followed by it.
_DOES = {"went", "goes", "conceded", "bowled", "took", "averaged", "leaked", "finished", "scored"}
_DOES |= {"bowls", "concedes", "averages", "takes", "hit", "made", "came"}
_NO_NAME_WORDS = """
a an the any every few fewer more no not with without for from to of by into out up down over
under about around between such very too also next later earlier than those across off it that
this these they he she we you who which what nobody everybody everyone everything nothing
something someone there and but so then both each all none one some many most another batting
bowling scoring economy people sides cricket captain captains let here how where why now half
still even only just in at on if when while as after before since things teams runs wickets
"""
_NO_NAME = set(_NO_NAME_WORDS.split())


def strangers(
    text: str, tokens: Sequence[Token], known: Set[str], mentions: Sequence[Mention]
) -> Iterator[Mention]:
    """Words with a capital in a text that is not all capitals; `known` are the topic's own."""
    named = {at for each in mentions for at in range(each.begins, each.ends)}
    for at, token in enumerate(tokens):
        written = text[token.begins : token.ends]
        if token.kind != "word" or at in named or not written[:1].isupper():
            continue
        word = token.text
        if word in known or word in _KNOWN or (written.isupper() and len(written) > 1):
            continue
        if len(written) > 1 and (_is_inside(text, tokens, at) or _begins(tokens, at, written)):
            yield Mention(at, at + 1, CUT, frozenset({f"?{word}"}))


def _is_inside(text: str, tokens: Sequence[Token], at: int) -> bool:
    """Whether it stands inside a sentence, where only names have capitals."""
    if at == 0 or tokens[at - 1].text in (BREAKS - {","}):
        return False
    return text[tokens[at].begins - 1 : tokens[at].begins] == " " and tokens[at - 1].text not in (
        "“", '"', "”",
    )  # fmt: skip


def _begins(tokens: Sequence[Token], at: int, written: str) -> bool:
    """The first word, where it is followed by what a player does."""
    if written.lower() in DRIVES | GOES:
        return False  # 'Nudged up to six, that'
    if at or written.lower() in _NO_NAME or written.endswith(("s", "ing")):
        return written.endswith(("’s", "'s")) and not at and written.lower()[:-2] not in _NO_NAME
    return at + 1 < len(tokens) and (
        tokens[at + 1].text in _DOES or way_of_word(tokens, at + 1) != 0
    )

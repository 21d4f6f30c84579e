"""Whether a sentence says what its number is of, in words that nothing of the topic has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pipeline.said.number_table import LARGE, PARTS, SMALL, TIMES
from pipeline.said.tokens import BREAKS, Token
from pipeline.said.up_or_down import way_of_word

SHORT = 3  # letters: a word of no more says nothing by itself
_LIGHT_WORDS = """
about again almost already altogether around back been before after being between both came come
comes could does done down each even every exactly figure figures from give given gives goes gone
going half have having here it's just keep kind know less like little look looking looks made make
makes maybe mean means more most much nearly number numbers often only over overall perhaps point
possibly quite rather really right roughly said same says since some something still stood stands
sure take taken takes talking tell than that that's their them then there there's these they they're
thing think this those times today told total under upon very want we're well went were what what's
which while will with would year yes you'd your yours actually and per cent percent points runs
over overs balls then another ends ended end goes sits sitting puts comes close somewhere anyway
between around call called into isn't wasn't don't can't didn't we've you've they've got where when
leave leaves left believe reckon suppose guess promise swear hold holds hear heard remember notice
wonder wondered surprise surprised surprising expect expected worth plus minus times round count
counts counted makes reads read seem seems seemed look looked turn turns turned work works worked
find found show shows showed prove feel felt write note carry keep kept bring brings brought start
started finish finished begin began ready enough honestly frankly anyhow okay right wrong nice good
great lovely fine huge tiny small large massive whopping decent modest sharp steep clear plain odd
strange funny interesting remarkable extraordinary nothing everything anything nobody everybody
everyone somebody folks friends ladies gentlemen please thanks thank sorry hello welcome evening
morning first second third last next final final answer result value size amount sort thing things
bottom line chart screen slide graph table page front earlier later afterwards meanwhile instead
also even ever never always sometimes usually mostly mainly merely simply because though although
however therefore unless until without within across along above below beyond near maybe wait hang
wouldn't couldn't shouldn't won't hadn't hasn't haven't weren't aren't that'd that'll it'd it'll
bear mind head tail eyes here again true truth indeed course else same different exact fact facts
"""
# Who is no subject of a number: what they think of it is said beside it.
_SPEAKERS = {
    "i",
    "i'm",
    "i'll",
    "i'd",
    "i've",
    "me",
    "my",
    "you",
    "you're",
    "you'll",
    "you'd",
    "your",
}
_SPEAKERS |= {"you've", "we", "we're", "we'll", "we've", "us", "our", "which", "who", "let's"}
_JOINS = {"and", "but", "which", "because", "so"}
_ARTICLES = {"the", "a", "an", "average", "mean", "and", "but", "so", "our", "their", "its"}
_LEADS_ON = {"at", "in", "of", "on", "for", "during", "near", "is", "was", "are", "were", "sits"}
_LEADS_ON |= {"inland", "along", "by", "around", "stands", "stood", "runs", "reached"}
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
_OTHER_BASES = {"runs", "wickets", "decisions", "catches", "matches", "games", "time", "people"}
_OTHER_BASES |= {"teams", "sides", "points", "crowds", "innings", "reviews", "captains"}
_OTHER_BASES |= {"them", "us", "fans", "members", "clubs", "grounds", "tickets", "money", "wins"}
HEAD = 3  # tokens from the begin of a clause to its first noun
_LIGHT = {*_LIGHT_WORDS.split(), *SMALL, *LARGE, *PARTS, *TIMES}


def has_subject(
    tokens: Sequence[Token], spans: Sequence[tuple[int, int]], piece: tuple[int, int]
) -> bool:
    """`spans` are the numbers with their units; the others' clauses count where nobody speaks."""
    inside = {at for begins, ends in spans for at in range(begins, ends)}
    for begins, ends in _clauses(tokens):
        own = begins < piece[1] and piece[0] < ends
        words = {token.text for token in tokens[begins:ends]}
        if (own or not words & _SPEAKERS) and any(
            at not in inside and _says_what(tokens, at) for at in range(begins, ends)
        ):
            return True
    return False


def is_of_others(tokens: Sequence[Token], ends: int) -> bool:
    """Whether a part is one of what no fact has parts of: 'ten per cent of their runs'."""
    if ends >= len(tokens) or tokens[ends].text != "of":
        return False
    for token in tokens[ends + 1 : ends + 5]:
        if token.text in _BASES or token.text in _ENDS:
            return False
        if token.text in _OTHER_BASES:
            return True
    return False


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
        if token.text in BREAKS or token.text in _JOINS:
            yield first, at
            first = at + (token.text in BREAKS)
    yield first, len(tokens)

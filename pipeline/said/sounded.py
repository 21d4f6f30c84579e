"""A sentence taken apart: its numbers with all that goes with them, and what it names."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass, replace
from typing import NamedTuple

from pipeline.said.clear_subject import has_other_head, has_subject, is_part_of_others
from pipeline.said.corrected import withdrawn
from pipeline.said.mentions_said import mentions_of, of_no_unit
from pipeline.said.number_heard import Heard, apart, as_before, heard_at
from pipeline.said.pairs import Pair, pairs_of
from pipeline.said.pieces import Piece, Place, is_in, pieces_of
from pipeline.said.read_numbers import read
from pipeline.said.said_beside import (
    is_dated,
    is_of_somebody,
    is_set_against,
    of_money,
    rivals_of,
    without_groups,
)
from pipeline.said.shared_units import share_units
from pipeline.said.sides_said import with_sides
from pipeline.said.subjects import MEASURE, named_for
from pipeline.said.targets import WINDOW
from pipeline.said.terms import Mention, Terms
from pipeline.said.tokens import BREAKS, Token, tokens_of
from pipeline.said.units import PER_CENT, POINTS
from pipeline.said.which_way import is_difference, is_move, way_of

_LASTS = {"minutes", "hours", "days", "weeks", "months", "seconds"}
_OF_WHAT_WITHIN = 6  # tokens after a part in which it is said of what
_BOWLED = {"overs", "balls", "deliveries", "bowling"}


@dataclass(frozen=True)
class Sounded:
    """A sentence taken apart."""

    tokens: Sequence[Token]
    mentions: Sequence[Mention]
    parts: Sequence[Mention]
    numbers: Sequence[Heard]
    signs: bool = True  # tell where it begins and ends


class _Sentence(NamedTuple):
    """What holds for all numbers of a sentence.

    `named` are the tokens of names that are known, `spans` those of numbers but for odds.
    """

    mentions: Sequence[Mention]
    parts: Sequence[Mention]
    named: Sequence[tuple[int, int]]
    spans: Sequence[tuple[int, int]]
    units: frozenset[str]
    every_part: frozenset[str]
    of_balls: frozenset[str]
    signs: bool
    told: Sequence[Token]  # without the names of groups, which go nowhere: 'up country'
    rivals: frozenset[str]  # cuts of which two groups are named


def sounded(
    text: str, terms: Terms, parts: Terms, overs: int | None, names: Set[str] = frozenset(),
    year: int | None = None, signs: bool = True,
) -> Sounded:  # fmt: skip
    """`names` are the topic's own words with a capital; others are names of strangers.

    `year` is that of the event, by which 'since 2017' says which window is meant.
    `signs`: they tell where it begins and ends; else it may be several.
    """
    tokens = tokens_of(text)
    found = read(tokens)
    mentions = mentions_of(text, tokens, found, terms, overs, names, year)
    named = [(each.begins, each.ends) for each in mentions if each.cut not in (WINDOW, "season")]
    numbers = as_before(tokens, apart([heard_at(tokens, each, named) for each in found]))
    mentions = of_no_unit(mentions, numbers)
    of_parts = parts.mentions(tokens)
    numbers = _in_their_clauses(tokens, share_units(tokens, numbers), mentions, of_parts, signs)
    numbers = [of_money(text, tokens, each) for each in with_sides(tokens, numbers)]
    return Sounded(tokens, mentions, of_parts, numbers, signs)


def _in_their_clauses(
    tokens: Sequence[Token],
    numbers: Sequence[Heard],
    mentions: Sequence[Mention],
    parts: Sequence[Mention],
    signs: bool,
) -> list[Heard]:
    """Each number with what its clause says of it."""
    spans = [(each.said.first, each.ends) for each in numbers]
    pairs, gone = pairs_of(tokens, numbers), withdrawn(tokens, spans)
    pieces = pieces_of(tokens, spans, pairs)
    ours = [each for each in mentions if not any(v.startswith("?") for v in each.values)]
    sentence = _Sentence(
        mentions=mentions,
        parts=parts,
        named=[(each.begins, each.ends) for each in (*ours, *parts)],
        spans=[(each.said.first, each.ends) for each in numbers if each.said.form != "odds"],
        units=frozenset(each.unit for each in numbers if each.unit and each.own_unit),
        every_part=_parts_in(parts, (0, len(tokens))),
        of_balls=frozenset().union(*(_of_the_balls(tokens, each) for each in numbers)),
        signs=signs,
        told=without_groups(tokens, ours),
        rivals=rivals_of(tokens, ours),
    )
    told = [
        _in_its_clause(Place(at, numbers, pieces, tokens), sentence, pairs[at], gone[at])
        for at in range(len(numbers))
    ]
    return [_apart(each, told) for each in told]


def _in_its_clause(place: Place, of: _Sentence, pair: Pair | None, gone: bool) -> Heard:
    """One number with what its clause says of it; `gone` where it is taken back."""
    tokens, at, each, piece = place.tokens, place.at, place.number, place.piece
    way, denied = way_of(of.told, each, piece, place.numbers, at, pair)
    thing = has_subject(tokens, of.spans, piece, each.ends, of.named, of.signs)
    return replace(
        each,
        plain=each.plain and not (thing and _is_how_long(tokens, each)),
        is_move=is_move(tokens, each),
        is_difference=is_difference(tokens, each),
        units=of.units,
        of_something=thing,
        set_against=at > 0 and is_set_against(tokens, place.numbers[at - 1], each),
        other_head=has_other_head(tokens, of.named, piece),
        rivals=of.rivals,
        dated=is_dated(place, of.mentions),
        of_somebody=is_of_somebody(place, of.mentions),
        of_others=is_part_of_others(tokens, each.ends, of.named),
        pair=pair,
        withdrawn=gone,
        way=way,
        denied=denied,
        piece=piece,
        names=named_for(at, place.numbers, of.mentions, place.pieces, tokens),
        parts=_parts_in(of.parts, piece) | _of_the_balls(tokens, each),
        all_parts=_all_parts(place, of),
    )


def _all_parts(place: Place, of: _Sentence) -> frozenset[str]:
    """Those of the sentence; a share is one of the balls too where any of its numbers is."""
    each = place.number
    measured = any(m.cut == MEASURE and is_in(m, place.piece) for m in of.mentions)
    shared = each.unit == PER_CENT and (each.own_unit or not measured)
    return of.every_part | of.of_balls if shared else of.every_part


def _apart(each: Heard, told: Sequence[Heard]) -> Heard:
    """Two numbers of two groups are no spread: '11.6 per cent to 6.9' of spin and of pace."""
    pair = each.pair
    if pair is None or not pair.spread:
        return each
    one, two = told[pair.first].names, told[pair.last].names
    differ = any(one[cut].values != two[cut].values for cut in one if cut in two)
    if differ:
        return replace(each, pair=None)
    ends = sorted(abs(told[at].said.value) for at in (pair.first, pair.last))
    return replace(each, between=(ends[0], ends[1]))


def _is_how_long(tokens: Sequence[Token], each: Heard) -> bool:
    """'The ferry takes forty minutes': of a thing, and not of the show."""
    at = each.said.last
    return at < len(tokens) and tokens[at].text in _LASTS


def _of_the_balls(tokens: Sequence[Token], each: Heard) -> frozenset[str]:
    """'64.5 per cent of the middle overs': a share, whoever bowled it."""
    part = each.unit in (PER_CENT, POINTS) or each.said.form in ("share", "odds")
    at = each.ends
    if not part or at >= len(tokens) or tokens[at].text != "of":
        return frozenset()
    words = [token.text for token in tokens[at + 1 : at + _OF_WHAT_WITHIN]]
    ends = next((place for place, word in enumerate(words) if word in BREAKS), len(words))
    of_balls = _BOWLED & set(words[:ends]) and not {"runs", "wickets"} & set(words[:ends])
    return frozenset({"share"}) if of_balls else frozenset()


def _parts_in(parts: Sequence[Mention], piece: Piece) -> frozenset[str]:
    return frozenset(value for each in parts if is_in(each, piece) for value in each.values)

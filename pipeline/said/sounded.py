"""A sentence taken apart: its numbers with all that goes with them, and what it names."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass, replace

from pipeline.said.clear_subject import has_other_head, has_subject, is_of_others
from pipeline.said.corrected import withdrawn
from pipeline.said.no_statistic import MONTHS
from pipeline.said.number_heard import Heard, apart, as_before, heard_at
from pipeline.said.pairs import pairs_of
from pipeline.said.read_numbers import Said, read
from pipeline.said.shared_units import share_units
from pipeline.said.sides_said import with_sides
from pipeline.said.strangers import strangers
from pipeline.said.stretches import stretches
from pipeline.said.subjects import Piece, named_for, pieces_of
from pipeline.said.targets import OVERS, WINDOW
from pipeline.said.terms import Mention, Terms
from pipeline.said.tokens import Token, tokens_of
from pipeline.said.which_way import is_difference, is_move, way_of

_AGAINST = {"on", "than"}  # 'up seven per cent on before': is of what is after
_IN_A_YEAR = {"season", "seasons", "figure", "number", "value", "average", "run", "rate", "death"}
_ANY_RATE = {"economy", "run_rate"}
_OFF = ["away", "from"]  # is of no side, unless more is said: 'away from home'


@dataclass(frozen=True)
class Sounded:
    """A sentence taken apart."""

    tokens: Sequence[Token]
    mentions: Sequence[Mention]
    parts: Sequence[Mention]
    numbers: Sequence[Heard]


def sounded(
    text: str, terms: Terms, parts: Terms, overs: int | None, names: Set[str] = frozenset()
) -> Sounded:
    """`names` are the topic's own words with a capital; others are names of strangers."""
    tokens = tokens_of(text)
    found = read(tokens)
    mentions = [*terms.mentions(tokens), *stretches(tokens, overs, terms.values(OVERS))]
    mentions += [*_seasons(tokens, found, mentions), *strangers(text, tokens, names, mentions)]
    mentions = _unmasked(tokens, sorted(mentions))
    named = [(each.begins, each.ends) for each in mentions if each.cut not in ("window", "season")]
    numbers = as_before(tokens, apart([heard_at(tokens, each, named) for each in found]))
    mentions = _without_verbs(_of_no_unit(mentions, numbers))
    of_parts = parts.mentions(tokens)
    numbers = _in_their_clauses(tokens, share_units(tokens, numbers), mentions, of_parts)
    return Sounded(tokens, mentions, of_parts, with_sides(tokens, numbers))


def _in_their_clauses(
    tokens: Sequence[Token],
    numbers: Sequence[Heard],
    mentions: Sequence[Mention],
    parts: Sequence[Mention],
) -> list[Heard]:
    """Each number with what its clause says of it."""
    spans = [(each.said.first, each.ends) for each in numbers]
    pairs, gone = pairs_of(tokens, numbers), withdrawn(tokens, spans)
    pieces = pieces_of(tokens, spans, pairs)
    named = [(each.begins, each.ends) for each in (*mentions, *parts)]
    units = frozenset(each.unit for each in numbers if each.unit and each.own_unit)
    told = []
    apart_of = [(each.said.first, each.ends) for each in numbers if each.said.form != "odds"]
    for at, each in enumerate(numbers):
        way, denied = way_of(tokens, each, pieces[at], numbers, at, pairs[at])
        told.append(
            replace(
                each,
                is_move=is_move(tokens, each),
                is_difference=is_difference(tokens, each),
                units=units,
                of_something=has_subject(tokens, apart_of, pieces[at]),
                set_against=at > 0 and _is_set_against(tokens, numbers[at - 1], each),
                other_head=has_other_head(tokens, named, pieces[at]),
                of_others=is_of_others(tokens, each.ends),
                pair=pairs[at],
                withdrawn=gone[at],
                way=way,
                denied=denied,
                piece=pieces[at],
                names=named_for(at, numbers, mentions, pieces),
                parts=_parts_in(parts, pieces[at]),
                all_parts=_parts_in(parts, (0, len(tokens))),
            )
        )
    return told


def _is_set_against(tokens: Sequence[Token], one: Heard, two: Heard) -> bool:
    """Whether nothing but 'against' stands between two numbers."""
    between = [token.text for token in tokens[one.ends : two.said.first] if token.text != ","]
    return between in (["against"], ["versus"], ["v"], ["to"], ["compared", "with"])


def _of_no_unit(mentions: Sequence[Mention], numbers: Sequence[Heard]) -> list[Mention]:
    """Without the measures that a unit's own words would name: 'runs a wicket'."""
    inside = [(each.said.last, each.ends) for each in numbers]
    kept = [
        each
        for each in mentions
        if each.cut != "measure" or not any(b <= each.begins < e for b, e in inside)
    ]
    if any(each.cut == "measure" for each in kept):
        return kept
    return [each for each in mentions if each in kept or len(each.values) == 1]


def _without_verbs(mentions: Sequence[Mention]) -> list[Mention]:
    """Without 'goes for', which any rate does, where a measure is named besides."""
    rates = [each for each in mentions if each.cut == "measure" and each.values == _ANY_RATE]
    others = any(each.cut == "measure" and each not in rates for each in mentions)
    return [each for each in mentions if each not in rates or not others]


def _unmasked(tokens: Sequence[Token], mentions: Sequence[Mention]) -> list[Mention]:
    """Without the names that a longer one has in it: 'spin' of 'finger spin'."""
    return [
        each
        for each in mentions
        if not any(_is_within(each, other) for other in mentions)
        and not (each.cut == WINDOW and each.begins and tokens[each.begins - 1].text in _AGAINST)
        and not (
            each.cut == "home" and [t.text for t in tokens[each.begins : each.ends + 1]] == _OFF
        )
    ]


def _is_within(each: Mention, other: Mention) -> bool:
    longer = other.ends - other.begins > each.ends - each.begins
    return longer and other.begins <= each.begins and each.ends <= other.ends


def _parts_in(parts: Sequence[Mention], piece: Piece) -> frozenset[str]:
    return frozenset(
        value for each in parts if piece[0] <= each.begins < piece[1] for value in each.values
    )


def _seasons(
    tokens: Sequence[Token], found: Sequence[Said], mentions: Sequence[Mention]
) -> list[Mention]:
    """A year that is named by itself is a season; with 'since' or 'before' it is a window."""
    told: list[Mention] = []
    for said in found:
        if said.form != "year":
            continue
        before = tokens[said.first - 1].text if said.first else ""
        after = tokens[said.last].text if said.last < len(tokens) else ""
        in_window = any(m.cut == "window" and m.ends >= said.first - 2 and m.begins < said.first
                        for m in mentions)  # fmt: skip
        if in_window or after in ("to", "-", "–", "onwards", "on") or before in ("to", "-", "–"):
            continue
        if before == "the" and after.isalpha() and after not in _IN_A_YEAR:
            continue  # 'the 2017 rule change'
        if before not in MONTHS:
            year = frozenset({str(int(said.value))})
            told.append(Mention(said.first, said.last, "season", year))
    return told

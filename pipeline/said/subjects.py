"""What a number is about: the names in its clause, else those before it, else those after it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from pipeline.said.targets import EVENT, WINDOW
from pipeline.said.terms import Mention
from pipeline.said.tokens import BREAKS, Token

if TYPE_CHECKING:
    from pipeline.said.number_heard import Heard
    from pipeline.said.pairs import Pair

CLAUSE, EARLIER, LATER, CARRIED = range(4)
_JOINS = {"and", "but", "while", "whereas", "though", "although", "against", "yet", "or", "then"}
_JOINS |= {"compared", "versus", "than"}
MEASURE = "measure"
BESIDE = 1  # tokens from a name to the number that it leads to, past a comma
Piece = tuple[int, int]


class Named(NamedTuple):
    """Values of a cut that it may be about, and from how far away it has them."""

    values: frozenset[str]
    level: int


def pieces_of(
    tokens: Sequence[Token], spans: Sequence[tuple[int, int]], pairs: Sequence[Pair | None]
) -> list[Piece]:
    """Of each number the clause that it stands in; both of a pair have the same one."""
    inside = {at for begins, ends in spans for at in range(begins, ends)}
    bound = set()
    for at, pair in enumerate(pairs):
        if pair and pair.at == 0 and at + 1 < len(spans):
            bound |= set(range(spans[at][1], spans[at + 1][0]))
    cuts = [
        at
        for at, token in enumerate(tokens)
        if (token.text in BREAKS or token.text in _JOINS) and at not in inside and at not in bound
    ]
    found = []
    for begins, ends in spans:
        first = max((at for at in cuts if at < begins), default=-1) + 1
        last = min((at for at in cuts if at >= ends), default=len(tokens))
        found.append((first, last))
    return found


def named_for(
    at: int, numbers: Sequence[Heard], mentions: Sequence[Mention], pieces: Sequence[Piece]
) -> Mapping[str, Named]:
    """By cut the nearest names of a number."""
    found: dict[str, Named] = {}
    for cut in dict.fromkeys(each.cut for each in mentions):
        own = [each for each in mentions if each.cut == cut]
        others = [each for each in mentions if each.cut not in (cut, WINDOW, EVENT, MEASURE)]
        if named := _nearest(own, numbers, at, pieces, _has_own(others, pieces[at])):
            found[cut] = named
    measure = found.get(MEASURE)
    if measure and measure.level == LATER and _is_of_another(at, numbers, mentions, pieces):
        del found[MEASURE]
    return found


def _is_of_another(
    at: int, numbers: Sequence[Heard], mentions: Sequence[Mention], pieces: Sequence[Piece]
) -> bool:
    """Whether a measure that follows is another number's: 'spin bowled 35 and conceded four'."""
    first = next(m for m in mentions if m.cut == MEASURE and m.begins >= pieces[at][1])
    led = any(m.ends <= numbers[at].said.first and m.cut != WINDOW for m in mentions)
    others = [piece for piece in pieces[at + 1 :] if piece != pieces[at]]
    return led and any(begins <= first.begins < ends for begins, ends in others)


def _nearest(
    own: Sequence[Mention], numbers: Sequence[Heard], at: int, pieces: Sequence[Piece],
    spoken_for: bool = False,
) -> Named | None:  # fmt: skip
    """`spoken_for`: its clause names what it is of by another cut."""
    number, piece = numbers[at], pieces[at]
    first, ends = number.said.first, number.ends
    here = [each for each in own if piece[0] <= each.begins < piece[1]]
    before = [each for each in here if each.ends <= first]
    behind = [each for each in here if each.begins >= number.said.last]
    following = numbers[at + 1].said.first if at + 1 < len(numbers) else 10**9
    near = [each for each in behind if each.begins < following]
    if near and before and (_is_taken(before[-1], own, numbers, at, pieces) or (
        near[0].begins - ends <= 2 and first - before[-1].ends > 4
    )):  # fmt: skip
        return Named(near[0].values, CLAUSE)
    if before or behind:
        return Named(_both(before[-1] if before else (near or behind)[0], own, numbers), CLAUSE)
    earlier = [each for each in own if each.begins < piece[0]]
    listed = len(earlier) > 1 and earlier[-1].begins - earlier[-2].ends <= 1
    if earlier and earlier[-1].cut == WINDOW and not listed:
        beside = first - earlier[-1].ends <= BESIDE  # 'after, four point one'
        return Named(earlier[-1].values, CLAUSE if beside else EARLIER)
    if earlier:
        return _earlier(earlier, own, numbers, at, pieces)
    later = [each for each in own if each.begins >= piece[1]]
    if later and spoken_for and _has_number(later[0], numbers, pieces, piece):
        return None
    alone = sum(not each.plain for each in numbers) == 1 and len({e.values for e in own}) == 1
    return Named(_both(later[0], own, numbers), EARLIER if alone else LATER) if later else None


def _has_number(
    mention: Mention, numbers: Sequence[Heard], pieces: Sequence[Piece], but: Piece
) -> bool:
    """Whether a name stands in the clause of another number, and before it."""
    return any(
        begins <= mention.begins < each.said.first < ends
        and not each.plain
        and (begins, ends) != but
        for each, (begins, ends) in zip(numbers, pieces, strict=True)
    )


def _is_taken(
    mention: Mention, own: Sequence[Mention], numbers: Sequence[Heard], at: int,
    pieces: Sequence[Piece],
) -> bool:  # fmt: skip
    """Whether a name between two numbers follows the first: 'seven after six before'."""
    if at == 0 or mention.begins < numbers[at - 1].ends:
        return False
    gap = mention.begins - numbers[at - 1].ends
    led = any(
        pieces[at - 1][0] <= each.begins and each.ends <= numbers[at - 1].said.first for each in own
    )
    return gap <= 2 and not led and pieces[at] == pieces[at - 1]


def _earlier(
    earlier: Sequence[Mention], own: Sequence[Mention], numbers: Sequence[Heard], at: int,
    pieces: Sequence[Piece],
) -> Named:  # fmt: skip
    """The last one named; of several in a row before several numbers each has its own."""
    last = max((each.ends for each in numbers[:at] if each.ends <= pieces[at][0]), default=0)
    row = [each for each in earlier if each.begins >= last]
    if len({each.values for each in row}) < 2:
        bare = [each for each in range(at) if numbers[each].said.first > earlier[-1].ends]
        several = [each for each in earlier if not _between(earlier, each, numbers)]
        if bare and len(several) > len(bare):
            return Named(several[len(bare)].values, CLAUSE)
        return Named(_both(earlier[-1], own, numbers), CLAUSE if row else EARLIER)
    run = [each for each in range(at, len(numbers)) if not _has_own(own, pieces[each])]
    if len(run) == len(row) > 1:
        return Named(row[0].values, CLAUSE)
    return Named(frozenset().union(*(each.values for each in row)), EARLIER)


def _between(earlier: Sequence[Mention], mention: Mention, numbers: Sequence[Heard]) -> bool:
    """Whether a number stands between a name and the last one that is named."""
    return any(mention.ends <= each.said.first < earlier[-1].begins for each in numbers)


def _has_own(own: Sequence[Mention], piece: Piece) -> bool:
    return any(piece[0] <= each.begins < piece[1] for each in own)


def _both(chosen: Mention, own: Sequence[Mention], numbers: Sequence[Heard]) -> frozenset[str]:
    """'pace and spin': names of one cut that stand together are all of them meant."""
    values = set(chosen.values)
    begins, ends = chosen.begins, chosen.ends
    inside = {at for each in numbers for at in range(each.said.first, each.said.last)}
    for each in reversed(own):
        if each.ends <= begins <= each.ends + 2 and not inside & set(range(each.ends, begins)):
            values, begins = values | each.values, each.begins
    for each in own:
        if ends <= each.begins <= ends + 2 and not inside & set(range(ends, each.begins)):
            values, ends = values | each.values, each.ends
    return frozenset(values)

"""What a number is about: the names in its clause, else those before it, else those after it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from pipeline.said.named_together import in_turn, named_together
from pipeline.said.pieces import Piece, Place, is_in
from pipeline.said.targets import EVENT, WINDOW
from pipeline.said.terms import Mention
from pipeline.said.tokens import Token

if TYPE_CHECKING:
    from pipeline.said.number_heard import Heard

CLAUSE, EARLIER, LATER = range(3)
MEASURE = "measure"
_NOT_OF_WHAT = (WINDOW, EVENT, MEASURE)  # these leave open whose number it is
_GOES_ON = {"and", "but", ";"}
_AGAINST = {"to", "against", "versus", "v", "with"}
_SET_AGAINST = {"against", "versus", "v", "from", "than"}
_COMPARED = {"compared", "relative", "next"}  # with it, or to it
_FEW = 4  # words between a number and the name of the next one
_BESIDE = 1  # tokens from a name to the number that it leads to, past a comma
_NEAR, _FAR = 2, 4  # tokens from a number to the name that it is of, and to one that it isn't


class Named(NamedTuple):
    """Values of a cut that it may be about, and from how far away it has them."""

    values: frozenset[str]
    level: int


def named_for(
    at: int, numbers: Sequence[Heard], mentions: Sequence[Mention], pieces: Sequence[Piece],
    tokens: Sequence[Token],
) -> Mapping[str, Named]:  # fmt: skip
    """By cut the nearest names of a number."""
    place = Place(at, numbers, pieces, tokens)
    found: dict[str, Named] = {}
    for cut in dict.fromkeys(each.cut for each in mentions):
        own = [each for each in mentions if each.cut == cut]
        others = [each for each in mentions if each.cut not in (cut, *_NOT_OF_WHAT)]
        if named := _nearest(own, place, _has_own(others, place.piece)):
            far = named.level == CLAUSE and _is_left_behind(cut, own, mentions, place)
            found[cut] = Named(named.values, EARLIER) if far else named
    measure = found.get(MEASURE)
    if measure and measure.level == LATER and _is_of_another(mentions, place):
        del found[MEASURE]
    return found


def _is_left_behind(
    cut: str, own: Sequence[Mention], mentions: Sequence[Mention], place: Place
) -> bool:
    """Whether its clause goes on with a measure of its own, and says no more of what it is."""
    begins = place.piece[0]
    apart = bool(begins) and place.tokens[begins - 1].text in _GOES_ON
    if not apart or cut in _NOT_OF_WHAT or _has_own(own, place.piece):
        return False
    return any(each.cut == MEASURE and is_in(each, place.piece) for each in mentions)


def _is_of_another(mentions: Sequence[Mention], place: Place) -> bool:
    """Whether a measure that follows is another number's: 'spin bowled 35 and conceded four'."""
    first = next(m for m in mentions if m.cut == MEASURE and m.begins >= place.piece[1])
    led = any(m.ends <= place.number.said.first and m.cut != WINDOW for m in mentions)
    others = [piece for piece in place.pieces[place.at + 1 :] if piece != place.piece]
    return led and any(is_in(first, piece) for piece in others)


def _nearest(own: Sequence[Mention], place: Place, spoken_for: bool) -> Named | None:
    """`spoken_for`: its clause names what it is of by another cut."""
    return (
        _in_its_clause(own, place) or _from_before(own, place)
        or _from_behind(own, place, spoken_for)
    )  # fmt: skip


def _in_its_clause(own: Sequence[Mention], place: Place) -> Named | None:
    """The last one before it, or the first one behind it."""
    number = place.number
    first, here = number.said.first, [each for each in own if is_in(each, place.piece)]
    before = [each for each in here if each.ends <= first]
    behind = [each for each in here if each.begins >= number.said.last]
    if behind and _is_of_next(behind[-1], place):
        return _others_own(own, behind[-1], number) or Named(behind[-1].values, CLAUSE)
    near = [each for each in behind if each.begins < place.next_begins]
    before = _without_yardstick(before, place)
    if near and before:
        nearer = near[0].begins - number.ends <= _NEAR and first - before[-1].ends > _FAR
        if nearer or _is_taken(before[-1], own, place):
            return Named(near[0].values, CLAUSE)
    chosen = before[-1:] or near[:1] or behind[:1]
    return Named(_together(chosen[0], own, place), CLAUSE) if chosen else None


def _without_yardstick(before: list[Mention], place: Place) -> list[Mention]:
    """'Spin fell away from pace by eight': what it is set against is not what it is of."""
    if len(before) < 2 or place.number.leads != "by" or before[-1].values == before[-2].values:
        return before
    at = before[-1].begins - 1
    at -= at > 0 and place.tokens[at].text == "the"
    led = {place.tokens[each].text for each in range(max(0, at - 1), at + 1)}
    apart = place.tokens[at].text in _SET_AGAINST or bool(led & _COMPARED)
    return before[:-1] if apart else before


def _from_before(own: Sequence[Mention], place: Place) -> Named | None:
    """From the clauses before its own."""
    earlier = [each for each in own if each.begins < place.piece[0]]
    if not earlier:
        return None
    listed = len(earlier) > 1 and earlier[-1].begins - earlier[-2].ends <= 1
    if earlier[-1].cut == WINDOW and not listed:
        beside = place.number.said.first - earlier[-1].ends <= _BESIDE  # 'after, four point one'
        alone = (len(own) == 1 or not earlier[-1].begins) and place.at == _first(place.numbers)
        return Named(earlier[-1].values, CLAUSE if beside or alone else EARLIER)
    return _earlier(earlier, own, place)


def _from_behind(own: Sequence[Mention], place: Place, spoken_for: bool) -> Named | None:
    """From the clauses after its own."""
    later = next((each for each in own if each.begins >= place.piece[1]), None)
    if later is None or (spoken_for and _has_number(later, place)):
        return None
    told = sum(not each.plain for each in place.numbers)
    alone = told == 1 and len({each.values for each in own}) == 1
    return Named(_together(later, own, place), EARLIER if alone else LATER)


def _is_of_next(mention: Mention, place: Place) -> bool:
    """'6.9 per cent to spin's 11.6': the name is the second number's."""
    if place.at + 1 == len(place.numbers) or mention.ends != place.next_begins:
        return False
    between = {token.text for token in place.tokens[place.number.ends : mention.begins]}
    return bool(between & _AGAINST) and len(between) < _FEW


def _others_own(own: Sequence[Mention], taken: Mention, number: Heard) -> Named | None:
    """Of two that were named before, the one that the next number is not of."""
    others = [
        each for each in own if each.ends <= number.said.first and not each.values & taken.values
    ]
    return Named(others[-1].values, CLAUSE) if others else None


def _first(numbers: Sequence[Heard]) -> int:
    """The first number that is a statistic."""
    return next((at for at, each in enumerate(numbers) if not each.plain), 0)


def _has_number(mention: Mention, place: Place) -> bool:
    """Whether a name stands in the clause of another number: '52.7 by the sea, 53.4 inland'."""
    return any(
        is_in(mention, piece) and not each.plain and piece != place.piece
        for each, piece in zip(place.numbers, place.pieces, strict=True)
    )


def _is_taken(mention: Mention, own: Sequence[Mention], place: Place) -> bool:
    """Whether a name between two numbers follows the first: 'seven after six before'."""
    last = place.at - 1
    if last < 0 or place.pieces[last] != place.piece:
        return False
    gap = mention.begins - place.numbers[last].ends
    led = any(
        place.piece[0] <= each.begins and each.ends <= place.numbers[last].said.first
        for each in own
    )
    return 0 <= gap <= _NEAR and not led


def _earlier(earlier: Sequence[Mention], own: Sequence[Mention], place: Place) -> Named:
    """The last one named; of several in a row before several numbers each has its own."""
    told = [each for each in place.numbers[: place.at] if not each.plain]
    last = max((each.ends for each in told if each.ends <= place.piece[0]), default=0)
    row = [each for each in earlier if each.begins >= last]
    if len({each.values for each in row}) < 2:
        if own_one := in_turn(earlier, place):
            return Named(own_one.values, CLAUSE)
        return Named(_together(earlier[-1], own, place), CLAUSE if row else EARLIER)
    run = [
        at
        for at, number in enumerate(place.numbers)
        if not number.plain
        and number.said.first >= row[-1].ends
        and not _has_own(own, place.pieces[at])
    ]
    if row[-1].cut != MEASURE and len(run) == len(row) > 1 and place.at in run:
        return Named(row[run.index(place.at)].values, CLAUSE)
    return Named(frozenset().union(*(each.values for each in row)), EARLIER)


def _has_own(own: Sequence[Mention], piece: Piece) -> bool:
    return any(is_in(each, piece) for each in own)


def _together(chosen: Mention, own: Sequence[Mention], place: Place) -> frozenset[str]:
    return named_together(chosen, own, place.numbers, place.piece)

"""A number with what stands right beside it: its unit, its hedge, and how it is led up to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from pipeline.said.pairs import Pair
from pipeline.said.plain_numbers import is_few, is_plain
from pipeline.said.read_numbers import Said
from pipeline.said.rounding import JUST_OVER, JUST_UNDER, OVER, UNDER
from pipeline.said.subjects import Named
from pipeline.said.tokens import Token
from pipeline.said.units import COUNTED, Unit, foreign_unit, unit_after, unit_before
from pipeline.said.up_or_down import DRIVES, GOES, way_of_word

HEDGES = frozenset({*UNDER, *OVER, *JUST_OVER, *JUST_UNDER, "about", "around", "roughly", "some",
                    "approximately", "something like", "as much as", "as little as", "as many as",
                    "as few as"})  # fmt: skip
_OBJECT_WITHIN = 8  # tokens from a verb to where its object went
_AGREE = {"same", "agree", "agreed", "agrees", "changed", "moved", "showed", "show", "shows"}
_ODD = ((3, ["and", "a", "bit"]), (2, ["and", "change"]), (2, ["and", "something"]))
_INSIDE = ("run", "point", "ball", "boundary", "wicket")  # of 'a run and a half'
_INSTEAD = {"instead", "rather", "or", "not", "to"}


@dataclass(frozen=True)
class Heard:
    """A number; `unit` is its own or the one that it shares, `own_unit` whether it is said with it.

    `ends` is the token after it and its unit; `way` -1, 0 or 1, `denied` of what is said not to be.
    """

    said: Said
    unit: str | None
    own_unit: bool
    a_time: bool
    ends: int
    hedge: str = ""
    way: int = 0
    denied: bool = False
    pair: Pair | None = None
    between: tuple[float, float] | None = None  # the ends of a spread that it is one of
    plain: bool = False
    withdrawn: bool = False
    names: Mapping[str, Named] = field(default_factory=dict)
    parts: frozenset[str] = frozenset()  # of the clause
    units: frozenset[str] = frozenset()  # of the sentence's other numbers
    all_parts: frozenset[str] = frozenset()  # of the sentence
    piece: tuple[int, int] = (0, 0)
    is_move: bool = False  # how far it went, and not where it came to
    is_difference: bool = False  # 'four runs fewer'
    side: int | None = None  # 0 of what was before, 1 of what is after
    of_something: bool = False  # the sentence says of what, in words of its own
    other_head: bool = False  # its clause begins with a noun that nothing of the topic has
    dated: bool = False  # beside it stands when it was
    rivals: frozenset[str] = frozenset()  # cuts of which its sentence names two groups
    money: bool = False  # 'it fell by £2'
    of_somebody: bool = False  # its clause says 'he' or 'they', and the sentence names nobody
    of_others: bool = False  # a part of what no fact has parts of
    set_against: bool = False  # 'left-handers score 76.7 against 75.9': of the other group
    every_one: bool = False  # 'all thirty-three ways showed a fall'
    goes_on: bool = False  # its sentence says that it is of what was named before
    leads: str = ""  # 'to' or 'from', where it stands before the number and its hedge


def heard_at(tokens: Sequence[Token], said: Said, named: Sequence[tuple[int, int]]) -> Heard:
    """A number by itself; what its clause and its neighbours say of it is added later.

    `named` are the tokens that names of subjects take up.
    """
    unit = _unit(tokens, said)
    ours = unit if unit and not unit.foreign else None
    plain = is_plain(tokens, said, ours, named) or (
        unit is not None and unit.foreign and is_few(tokens, said)
    )
    ends = unit.last if unit and unit.last > said.last else said.last
    hedge, odd = _hedge(tokens, said.first), _odd(tokens, said.last)
    leads = _leads(tokens, said.first - len(hedge.split()))
    return Heard(
        said, unit.name if unit else None, unit is not None, bool(unit and unit.a_time),
        max(ends, said.last + odd), hedge or ("just over" if odd else ""), plain=plain,
        leads=leads, every_one=_is_every_one(tokens, said.first),
    )  # fmt: skip


def _unit(tokens: Sequence[Token], said: Said) -> Unit | None:
    """What follows it, what is inside it ('a run and a half an over'), or what stands before."""
    if said.form in ("year", "ordinal", "score", "overs"):
        return None
    inner = tokens[said.first + 1].text if said.last - said.first == 5 else ""
    if inner in _INSIDE:
        per = unit_after(tokens, said.last)
        if inner == "run" and per and per.name == "an over":
            return per
        own = unit_after(tokens, said.first + 1)
        return Unit(own.name, said.last) if own else None
    after = said.last + _odd(tokens, said.last)
    known = unit_before(tokens, said.first, said.last) or unit_after(tokens, after)
    led = [token.text for token in tokens[max(0, said.first - 9) : said.first]]
    if known and known.name == "runs" and ("hundred", "balls") in pairwise(led):
        return Unit("runs a hundred balls", known.last)  # 'his hundred balls brought 88 runs'
    if known and known.name in COUNTED and not said.whole and said.form == "number":
        return None  # 'quicks at the death 7.3 spinners 7.2'
    return known or foreign_unit(tokens, said.last)


def _odd(tokens: Sequence[Token], at: int) -> int:
    """How many words say that it is a little more: 'fifty-three and a bit'."""
    return next(
        (count for count, odd in _ODD if [token.text for token in tokens[at : at + count]] == odd),
        0,
    )


def _hedge(tokens: Sequence[Token], at: int) -> str:
    """The longest one that ends right before a number."""
    before = [token.text for token in tokens[max(0, at - 3) : at]]
    if before[-2:] == ["up", "to"] and _is_where_it_went(tokens, at - 2):
        return ""
    ends = (" ".join(before[-count:]) for count in (3, 2, 1))
    return next((hedge for hedge in ends if hedge in HEDGES), "")


def _is_where_it_went(tokens: Sequence[Token], at: int) -> bool:
    """Of 'up to': 'did go up to 43.8', 'drove the economy up to 7.12', 'from 6.8 up to seven'."""
    led = tokens[at - 1].text if at else ""
    if led in GOES or _is_driven(tokens, at):
        return True
    return any(token.text == "from" for token in tokens[max(0, at - 10) : at])


def _is_driven(tokens: Sequence[Token], at: int) -> bool:
    """Whether a verb before says that something was sent somewhere."""
    words = (token.text for token in tokens[max(0, at - _OBJECT_WITHIN) : at])
    return any(word in DRIVES for word in words)


def _is_every_one(tokens: Sequence[Token], first: int) -> bool:
    """Whether all of them are said to come out the same: 'all thirty-three ways fell'."""
    words = [token.text for token in tokens[max(0, first - 3) : first] if token.text != "the"]
    if words[-1:] != ["all"] and words[-2:] != ["each", "of"] and words[-2:] != ["one", "of"]:
        return False
    return words[-2:] != ["of", "all"] and any(
        way_of_word(tokens, at) or token.text in _AGREE for at, token in enumerate(tokens)
    )


def _leads(tokens: Sequence[Token], at: int) -> str:
    """How what stands before `at`, where a number or its hedge begins, leads to it."""
    if at > 1 and tokens[at - 1].text in ("up", "down") and tokens[at - 2].text == "from":
        return "from"
    word = tokens[at - 1].text if at > 0 else ""
    if word == "of" and at > 1 and tokens[at - 2].text == "tune":
        return "by"  # 'to the tune of'
    return word if word in ("to", "from", "by") else ""


def apart(numbers: Sequence[Heard]) -> list[Heard]:
    """Without those that are in another's unit: 'runs a hundred balls'."""
    found: list[Heard] = []
    for each in numbers:
        if not found or each.said.first >= found[-1].ends:
            found.append(each)
    return found


def as_before(tokens: Sequence[Token], numbers: Sequence[Heard]) -> list[Heard]:
    """'25 millimetres instead of 12': what stands beside no statistic without a unit is none."""
    found = list(numbers)
    for at in range(1, len(found)):
        before, each = found[at - 1], found[at]
        between = {token.text for token in tokens[before.ends : each.said.first]}
        counted = before.plain and before.said.form == "number"
        bare = (
            each.unit is None and not each.hedge and each.said.whole and each.said.form == "number"
        )
        listed = between <= {",", "and", "or"} and before.said.value + 1 == each.said.value
        beside = not between or listed or (between & _INSTEAD and len(between) < 4)
        if counted and bare and beside:
            found[at] = replace(each, plain=True)
    return found

"""The numbers of a sentence with all that goes with them: unit, hedge, way, pair, subject."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field, replace

from pipeline.said.corrected import withdrawn
from pipeline.said.pairs import Pair, pairs_of
from pipeline.said.plain_numbers import is_few, is_plain
from pipeline.said.read_numbers import Said, read
from pipeline.said.rounding import OVER, UNDER
from pipeline.said.sides_said import with_sides
from pipeline.said.strangers import strangers
from pipeline.said.stretches import stretches
from pipeline.said.subjects import Named, named_for, pieces_of
from pipeline.said.terms import Mention, Terms
from pipeline.said.tokens import BREAKS, Token, tokens_of
from pipeline.said.units import Unit, foreign_unit, unit_after, unit_before
from pipeline.said.up_or_down import way_after, way_before, way_of_word

HEDGES = (
    *UNDER,
    *OVER,
    "about",
    "around",
    "roughly",
    "nearly",
    "almost",
    "just over",
    "just under",
)
HEDGES += ("close to", "some", "approximately", "something like", "getting on for", "as much as")
HEDGES += ("as little as", "well over", "just above", "just below", "as many as", "as few as")


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
    plain: bool = False
    withdrawn: bool = False
    names: Mapping[str, Named] = field(default_factory=dict)
    parts: frozenset[str] = frozenset()  # of the clause
    units: frozenset[str] = frozenset()  # of the sentence's other numbers
    all_parts: frozenset[str] = frozenset()  # of the sentence
    piece: tuple[int, int] = (0, 0)
    is_move: bool = False  # how far it went, and not where it came to
    side: int | None = None  # 0 of what was before, 1 of what is after
    leads: str = ""  # 'to' or 'from', where it stands before the number and its hedge


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
    stretched = list(stretches(tokens, overs))
    mentions = [*terms.mentions(tokens), *stretched]
    mentions += [*_seasons(tokens, found, mentions), *strangers(text, tokens, names, mentions)]
    mentions = _unmasked(sorted(mentions))
    of_parts = parts.mentions(tokens)
    named = [(each.begins, each.ends) for each in mentions if each.cut not in ("window", "season")]
    numbers = _apart([_heard(tokens, each, named) for each in found])
    numbers = _as_before(tokens, numbers)
    mentions = _of_no_unit(mentions, numbers)
    numbers = _share_units(tokens, numbers)
    pairs = pairs_of(tokens, numbers)
    gone = withdrawn(tokens, [(each.said.first, each.ends) for each in numbers])
    units = frozenset(each.unit for each in numbers if each.unit and each.own_unit)
    told = []
    pieces = pieces_of(tokens, [(each.said.first, each.ends) for each in numbers], pairs)
    for at, each in enumerate(numbers):
        piece = pieces[at]
        way, denied = _way(tokens, each, piece, numbers, at, pairs[at])
        moved = _is_move(tokens, each)
        told.append(
            replace(
                each, is_move=moved,
                units=units, pair=pairs[at], withdrawn=gone[at], way=way, denied=denied, piece=piece,
                names=named_for(at, numbers, mentions, pieces),
                parts=_parts_in(of_parts, piece),
                all_parts=_parts_in(of_parts, (0, len(tokens))),
            )
        )  # fmt: skip
    return Sounded(tokens, mentions, of_parts, with_sides(tokens, told))


def _as_before(tokens: Sequence[Token], numbers: Sequence[Heard]) -> list[Heard]:
    """'25 millimetres instead of 12': what stands beside no statistic without a unit is none."""
    found = list(numbers)
    for at in range(1, len(found)):
        before, each = found[at - 1], found[at]
        between = {token.text for token in tokens[before.ends : each.said.first]}
        counted = before.plain and before.said.form == "number"
        bare = each.unit is None and each.said.whole and each.said.form == "number"
        if counted and bare and between & _INSTEAD and len(between) < 4:
            found[at] = replace(each, plain=True)
    return found


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


def _unmasked(mentions: Sequence[Mention]) -> list[Mention]:
    """Without the names that a longer one has in it: 'spin' of 'finger spin'."""
    return [each for each in mentions if not any(_is_within(each, other) for other in mentions)]


def _is_within(each: Mention, other: Mention) -> bool:
    longer = other.ends - other.begins > each.ends - each.begins
    return longer and other.begins <= each.begins and each.ends <= other.ends


def _apart(numbers: Sequence[Heard]) -> list[Heard]:
    """Without those that are in another's unit: 'runs a hundred balls'."""
    found: list[Heard] = []
    for each in numbers:
        if not found or each.said.first >= found[-1].ends:
            found.append(each)
    return found


def _heard(tokens: Sequence[Token], said: Said, named: Sequence[tuple[int, int]]) -> Heard:
    unit = _unit(tokens, said)
    ours = unit if unit and not unit.foreign else None
    plain = is_plain(tokens, said, ours, named) or (
        unit is not None and unit.foreign and is_few(tokens, said)
    )
    ends = unit.last if unit and unit.last > said.last else said.last
    return Heard(
        said, unit.name if unit else None, unit is not None, bool(unit and unit.a_time), ends,
        _hedge(tokens, said.first), plain=plain, leads=_leads(tokens, said.first),
    )  # fmt: skip


def _unit(tokens: Sequence[Token], said: Said) -> Unit | None:
    """What follows it, what is inside it ('a run and a half an over'), or what stands before."""
    if said.form in ("year", "ordinal", "score", "overs"):
        return None
    inner = tokens[said.first + 1].text if said.last - said.first == 5 else ""
    if inner in ("run", "point", "ball", "boundary", "wicket"):
        per = unit_after(tokens, said.last)
        if inner == "run" and per and per.name == "an over":
            return per
        own = unit_after(tokens, said.first + 1)
        return Unit(own.name, said.last) if own else None
    known = unit_before(tokens, said.first, said.last) or unit_after(tokens, said.last)
    return known or foreign_unit(tokens, said.last)


def _hedge(tokens: Sequence[Token], at: int) -> str:
    before = " ".join(token.text for token in tokens[max(0, at - 3) : at])
    fitting = [hedge for hedge in HEDGES if before == hedge or before.endswith(f" {hedge}")]
    if "up to" in fitting and "from" in [token.text for token in tokens[max(0, at - 12) : at]]:
        return ""  # 'from six point eight up to seven'
    return max(fitting, key=len, default="")


def _leads(tokens: Sequence[Token], at: int) -> str:
    at -= len(_hedge(tokens, at).split())
    if at > 1 and tokens[at - 1].text in ("up", "down") and tokens[at - 2].text == "from":
        return "from"
    word = tokens[at - 1].text if at > 0 else ""
    return word if word in ("to", "from", "by") else ""


def _share_units(tokens: Sequence[Token], numbers: list[Heard]) -> list[Heard]:
    """A unit that is said once is that of the number before it, or of those that follow."""
    found = list(numbers)
    for at in range(len(found) - 2, -1, -1):
        each, then = found[at], found[at + 1]
        if each.unit is None and not each.plain and then.unit and _linked(tokens, each, then):
            found[at] = replace(each, unit=then.unit, a_time=then.a_time)
    last: Heard | None = None
    for at, each in enumerate(found):
        if each.unit is None and last and not each.plain and each.said.form == "number":
            found[at] = replace(each, unit=last.unit)
        if each.unit and each.own_unit and not each.plain:
            last = each
    return found


def _linked(tokens: Sequence[Token], each: Heard, then: Heard) -> bool:
    """Whether two numbers stand in one breath: 'from four and a half to four point one'."""
    between = [token.text for token in tokens[each.ends : then.said.first]]
    return (
        len(between) <= 9
        and not set(between) & {".", ";", "?", "!", ":"}
        and bool(
            set(between) & {"to", "and", "or", "-", "–", "up", "down", "then", "sorry", "no", "of"}
        )
    )


def _way(
    tokens: Sequence[Token], each: Heard, piece: tuple[int, int], numbers: Sequence[Heard],
    at: int, pair: Pair | None,
) -> tuple[int, bool]:  # fmt: skip
    """'down' after it, else the nearest verb or noun before it in its clause."""
    limit = numbers[at + 1].said.first if at + 1 < len(numbers) else piece[1]
    after = way_after(tokens, each.ends, max(each.ends, min(limit, len(tokens))))
    if not after and pair and pair.last is not None and pair.at == 0:
        after = way_after(tokens, numbers[pair.last].ends, len(tokens)) if pair.spread else 0
    begins = _led_from(tokens, piece[0], each.said.first, numbers)
    before, denied = way_before(tokens, begins, each.said.first)
    if each.own_unit and each.ends - each.said.last > 1:
        inner = [token.text for token in tokens[each.said.last : each.ends]]
        after = after or ("more" in inner or "extra" in inner) - ("fewer" in inner)
    if after:
        return after, denied and not before == 0 and before == after
    return before, denied


_INSTEAD = {"instead", "rather", "or", "not", "to"}
_LEADS_ON = {"from", "anywhere", "anything", "by", "about", "between", "with", "somewhere", "and"}
_LEADS_ON |= {"nearly", "just", "roughly", "almost", "around", "up", "down", "maybe", "perhaps"}


def _led_from(tokens: Sequence[Token], begins: int, first: int, numbers: Sequence[Heard]) -> int:
    """Where a clause begins that goes on with the one before it: 'a step down: from one to nine'."""
    if begins < 2 or tokens[begins - 1].text not in {",", ":", "—", "and"}:
        return begins
    if begins != first and tokens[begins].text not in _LEADS_ON:
        return begins
    start = max(
        (at for at in range(begins - 1) if tokens[at].text in BREAKS and tokens[at].text != ","),
        default=-1,
    )
    last = max((each.ends for each in numbers if each.ends < begins), default=0)
    return max(start + 1, last)


def _is_move(tokens: Sequence[Token], each: Heard) -> bool:
    """'fell 16 per cent', 'by 16 per cent', '16 per cent down'."""
    at = each.said.first - len(each.hedge.split()) - 1
    if each.leads == "by" or (at >= 0 and way_of_word(tokens, at) and tokens[at].text != "up"):
        return True
    if at >= 0 and tokens[at].text == "of" and at and way_of_word(tokens, at - 1):
        return True  # 'a rise of 16 per cent'
    return bool(way_after(tokens, each.ends, len(tokens))) or (
        at >= 0 and tokens[at].text == "up" and bool(way_of_word(tokens, at))
    )


def _parts_in(parts: Sequence[Mention], piece: tuple[int, int]) -> frozenset[str]:
    return frozenset(
        value for each in parts if piece[0] <= each.begins < piece[1] for value in each.values
    )


def _seasons(
    tokens: Sequence[Token], found: Sequence[Said], mentions: Sequence[Mention]
) -> list[Mention]:
    """A year that is named by itself is a season; with 'since' or 'before' it is a window."""
    told: list[Mention] = []
    for at, said in enumerate(found):
        if said.form != "year":
            continue
        before = tokens[said.first - 1].text if said.first else ""
        after = tokens[said.last].text if said.last < len(tokens) else ""
        in_window = any(m.cut == "window" and m.ends >= said.first - 2 and m.begins < said.first
                        for m in mentions)  # fmt: skip
        if in_window or after in ("to", "-", "–", "onwards", "on") or before in ("to", "-", "–"):
            continue
        if before in ("in", "of", "for", "by", "during", "the") or after in ("season", "was", ","):
            year = frozenset({str(int(said.value))})
            told.append(Mention(said.first, said.last, "season", year))
    return told

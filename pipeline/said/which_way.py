"""Which way a number of a sentence is said to go, and whether it is how far it went."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.said.number_heard import Heard
from pipeline.said.pairs import Pair
from pipeline.said.tokens import BREAKS, Token
from pipeline.said.up_or_down import COMPARED, way_after, way_before, way_of_word

_LEADS_ON = {"from", "anywhere", "anything", "by", "about", "between", "with", "somewhere", "and"}
_LEADS_ON |= {
    "nearly",
    "just",
    "roughly",
    "almost",
    "around",
    "up",
    "down",
    "maybe",
    "perhaps",
    "to",
}

_MOVES = {"rise", "fall", "drop", "increase", "decrease", "jump", "reduction", "decline", "gain"}
_AMOUNTS = {"saving", "saves", "save", "saved", "trims", "trimmed", "shaved", "shaves", "sheds"}
_LEVELS = {"to", "from", "at"}


def way_of(
    tokens: Sequence[Token], each: Heard, piece: tuple[int, int], numbers: Sequence[Heard],
    at: int, pair: Pair | None,
) -> tuple[int, bool]:  # fmt: skip
    """'down' after it, else the nearest verb or noun before it in its clause."""
    limit = numbers[at + 1].said.first if at + 1 < len(numbers) else piece[1]
    after = way_after(tokens, each.ends, max(each.ends, min(limit, len(tokens))))
    between = tokens[each.ends].text if pair and pair.at == 0 and each.ends < len(tokens) else ""
    if pair and pair.spread and between in ("up", "down"):  # 'from four down to ten up'
        last = way_after(tokens, numbers[pair.last].ends, len(tokens))
        if last == (1 if between == "down" else -1):
            return -last, False
    if not after and pair and pair.last is not None and pair.at == 0:
        after = way_after(tokens, numbers[pair.last].ends, len(tokens)) if pair.spread else 0
    begins = _led_from(tokens, piece[0], each.said.first, numbers)
    before, denied = way_before(tokens, begins, each.said.first)
    if each.own_unit and each.ends - each.said.last > 1:
        inner = [token.text for token in tokens[each.said.last : each.ends]]
        after = after or next((COMPARED[text] for text in inner if text in COMPARED), 0)
    if not after and each.own_unit and each.ends < len(tokens) and tokens[each.ends].text in _MOVES:
        after = way_of_word(tokens, each.ends)  # 'a nine per cent rise'
    if after:
        return after, denied and before == after
    return before, denied


def _led_from(tokens: Sequence[Token], begins: int, first: int, numbers: Sequence[Heard]) -> int:
    """Where a clause begins that goes on with the one before: 'a step down: from one to nine'."""
    if begins < 2 or tokens[begins - 1].text not in {",", ":", "—", "and"}:
        return begins
    if begins != first and tokens[begins].text not in _LEADS_ON:
        return begins
    start = max(
        (at for at in range(begins - 1) if tokens[at].text in BREAKS and tokens[at].text != ","),
        default=-1,
    )
    if tokens[begins].text == "to":
        return start + 1  # 'down by nearly a quarter, to four point six'
    last = max((each.ends for each in numbers if each.ends < begins), default=0)
    return max(start + 1, last)


def is_move(tokens: Sequence[Token], each: Heard) -> bool:
    """'fell 16 per cent', 'by 16 per cent', '16 per cent down'."""
    at = each.said.first - len(each.hedge.split()) - 1
    if is_difference(tokens, each):
        return True
    if each.leads == "by" or (at >= 0 and way_of_word(tokens, at) and tokens[at].text != "up"):
        return True
    if at >= 0 and tokens[at].text == "of" and at and way_of_word(tokens, at - 1):
        return True  # 'a rise of 16 per cent'
    if each.ends < len(tokens) and tokens[each.ends].text in _MOVES and each.own_unit:
        return True  # 'a 16 per cent rise'
    return bool(way_after(tokens, each.ends, len(tokens))) or (
        at >= 0 and tokens[at].text == "up" and bool(way_of_word(tokens, at))
    )


def is_difference(tokens: Sequence[Token], each: Heard) -> bool:
    """'four runs fewer an over', 'half a run cheaper': how far apart two are, and no level."""
    at = each.said.first - len(each.hedge.split()) - 1
    if at >= 0 and tokens[at].text in _LEVELS:
        return False
    if at >= 0 and any(token.text in _AMOUNTS for token in tokens[max(0, at - 3) : at + 1]):
        return True  # 'is saving its captains four runs an over'
    told = tokens[each.said.last : each.ends + 1]
    return any(token.text in COMPARED for token in told)

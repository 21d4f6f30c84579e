"""What a sentence names: the topic's own, windows by their years, strangers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence, Set
from itertools import pairwise

from pipeline.said.common_words import PRONOUNS, TALK, VERBS
from pipeline.said.no_statistic import MONTHS
from pipeline.said.number_heard import Heard
from pipeline.said.read_numbers import Said
from pipeline.said.strangers import strangers
from pipeline.said.stretches import stretches
from pipeline.said.targets import EVENT, OVERS, WINDOW
from pipeline.said.terms import Mention, Terms
from pipeline.said.tokens import Token, text_at
from pipeline.said.up_or_down import way_of_word

_ONE = {"a", "the", "every", "any", "each", "another", "one", "your"}
_DONE_QUICKLY = {"look", "word", "note", "check", "question", "recap", "reminder", "glance", "one"}
_DONE_QUICKLY |= {"aside", "point", "sum", "read", "break", "chat", "fire", "bowler", "bowlers"}
_DONE_QUICKLY |= {"bowling", "men", "man", "answer", "summary", "tour", "thing", "think", "way"}
_AGAINST = {"on", "than"}  # 'up seven per cent on before': is of what is after
_IN_A_YEAR = {"season", "seasons", "figure", "number", "value", "average", "run", "rate", "death"}
_SINCE, _PAST = {"since", "after", "from", "post"}, {"after", "post"}
_UNTIL, _WITH = {"before", "until", "till", "pre", "to", "through"}, {"to", "through"}
_THROUGH = {"to", "-", "–", "through", "till", "until"}
ANY_RATE = {"economy", "run_rate"}
_GONE = {"give", "gives", "gave", "given", "giving", "pull", "pulled", "far", "right", "straight"}
_GONE |= {"moved", "took", "take", "takes", "got", "get", "gets", "run", "ran", "threw", "pulls"}
_GONE |= {"drifted", "broke"}
_SHARE = frozenset({"~share"})
_BESIDE, _IT = {"beside", "by", "near"}, {"it", "them"}
_AWAY = {"away", "off", "outside"}
_SIDES = {"with": "after", "under": "after", "without": "before"}
_OFF = ["away", "from"]  # is of no side, unless more is said: 'away from home'


def mentions_of(
    text: str, tokens: Sequence[Token], found: Sequence[Said], terms: Terms, overs: int | None,
    names: Set[str], year: int | None,
) -> list[Mention]:  # fmt: skip
    """`names` are the topic's own words with a capital, `year` is that of the event."""
    told = [*terms.mentions(tokens), *stretches(tokens, overs, terms.values(OVERS))]
    told += [*_since(tokens, found, year), *_quicks(tokens)]
    told += [*_beside_it(tokens, terms, told), *_with_it(tokens, told)]
    told += [*_seasons(tokens, found, told), *_named(strangers(text, tokens, names, told), tokens)]
    return _of_its_measure(tokens, _unmasked(tokens, sorted(told)))


def _of_its_measure(tokens: Sequence[Token], mentions: Sequence[Mention]) -> list[Mention]:
    """'Fours and sixes: their share is down': a bare share is that of the measure before it."""
    kept, measure = list[Mention](), None
    for each in mentions:
        bare = each.cut == "measure" and each.values == _SHARE and each.ends == each.begins + 1
        if bare and measure and text_at(tokens, each.ends) != "of":
            each = each._replace(values=measure)
        elif each.cut == "measure" and all(value.endswith("_share") for value in each.values):
            measure = each.values
        kept.append(each)
    return kept


def of_no_unit(mentions: Sequence[Mention], numbers: Sequence[Heard]) -> list[Mention]:
    """Without what units and verbs name, where a measure is named besides."""
    return _without_verbs(_of_no_unit(mentions, numbers))


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
    rates = [each for each in mentions if each.cut == "measure" and each.values == ANY_RATE]
    others = any(each.cut == "measure" and each not in rates for each in mentions)
    return [each for each in mentions if each not in rates or not others]


def _unmasked(tokens: Sequence[Token], mentions: Sequence[Mention]) -> list[Mention]:
    """Without the names that a longer one has in it: 'spin' of 'finger spin'."""
    return [
        each
        for each in mentions
        if not any(_is_within(each, other) for other in mentions)
        and not (each.cut == WINDOW and each.begins and tokens[each.begins - 1].text in _AGAINST)
        and not (each.cut == "home" and _is_no_side(tokens, each))
    ]


def _is_no_side(tokens: Sequence[Token], each: Mention) -> bool:
    """'away from the ground', 'dropped away'."""
    off = [token.text for token in tokens[each.begins : each.ends + 1]] == _OFF
    led = each.begins and tokens[each.begins].text == "away" and tokens[each.begins - 1].text
    return off or led in _GONE or bool(led and way_of_word(tokens, each.begins - 1))


def _is_within(each: Mention, other: Mention) -> bool:
    longer = other.ends - other.begins > each.ends - each.begins
    return longer and other.begins <= each.begins and each.ends <= other.ends


def _beside_it(tokens: Sequence[Token], terms: Terms, told: Sequence[Mention]) -> Iterator[Mention]:
    """'Away from the hills six, beside them four': the very place that the first is away from."""
    regions = sorted((each for each in told if each.cut == "region"), key=lambda each: each.ends)
    for at in range(1, len(tokens)):
        next_to = at > 1 and [tokens[at - 2].text, tokens[at - 1].text] == ["next", "to"]
        beside = next_to or tokens[at - 1].text in _BESIDE
        last = next((each for each in reversed(regions) if each.ends < at), None)
        if beside and tokens[at].text in _IT and last:
            others = terms.values("region") - last.values
            away = tokens[last.begins].text in _AWAY and len(others) == 1
            values = frozenset(others) if away else last.values
            yield Mention(at - 1, at + 1, "region", values)


def _with_it(tokens: Sequence[Token], told: Sequence[Mention]) -> Iterator[Mention]:
    """'With the new rule', 'without the new rule': after it came, and before."""
    for each in told:
        side = _SIDES.get(tokens[each.begins - 1].text if each.begins else "", "")
        if each.cut == EVENT and side:
            yield Mention(each.begins - 1, each.begins, WINDOW, frozenset({side}))


def _quicks(tokens: Sequence[Token]) -> Iterator[Mention]:
    """'A quick', who is a bowler where nothing follows that is done quickly."""
    for at in range(1, len(tokens) - 1):
        led = tokens[at].text == "quick" and tokens[at - 1].text in _ONE
        after = tokens[at + 1].text
        if led and after not in _DONE_QUICKLY and tokens[at + 1].text not in ("and", "but"):
            yield Mention(at, at + 1, "bowler_kind", frozenset({"pace"}))


def _named(strangers: Iterable[Mention], tokens: Sequence[Token]) -> Iterator[Mention]:
    """Without words that begin a sentence and are nobody's name: 'He'd lost ten'."""
    for each in strangers:
        if each.ends - each.begins > 1 or tokens[each.begins].text not in {
            *VERBS,
            *PRONOUNS,
            *TALK,
        }:
            yield each


def _since(tokens: Sequence[Token], found: Sequence[Said], year: int | None) -> list[Mention]:
    """'Since 2017', 'up to 2016', 'from 2017 on': the window by a year."""
    told = []
    years = [said for said in found if said.form == "year"] if year else []
    for one, two in pairwise(years):
        between = [token.text for token in tokens[one.last : two.first]]
        if year and len(between) == 1 and between[0] in _THROUGH and one.value < two.value:
            side = "before" if two.value < year else "after" if one.value >= year else ""
            told += [Mention(one.first, two.last, WINDOW, frozenset({side}))] if side else []
    for said in years:
        last = tokens[said.last - 1].text
        if year and said.last - said.first > 1 and last.isdigit() and len(last) == 4:
            side = "before" if int(last) < year else "after" if said.value >= year else ""
            told += [Mention(said.first, said.last, WINDOW, frozenset({side}))] if side else []
        before = tokens[said.first - 1].text if said.first else ""
        if year and before in _SINCE and said.value >= year - (before in _PAST):
            told.append(Mention(said.first - 1, said.last, WINDOW, frozenset({"after"})))
        elif year and before in _UNTIL and said.value <= year - (before in _WITH):
            told.append(Mention(said.first - 1, said.last, WINDOW, frozenset({"before"})))
    return told


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

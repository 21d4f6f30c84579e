"""Every number of a sentence, each beside the others: what one is of, the next may be of too."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set

from pipeline.said.as_counted import as_said
from pipeline.said.judgement import Judged
from pipeline.said.match import judged
from pipeline.said.number_heard import Heard
from pipeline.said.saying import how_said, way_fits
from pipeline.said.second_look import looked_again
from pipeline.said.targets import EVENT, MOVES, WINDOW, Target
from pipeline.said.topic_known import Known

BESIDE = 3  # tokens between two clauses that say the same: ', or'


def all_judged(
    told: Sequence[Heard], carried: Mapping[str, Set[str]], known: Known
) -> list[Judged]:
    """Every number of a sentence: of what it names itself, where all of them are right of that."""
    found = [_again(each, judged(each, carried, known), told, carried, known) for each in told]
    found = _exchanged(told, _as_before(told, found))
    open_yet = [each.result not in ("supported", "not a statistic") for each in found]
    named = all(set(each.names) - {WINDOW, EVENT} for each in told)
    if carried and named and any(open_yet) and len(told) > 1:
        without = [judged(each, {}, known) for each in told]
        right = [each.result == "supported" for each in without]
        if all(right):
            return without
    return found


def _again(
    heard: Heard, found: Judged, told: Sequence[Heard], carried: Mapping[str, Set[str]],
    known: Known,
) -> Judged:  # fmt: skip
    """What no fact of its own clause says may be said of what the sentence names elsewhere."""
    if found.result not in ("contradicted", "unsupported", "for a person", "rounded too far"):
        return found
    if heard.of_others or heard.money or heard.said.form not in ("number", "share"):
        return found
    target = looked_again(as_said(heard), told, carried, known)
    return Judged("supported", target) if target else found


def _says(target: Target, heard: Heard) -> bool:
    how, end = how_said(target, heard)
    return how == "right" and way_fits(target, heard, end)


def _exchanged(told: Sequence[Heard], found: Sequence[Judged]) -> list[Judged]:
    """'Spin seven, pace twelve' of what is the other way round: each has the other's number."""
    kept = list(found)
    for at in range(len(kept) - 1):
        one, two = kept[at].target, kept[at + 1].target
        wrong = all(
            kept[each].result in ("contradicted", "wrong direction") for each in (at, at + 1)
        )
        if not wrong or one is None or two is None or (one.role, one.unit) != (two.role, two.unit):
            continue
        other = _says(two, told[at]) and _says(one, told[at + 1])
        if other and one is not two and one.names.keys() == two.names.keys():
            kept[at : at + 2] = Judged("wrong direction", one), Judged("wrong direction", two)
    return kept


def _is_after_it(one: Heard, two: Heard, before: Judged, found: Judged) -> bool:
    """'6.8 in the old days, 7.3 in the new': two values of one thing are of both windows."""
    if before.result != "supported" or found.result != "wrong direction" or two.way:
        return False
    if before.target is None or found.target is None or two.leads or two.dated:
        return False
    same = before.target.finding is not None and before.target.finding is found.target.finding
    levels = before.target.role == found.target.role == "level"
    return same and levels and before.target.side != found.target.side and one.side == two.side


def _is_in_other_words(one: Heard, two: Heard, before: Judged, found: Judged) -> bool:
    """'Fell by 6.9 per cent, nearly half a run an over': the same move, the other way round."""
    turned = before.result == "wrong direction" and found.result == "supported" and not two.way
    if not turned or before.target is None or found.target is None:
        return False
    if found.target.role not in MOVES:
        return False
    same = before.target.finding is found.target.finding
    both = one.leads == two.leads == "by"  # 'cheaper by seven per cent, and spin by 11.6'
    return (same and one.piece[1] + BESIDE >= two.piece[0]) or both


def _as_before(told: Sequence[Heard], found: Sequence[Judged]) -> list[Judged]:
    """'They hold 71 per cent of their chances by the sea and 66 elsewhere': of the same thing."""
    kept = list(found)
    for at in range(1, len(kept)):
        own = told[at].names.get("measure")
        same = told[at].unit in (None, told[at - 1].unit) and (own is None or own.level)
        flagged = kept[at].result in ("contradicted", "for a person")
        if same and flagged and kept[at - 1].result == "unsupported":
            kept[at] = Judged("unsupported")
        if _is_in_other_words(told[at - 1], told[at], kept[at - 1], kept[at]):
            kept[at] = Judged("wrong direction", kept[at].target)
        if _is_after_it(told[at - 1], told[at], kept[at - 1], kept[at]):
            kept[at] = Judged("supported", kept[at].target)
        if same and kept[at].result == "supported" and kept[at - 1].result == "wrong unit":
            one, two = kept[at - 1].target, kept[at].target
            if one and two and one.finding is two.finding and one.role == two.role:
                kept[at] = Judged("wrong unit", two)
    return kept

"""The parts of a mix in sentences: who did what, the rates themselves, and each group's share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.config.cuts import OF_BATTER
from pipeline.contracts.finding import Change, Mix, Rates
from pipeline.contracts.parts import OfWhole, Span
from pipeline.voice.sentence import Told
from pipeline.wording import numbers, phrases, values
from pipeline.wording.change import among_many, margin_said
from pipeline.wording.confidence import lost
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import change_of, rose_or_fell
from pipeline.wording.subject import balls_of, subject, where_said
from pipeline.wording.values import unit_said, values_said

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

BOWLERS = {"bowler_kind", "bowler_arm"}  # whose names are said as one: 'spin bowled it'
BATTERS = {"batter_hand"}
LITTLE = 0.25  # of the whole change: a part that is surely less is hardly any of it


def who_did(beat: AnyKind) -> str:
    """Whose work the mix is of: 'who was bowling', or who was facing."""
    return "who was facing" if set(beat.cuts) & OF_BATTER else "who was bowling"


def who_it_was(beat: AnyKind) -> str:
    """The same in a heading, where it is asked of all that was done."""
    return "who faced it" if set(beat.cuts) & OF_BATTER else "who bowled it"


def mix_said(finding: Mix, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """What the change of who did what was worth, against the whole change where there is one."""
    who, what = who_did(beat), subject(finding, beat, measure, form)
    if finding.refused:
        return [refused_said(f"{what}, and {who}", finding)]
    way, size = _way(finding.told.difference), _size(finding.told.difference, measure)
    if finding.verdict == "can't tell":
        if lost(finding):
            return [Told("mix.many", who=who, size=size, way=way), among_many(finding)]
        return [Told("mix.open", who=who, reach=change_of(finding).reach())]
    share = share_told(finding)
    if share is None or finding.of_whole is None:
        told = change_of(finding).span
        if told.low <= 0 <= told.high:
            return [Told("mix.little", who=who, margin=margin_said(finding))]
        return _by_itself(finding, {"who": who, "what": what, "way": way, "size": size})
    whole = finding.of_whole.whole
    moved = Told("mix.moved", what=what, way=_way(whole), size=_size(whole, measure))
    return [moved, _part_said(share, who, {"way": way, "size": size})]


def _by_itself(finding: Mix, slots: dict[str, str]) -> list[str]:
    """What it was worth where there is no change that it could be a part of."""
    said = [Told("mix.alone.held" if finding.verdict == "held" else "mix.alone", **slots)]
    if finding.of_whole:
        no_part = Told("mix.no_part", what=slots["what"])
        said.append(no_part if _is_open(finding.of_whole) else Told("mix.no_share"))
    return [*said]


def _is_open(of: OfWhole) -> bool:
    """Whether the whole change can't be told from none, by its verdict and as it is printed."""
    return of.verdict != "changed" and of.whole.low <= 0 <= of.whole.high


def _part_said(share: Span, who: str, itself: dict[str, str]) -> Told:
    """What part of that a change in who did it is, no more surely than its interval has it."""
    if share.high < 0:
        return Told("mix.part.other_way", who=who, **itself)
    if max(abs(share.low), abs(share.high)) < LITTLE:
        return Told("mix.part.hardly", who=who)
    low, high = (numbers.said(end * 100, 0) for end in (share.low, share.high))
    if share.low <= 0:
        most = "all of it" if share.high >= 1 else f"{high} per cent of it"
        return Told("mix.part.open", who=who, most=most)
    if share.low >= 1:
        return Told("mix.part.more", who=who, **itself)
    if share.high >= 1:
        least = "some" if low == "nought" else f"at least {low} per cent"
        return Told("mix.part.least", least=least, who=who)
    between = f"up to {high}" if low == "nought" else f"between {low} and {high}"
    return Told("mix.part.between", between=between, who=who)


def share_told(part: Mix | Rates) -> Span | None:
    """Its share of the whole change; none of a change whose printed interval holds none."""
    of = part.of_whole
    if of is None or of.verdict == "can't tell" or of.whole.low <= 0 <= of.whole.high:
        return None
    return of.share


def took_it(part: Mix) -> bool:
    """Whether who did it made some of the change, as far as can be told."""
    share = share_told(part)
    if share is None or part.verdict == "can't tell":
        return part.verdict == "changed"
    return share.low > 0


def _way(units: Span) -> str:
    return "up" if units.value > 0 else "down"


def _size(units: Span, measure: Measure) -> str:
    return phrases.size(units.value, units.half, measure.decimals, measure.unit)


def rates_said(finding: Rates, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """The whole with the mix held still."""
    who, what = who_did(beat), subject(finding, beat, measure, form)
    if finding.refused:
        return [refused_said(f"With {who} the same both times, {what}", finding)]
    a, b = values_said(finding, measure)
    both = {
        "who": who,
        "what": what,
        "first": numbers.with_unit(a, unit_said(measure)),
        "second": b,
    }
    reach = change_of(finding).reach()
    if finding.verdict == "changed":
        rose = Told(f"mix.rates.{rose_or_fell(finding)}", **both)
        return [rose, Told("mix.rates.part", reach=reach)]
    if finding.verdict == "held":
        return [Told("mix.rates.held", who=who, what=what, margin=margin_said(finding))]
    if lost(finding):
        return [Told("mix.rates.many", **both), among_many(finding)]
    return [Told("mix.rates.open", who=who, what=what, reach=reach)]


def group_said(group: Change, beat: AnyKind, form: Format) -> str:
    """How much of it a group had before and after, to the whole per cent."""
    shares = _shares(group)
    a, b = values.both_said(shares[0] * 100, shares[1] * 100, 1, 1, share=False)
    simple = [phrases.share_said(share) for share in shares]
    of_all = " per cent"
    if a != b and not any("per cent" in said for said in simple):
        (a, b), of_all = simple, ""
    which = where_said(beat, form)
    said = {"who": balls_of(group.values, form), "did": _did(group), "first": f"{a}{of_all}"}
    said["balls"] = f"the balls{which}" if which else "all the balls"
    return Told("mix.balls.same", **said) if a == b else Told("mix.balls", second=b, **said)


def _did(group: Change) -> str:
    """What a group does to its share: spin bowled it, spin at the death was so much of it."""
    if set(group.values) <= BOWLERS:
        return "bowled"
    if set(group.values) <= BATTERS:
        return "faced"
    return "was" if set(group.values) & BOWLERS else "were"


def _shares(group: Change) -> tuple[float, float]:
    if group.shares is None:
        raise ValueError(f"{group.id} is no group of a mix")
    return group.shares


def share_moved(group: Change) -> float:
    before, after = _shares(group)
    return abs(after - before)

"""The parts of a mix in sentences: who did what, the rates themselves, and each group's share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.config.cuts import OF_BATTER
from pipeline.contracts.finding import Change, Mix, Rates
from pipeline.contracts.parts import OfWhole, Span
from pipeline.text import capitalised
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

NO_PART = "The whole change can’t be told from none, so there is no saying what part that is."
NO_SHARE = "What part of the whole change that is, there is no saying."


def who_did(beat: AnyKind) -> str:
    """Whose work the mix is of: 'who bowled it', or who faced it."""
    return "who faced it" if set(beat.cuts) & OF_BATTER else "who bowled it"


def mix_said(finding: Mix, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """What the change of who did what was worth, against the whole change where there is one."""
    who = who_did(beat)
    if finding.refused:
        what = capitalised(subject(finding, beat, measure, form))
        return [refused_said(f"{what}, and {who}", finding)]
    way = _way(finding.told.difference)
    size = _size(finding.told.difference, measure)
    if finding.verdict == "can't tell":
        if lost(finding):
            return [f"By itself, a change in {who} comes to {size} {way}. {among_many(finding)}"]
        reach = change_of(finding).reach()
        return [f"Whether a change in {who} moved it can’t be called: anything {reach} fits."]
    share = share_told(finding)
    if share is None or finding.of_whole is None:
        told = change_of(finding).span
        if told.low <= 0 <= told.high:
            return [f"By itself, a change in {who} is worth under {margin_said(finding)}."]
        what = subject(finding, beat, measure, form)
        return _by_itself(finding, f"A change in {who} took {what} {way} by itself", size)
    whole, what = finding.of_whole.whole, capitalised(subject(finding, beat, measure, form))
    moved = f"{what} went {_way(whole)} in all: {_size(whole, measure)}."
    return [moved, _part_said(share, who, f"{way}: {size}")]


def _by_itself(finding: Mix, took: str, size: str) -> list[str]:
    """What it was worth where there is no change that it could be a part of."""
    said = [f"{took}{', but by little' if finding.verdict == 'held' else ''}: {size}."]
    if finding.of_whole:
        said.append(NO_PART if _is_open(finding.of_whole) else NO_SHARE)
    return said


def _is_open(of: OfWhole) -> bool:
    """Whether the whole change can't be told from none, by its verdict and as it is printed."""
    return of.verdict != "changed" and of.whole.low <= 0 <= of.whole.high


def _part_said(share: Span, who: str, itself: str) -> str:
    """What part of that a change in who did it is, no more surely than its interval has it."""
    if share.high < 0:
        return f"A change in {who} by itself took it the other way, {itself}."
    if max(abs(share.low), abs(share.high)) < LITTLE:
        return f"Hardly any of that is {who}: under a quarter of it."
    low, high = (numbers.said(end * 100, 0) for end in (share.low, share.high))
    if share.low <= 0:
        most = "all of it" if share.high >= 1 else f"{high} per cent of it"
        return f"How much of that is {who} can’t be called: anything from none to {most} fits."
    if share.low >= 1:
        return f"A change in {who} by itself would have made more than that, {itself}."
    if share.high >= 1:
        least = "Some" if low == "nought" else f"At least {low} per cent"
        return f"{least} of that is {who}, and it may be all of it."
    between = f"Up to {high}" if low == "nought" else f"Between {low} and {high}"
    return f"{between} per cent of that is {who}."


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
    what = subject(finding, beat, measure, form)
    if finding.refused:
        return [refused_said(f"With the mix held still, {what}", finding)]
    a, b = values_said(finding, measure)
    first = numbers.with_unit(a, unit_said(measure))
    start = "With the same mix in both,"
    reach = change_of(finding).reach()
    if finding.verdict == "changed":
        line = f"{start} {what} {rose_or_fell(finding)} from {first} to {b}."
        return [line, f"With luck allowed for, that part is {reach}."]
    if finding.verdict == "held":
        return [f"{start} {what} held: if the rates moved, it is under {margin_said(finding)}."]
    if lost(finding):
        return [f"{start} {what} went from {first} to {b}. {among_many(finding)}"]
    return [f"{start} {what} could have gone either way: anything {reach} fits."]


def group_said(group: Change, beat: AnyKind, form: Format) -> str:
    """How much of it a group had before and after, to the whole per cent."""
    shares = _shares(group)
    a, b = values.both_said(shares[0] * 100, shares[1] * 100, 0, 1, share=False)
    simple = [phrases.share_said(share) for share in shares]
    of_all = " per cent"
    if a != b and not any("per cent" in said for said in simple):
        (a, b), of_all = simple, ""
    which = where_said(beat, form)
    said = f"{capitalised(balls_of(group.values, form))} {_did(group)} {a}{of_all} of "
    said += f"the balls{which}" if which else "all balls"
    return f"{said}, before and after." if a == b else f"{said} before, and {b} after."


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

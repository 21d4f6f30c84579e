"""What a sentence claims of a finding's numbers, and whether they carry it.

Every claim is held against the finding's own numbers, by nothing that makes the sentences.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple

from pipeline.contracts.finding import Finding, Gap, Player, control_of, drift_of
from pipeline.contracts.parts import Side, Span
from tests.any_findings import Case
from tests.listening import Number

UP = {"up", "rose", "rise", "climbed", "higher", "more", "rising"}
DOWN = {"down", "fell", "fall", "dropped", "lower", "fewer", "less", "falling"}
UNIT = r"(?P<unit>(?:of a )?per cent|(?:of a )?percentage points?)"
ABOUT = r"(?:(?P<about>about|nearly|just over|less than) )?"
NONE = 0.005  # the finest that is said: an end nearer to none is said as none


class Claim(NamedTuple):
    """A claim as it was heard: its words by name, its numbers by name, and of which number."""

    case: Case
    words: dict[str, str]
    numbers: dict[str, Number]
    sentence: str
    of: str
    before: str = ""  # the sentence before it

    @property
    def finding(self) -> Finding:
        return self.case.finding

    @property
    def points(self) -> bool:
        return "point" in self.words.get("unit", "")


Check = Callable[[Claim], Iterator[str]]


def way(word: str) -> int:
    """1 of a word that goes up, -1 of one that goes down."""
    return (word in UP) - (word in DOWN)


def told(finding: Finding) -> Span:
    """The difference on the scale that is told: points of a share, else per cent."""
    effect = finding.told
    return effect.difference if finding.kind == "share" else percent(effect.change)


def percent(span: Span) -> Span:
    return Span(value=span.value * 100, low=span.low * 100, high=span.high * 100)


def spoken_of(finding: Finding, of: str) -> Span | None:
    """The numbers that a sentence on the change, the step, the control or the luck speaks of."""
    drift, control = drift_of(finding), control_of(finding)
    if of == "step":
        return percent(drift.test.step) if drift and drift.test else None
    if of == "control" and control:
        share = finding.kind == "share"
        return control.effect.difference if share else percent(control.effect.change)
    if of == "luck" and isinstance(finding, Player) and finding.shrunk:
        drawn = finding.shrunk
        return percent(Span(value=drawn.change, low=drawn.low, high=drawn.high))
    return told(finding) if of == "change" and not finding.refused else None


def both_sides(claim: Claim) -> Iterator[str]:
    """'between four down and two up': no change is inside."""
    span = spoken_of(claim.finding, claim.of)
    low, high = claim.numbers["low"], claim.numbers["high"]
    if span is None or not span.low <= 0 <= span.high:
        yield "said to hold none, and leaves it out"
    elif not (low.near(-span.low) and high.near(span.high)):
        yield f"ends {low.value} down and {high.value} up, of {span}"
    yield from _unit(claim)


def one_side(claim: Claim) -> Iterator[str]:
    """'from four to eight per cent': no change is outside, on the side that is named."""
    if claim.of == "carried":
        return
    span = spoken_of(claim.finding, claim.of)
    side = way(claim.words.get("way") or _named_way(claim))
    if span is None or not side:
        yield "an interval without a side"
        return
    near, far = (side * end for end in (span.low, span.high)[::side])
    if near <= 0:
        yield "said to leave none out, and holds it"
    if not (claim.numbers["near"].near(near) and claim.numbers["far"].near(far)):
        yield f"from {claim.numbers['near'].value} to {claim.numbers['far'].value}, of {span}"
    yield from _unit(claim)


def _named_way(claim: Claim) -> str:
    """The way that goes with its interval: 'the fall is', 'a step up:', 'it’s down'.

    Where the sentence has none, the one before it asked: 'How big a rise? Anywhere from ...'.
    """
    named = (
        r"\b(rise|fall)\b|step (up|down)\b|"
        r"\b(?:it is|it’s|that’s|it comes out|it went|and it’s) (up|down)\b|"
        r"(?:went|came) (up|down) by\b"
    )
    for text in (claim.sentence, claim.before):
        if found := re.findall(named, text):
            return next(word for word in found[-1] if word)
    return ""


def up_to(claim: Claim) -> Iterator[str]:
    """'anywhere up to four': its other end is none, to the finest that is said."""
    span = spoken_of(claim.finding, claim.of)
    side = way(claim.words.get("way") or _named_way(claim))
    if span is None or not side:
        yield "an interval without a side"
        return
    near, far = (side * end for end in (span.low, span.high)[::side])
    if abs(near) > NONE or not claim.numbers["far"].near(far):
        yield f"up to {claim.numbers['far'].value}, of {span}"
    yield from _unit(claim)


def as_one(claim: Claim) -> Iterator[str]:
    """'a step up: about a tenth': both ends are that to the rounding."""
    if claim.of == "carried":
        return
    span = spoken_of(claim.finding, claim.of)
    side, size = way(claim.words.get("way") or _named_way(claim)), claim.numbers["size"]
    if span is None or not all(size.near(side * end) for end in (span.low, span.high)):
        yield f"about {size.value}, to the side {side}, of {span}"


def near_none(claim: Claim) -> Iterator[str]:
    span, most = spoken_of(claim.finding, claim.of), claim.numbers["most"]
    if span is None or max(-span.low, span.high) > most.value + most.slack:
        yield f"within {most.value} of none, of {span}"


def under(claim: Claim) -> Iterator[str]:
    """'any change is under five per cent': the whole interval is, and so is the margin."""
    if claim.of != "change":
        return
    span, margin, most = told(claim.finding), claim.finding.margin.size, claim.numbers["most"]
    if max(-span.low, span.high) > most.value or not most.near(margin):
        yield f"under {most.value}, of {span} and a margin of {margin}"
    if claim.finding.verdict != "held":
        yield "a change is ruled out, and it was not held"
    yield from _unit(claim)


def _unit(claim: Claim) -> Iterator[str]:
    if claim.points != (claim.finding.kind == "share" and claim.of in ("change", "control")):
        yield f"told in {claim.words.get('unit')}"


def size(number: Number, about: str | None, value: float) -> Iterator[str]:
    """A size without its sign, as it is said: 'nearly four', 'just over half'."""
    wrong = {
        "nearly": value >= number.value,
        "just over": value <= number.value,
        "less than": value >= number.value,
    }
    if wrong.get(about or "", False) or (about != "less than" and not number.near(value)):
        yield f"{about or ''} {number.value}, of {value}"


def sized(claim: Claim) -> Iterator[str]:
    """'fell by nearly four per cent'."""
    value = told(claim.finding).value
    if way(claim.words["way"]) * value <= 0:
        yield f"{claim.words['way']}, of {value}"
    yield from size(claim.numbers["size"], claim.words.get("about"), abs(value))
    yield from _unit(claim)


def values(claim: Claim) -> Iterator[str]:
    """Both values; 'the same' is one for both."""
    sides = (claim.finding.a, claim.finding.b)
    for name, side in zip("ab", sides, strict=True):
        number = claim.numbers.get(name, claim.numbers["a"])
        if not isinstance(side, Side) or side.value is None or not number.near(side.value):
            yield f"{number.value} for {side}"
    first, second = claim.numbers["a"], claim.numbers.get("b", claim.numbers["a"])
    if claim.finding.verdict == "changed" and first.value == second.value:
        yield "changed, and both are said alike"
    value = told(claim.finding).value
    words = r"\b(?:rose|fell|climbed|dropped|rise|fall|up|down)\b"
    for word in re.findall(words, claim.sentence.lower()):
        if way(word) * value <= 0:
            yield f"{word}, of {value}"


def group(claim: Claim) -> Iterator[str]:
    """'pace went up about three per cent': that group's own change."""
    finding = claim.finding
    if not isinstance(finding, Gap):
        yield "a group's change, of no gap"
        return
    for end, group in (("a", finding.a), ("b", finding.b)):
        span = group.difference if claim.points else group.change
        value = (span.value if claim.points else span.value * 100) if span else 0.0
        if way(claim.words[f"way_{end}"]) * value <= 0:
            yield f"{claim.words[f'way_{end}']}, of {value}"
        yield from size(claim.numbers[end], claim.words.get(f"about_{end}"), abs(value))

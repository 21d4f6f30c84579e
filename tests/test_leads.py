"""What a card leads with, and why a number can't be called, held against the finding alone."""

from __future__ import annotations

import re
from random import Random

import pytest

from pipeline.contracts.finding import Finding, Gap, Groups, Turn, drift_of
from pipeline.contracts.notes import FewMatches
from pipeline.contracts.parts import Margin, Span
from pipeline.wording.leads import lead_of
from pipeline.wording.why_not import why_not
from tests.any_findings import Case
from tests.any_kinds import any_case
from tests.chart_makers import ECONOMY, FORM
from tests.finding_makers import change, drift, effect
from tests.word_makers import beat

LOST = {"lost_among_many", "held_lost_among_many"}
USUAL = {"usual_between_periods", "usual_between_clusters"}
NUMBER = re.compile(r"(\d[\d,]*(?:\.\d+)?)(%| points?)?")
BEAT = beat("before_after")


def cases(count: int = 700) -> list[Case]:
    rng = Random(19)
    return [any_case(rng) for _ in range(count)]


def told(finding: Finding) -> Span:
    """The number of it that is told, in per cent, or in points of a share."""
    if finding.kind == "share":
        return finding.told.difference
    change = finding.told.change
    return Span(value=change.value * 100, low=change.low * 100, high=change.high * 100)


def lead(case: Case) -> str:
    return str(lead_of(case.finding, case.beat, FORM))


def figure(text: str) -> tuple[float, float, str]:
    """The one figure of a text, half its last digit, its unit."""
    ((number, unit),) = NUMBER.findall(text)
    _, _, part = number.partition(".")
    return float(number.replace(",", "")), 0.5 * 10.0 ** -len(part), unit.strip().rstrip("s")


def test_a_lead_is_the_finding_s_own_number_and_way():
    seen = set()
    for case in cases():
        finding, text = case.finding, lead(case)
        seen.add((type(finding).__name__, finding.verdict))
        if finding.verdict == "can't tell":
            assert not re.search(r"\d|up|down|higher|lower", text), text
            continue
        if isinstance(finding, Turn):
            if finding.verdict == "changed" and finding.turn:
                assert finding.turn.last in text and finding.turn.next in text
            continue
        value, half, unit = figure(text)
        assert unit == ("point" if finding.kind == "share" else "%"), text
        span = told(finding)
        if finding.verdict == "held":
            assert value == finding.margin.size and "under" in text
            assert max(abs(span.low), abs(span.high)) <= value + 1e-6, (text, span)
            continue
        assert bool(re.search(r"\b(up|higher)\b", text)) == (span.value > 0), (text, span)
        assert bool(re.search(r"\b(down|lower)\b", text)) == (span.value < 0), (text, span)
        size = abs(span.value)
        if "less than" in text:
            assert size < value
            continue
        assert abs(size - value) <= half * 1.000001, (text, span)
        assert size < value or "nearly" not in text, (text, span)
        assert size > value or "just over" not in text, (text, span)
    assert len(seen) > 12, "few kinds were drawn"


def test_why_not_is_the_finding_s_own_reason_in_one_line():
    seen = set()
    for case in cases():
        finding, text = case.finding, why_not(case.finding)
        seen.add(finding.because)
        assert bool(text) == (finding.verdict == "can't tell")
        if not text:
            continue
        assert text[0].isupper() or text[0].isdigit(), text
        assert text.endswith(".") and len(text.split()) <= 30 and not re.search(r"\.\s", text), text
        if finding.refused:
            continue
        wide = finding.because == "interval_too_wide" and not isinstance(finding, Turn)
        assert ("both fit" in text) == wide, text
        assert ("numbers tested" in text) == (finding.because in LOST), text
        assert bool(re.search("moves as much|differ by as much", text)) == (
            finding.because in USUAL
        ), text
        if finding.because in LOST:
            assert f"one of {finding.family_size} numbers" in text
            level = "level" in text or "no break" in text
            assert level == (finding.because == "held_lost_among_many"), text
        if finding.because == "lost_among_many" and not isinstance(finding, Turn | Gap | Groups):
            assert ("a rise" in text) == (told(finding).value > 0), text
        if wide:
            check_ends(finding, text)
        test = drift_of(finding)
        stepped = test.test if test and test.verdict == "beyond the drift" else None
        way = re.search(r"step (up|down)", text)
        assert bool(way) == bool(stepped), text
        if way and stepped:
            assert (way[1] == "up") == (stepped.step.value > 0)
    assert {"refused", "interval_too_wide", *LOST, *USUAL} <= seen


def check_ends(finding: Finding, text: str) -> None:
    """What it says fits is what the interval holds at its ends, no change between them."""
    few = [note.matches for note in finding.notes if isinstance(note, FewMatches)]
    rest = text.partition("both fit")[0]
    if few:
        assert rest.startswith(f"On only {few[0]} matches, ")
        rest = rest.partition(", ")[2]
    span, ends = told(finding), rest.split(" and ")
    assert span.low <= 0 <= span.high and len(ends) == 2
    for said, end in zip(ends, (span.low, span.high), strict=True):
        if re.match("no (change|gap)", said, re.IGNORECASE):
            assert abs(end) < 0.01
            continue
        value, half, _ = figure(said)
        assert abs(abs(end) - value) <= half * 1.000001, (text, span)
        assert bool(re.search("rise|higher", said)) == (end > 0), (text, span)


@pytest.mark.parametrize(
    ("change_is", "half", "said"),
    [
        (-0.086, 0.07, "down nearly 9%"),
        (0.5, 0.4, "up about 50%"),
        (0.031, 0.004, "up about 3.1%"),
        (0.0004, 0.003, "up less than 0.1%"),
    ],
)
def test_a_lead_is_as_fine_as_its_interval_bears(change_is: float, half: float, said: str):
    span = Span(value=change_is, low=change_is - half, high=change_is + half)
    found = change(effect=effect(change_is, 4.5 * change_is, relative=span))
    assert str(lead_of(found, BEAT, FORM)) == said


def test_what_held_leads_with_its_margin_and_one_point_is_one():
    found = change("b.fours", kind="share", verdict="held", margin=Margin(size=1, unit="points"))
    assert lead_of(found, BEAT, FORM) == ("any change under", "1 point", "")


def test_the_lines_of_a_card_as_they_are_read():
    wide = effect(0.01, 0.05, relative=Span(value=0.01, low=-0.04, high=0.06))
    plain = {"verdict": "can't tell", "because": "interval_too_wide", "effect": wide}
    assert why_not(change(**plain)) == "A fall of 4% and a rise of 6% both fit."
    few = change(**plain, notes=[FewMatches(matches=7)], drift=drift("beyond the drift"))
    assert why_not(few) == (
        "On only 7 matches, a fall of 4% and a rise of 6% both fit, and beside its drift there is "
        "a step down."
    )
    lost = {**plain, "because": "lost_among_many", "family_size": 5}
    assert why_not(change(**lost)) == (
        "By itself it would look like a rise, but it is one of 5 numbers tested."
    )
    assert why_not(change(refused="few_matches")) == "There are only one hundred matches."
    assert why_not(change()) == ""
    assert ECONOMY.kind == "rate"

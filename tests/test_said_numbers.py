"""Every number that is said or shown of a fact lies within its stated rounding of the fact.

Words and digits are read back by tests/reading_numbers.py, which shares nothing with the wording.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import chdir
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.brief.facts import _of_finding
from pipeline.brief.table_rows import table_row
from pipeline.charts.alt_text import describe_rows
from pipeline.charts.kinds.mix import adds_up
from pipeline.charts.rows import rows_of
from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import (
    Change,
    Finding,
    Gap,
    Groups,
    Mix,
    Player,
    Rates,
    Turn,
    control_of,
    drift_of,
    felt_of,
)
from pipeline.contracts.parts import Span
from pipeline.wording import of_kinds
from pipeline.wording.shown_numbers import UNROUNDED, both_shown, difference_shown, unrounded
from tests.finding_makers import answer, effect, felt, side, span
from tests.golden.made import TOPICS, made
from tests.reading_numbers import digits, numbers_in
from tests.word_makers import (
    BEAT,
    ECONOMY,
    EVENT,
    FORM,
    GAP,
    GROUPS,
    SHARE,
    SHARE_BEAT,
    beside,
    gap_between,
    part,
    share_moved,
)

# Numbers of a phrase, not of the finding: overs asked about, the count in a name, a pronoun.
ASIDE = re.compile(
    r"in overs? \d+(?: to \d+)?|numbers? \d+(?: to \d+)?|those \w+(?:-\w+)? overs|"
    r"every \w+ overs|one (?:side|moved?|match|of (?:them|its))|"
    r"than one\b|(?:19|20)\d\d(?:/\d\d)?|"
    r"eight are needed|three are needed|first|second|(?:[\w-]+ )+or more [\w ]+ in a row|more luck|"
    r"one of [\w ]+? looks|only one|tested [\w-]+(?: numbers)?,|rule one out|"
    r"ask for (?:eight|three)",
    re.IGNORECASE,
)


@pytest.mark.parametrize(
    ("words", "value", "half"),
    [
        ("nought point nought seven", 0.07, 0.005),
        ("four and a half", 4.5, 0.05),
        ("half a run", 0.5, 0.05),
        ("five and two thirds", 17 / 3, 0.05),
        ("thirty-six", 36, 0.5),
        ("one hundred and eighty-six", 186, 0.5),
        ("one thousand two hundred and four", 1204, 0.5),
        ("six thousand and four", 6004, 0.5),
        ("twelve point four", 12.4, 0.05),
        ("about one in five", 0.2, 0.02),
        ("two hundred point five", 200.5, 0.05),
        ("1,204", 1204, 0.5),
    ],
)
def test_numbers_are_read(words: str, value: float, half: float):
    (read,) = numbers_in(words)
    assert read[:2] == pytest.approx((value, half))


def test_two_numbers_of_a_sentence_are_two():
    read = numbers_in("between one hundred and one hundred and five per cent; two and three")
    assert [number.value for number in read] == [100, 105, 2, 3]
    (near, over) = numbers_in("nearly two, just over three")
    assert near.holds(1.7) and not near.holds(2.1) and over.holds(3.2) and not over.holds(2.9)


def check_fact(fact: Fact) -> None:
    """Display and spoken form of one fact."""
    if fact.value is None:
        return
    whole = fact.unit == "per cent" or fact.unit.startswith(("per cent of the share", "per cent a"))
    exact = fact.value * (100 if whole else 1)
    value, half = digits(fact.display)
    assert abs(value - exact) <= half * 1.000001, fact
    if fact.spoken.startswith("level"):
        assert value == 0
        return
    read = numbers_in(fact.spoken)[0]
    assert read.holds(exact), fact
    for word, sign in (("up", 1), ("more", 1), ("down", -1), ("fewer", -1)):
        if fact.spoken.endswith(f" {word}"):
            assert exact * sign >= 0, fact
    if fact.interval and fact.low is not None and fact.high is not None:
        ends = [digits(part) for part in fact.interval.split(" to ")]
        scaled = [end * (100 if whole else 1) for end in (fact.low, fact.high)]
        for (shown, off), end in zip(ends, scaled, strict=True):
            assert abs(shown - end) <= off * 1.000001, fact


def ends(of: Span | None, times: float = 1) -> Iterator[float]:
    if of is not None:
        yield from (of.value * times, of.low * times, of.high * times)


def leaves(of: Any) -> list[float]:
    """Every number that a part of a finding holds."""
    if isinstance(of, int | float) and not isinstance(of, bool):
        return [float(of)]
    if isinstance(of, msgspec.Struct):
        return [leaf for each in msgspec.structs.astuple(of) for leaf in leaves(each)]
    return [leaf for each in of for leaf in leaves(each)] if isinstance(of, list) else []


def sizes(finding: Finding) -> tuple[list[float], list[float]]:
    """(what may be said in per cent of change, everything that may be said) of a finding."""
    change: list[float] = [finding.margin.size]
    rest: list[float] = [finding.family_size, finding.margin.size]
    if finding.effect:
        rest += ends(finding.effect.difference)
        change += ends(finding.effect.relative, 100)
        rest += [1 + end for end in ends(finding.effect.relative)]  # so many times what it was
    for of in (finding.a, finding.b):
        rest.append(of.matches)
        if isinstance(finding, Gap):
            change += ends(of.change, 100)
            rest += ends(of.difference)
        else:
            rest += [value for value in (of.value,) if value is not None]
    if (told := felt_of(finding)) is not None:
        rest += [told.value, round(told.value) / 6, told.times]  # whole balls are overs too
    drift, control = drift_of(finding), control_of(finding)
    if drift:
        rest += leaves(drift)
        change += [100 * leaf for leaf in leaves(drift.test)]
    if control:
        change += ends(control.effect.relative, 100)
        rest += ends(control.effect.difference)
    if isinstance(finding, Change) and finding.shares:
        rest += [share * times for share in finding.shares for times in (1, 100)]
    if isinstance(finding, (Mix, Rates)) and finding.of_whole:
        rest += ends(finding.of_whole.whole)
        if finding.of_whole.share:
            change += ends(finding.of_whole.share, 100)
    if isinstance(finding, Player) and finding.shrunk:
        drawn = finding.shrunk
        change += [end * 100 for end in (drawn.change, drawn.low, drawn.high, drawn.mean)]
    return change, change + rest


def check_sentences(finding: Finding, lines: Iterable[str]) -> None:
    """Each number of the lines is one of the finding's, to its rounding."""
    if isinstance(finding, Turn):
        return  # its numbers are dates
    change, every = sizes(finding)
    for line in lines:
        for read in numbers_in(ASIDE.sub(" # ", line)):
            in_change = read.after.startswith("per cent") and finding.kind != "share"
            among = change if in_change else every
            assert any(read.holds(size) for size in among), (finding.id, line, read)


def check_card(finding: Finding, card: Any) -> None:
    """The number, both values under it, the interval."""
    if isinstance(finding, Turn):
        return
    share = finding.kind == "share"
    told = finding.told.difference if share else finding.told.relative
    exact = [end * (1 if share else 100) for end in ends(told)]
    value, half = digits(card.number)
    assert abs(value - exact[0]) <= half * 1.000001, (finding.id, card)
    interval = card.detail.split("interval ")[-1]
    shown = [digits(each) for each in re.findall(r"[−+]?[\d,]+(?:\.\d+)?", interval)][:2]
    for (end, off), is_ in zip(shown, exact[1:], strict=True):
        assert abs(end - is_) <= off * 1.000001, (finding.id, card)


def check_row(finding: Finding, measure: Any) -> None:
    """Shown values and their difference subtract, or the row is marked."""
    if finding.refused or isinstance(finding, Gap | Turn):
        return
    (a, _), (b, _) = map(digits, both_shown(finding, measure))
    difference, half = digits(difference_shown(finding, measure))
    marked = unrounded(finding, measure) == UNROUNDED
    assert marked or abs(b - a - difference) < half + 1e-9, (finding.id, a, b, difference)
    assert not marked or abs(b - a - difference) > half / 10, (finding.id, a, b, difference)


@pytest.mark.slow
@pytest.mark.parametrize("topic", TOPICS)
def test_all_that_the_demo_says(built: Path, tmp_path: Path, topic: str):
    """Facts, sentences, titles, cards and rows of the demo's topics."""
    found = made(built, topic, tmp_path)
    for fact in found.facts:
        check_fact(fact)
    by_id = {finding.id: finding for finding in found.findings.findings}
    for card in found.content.cards:
        if not by_id[card.id].refused:
            check_card(by_id[card.id], card)
    with chdir(built):
        view = views.charts(load(Path("config"), only=topic), topic)
    beats = {beat.id: beat for beat in view.beats}
    assert len(by_id) >= 8
    for finding in by_id.values():
        of = (beats[finding.beat], view.measures[finding.measure])
        check_sentences(finding, _lines(finding, *of, view.format, view.event))
        check_row(finding, of[1])


def _lines(finding: Finding, beat: Any, measure: Any, form: Any, event: Any) -> list[str]:
    """Its sentences, its sentence alone, its title."""
    of = (finding, beat, measure, form)
    lines = list(of_kinds.said(*of, event))
    if finding.verdict == "changed":
        lines.append(of_kinds.in_short(*of, event))
    if not isinstance(finding, Player):  # whose title is of the list
        lines.append(of_kinds.title([finding], beat, measure, [], form, event))
    return lines


UNTESTED = st.sampled_from(["changed", "held", "can't tell"])
SIZE = st.floats(-0.95, 3)


@st.composite
def two_values(draw: st.DrawFn) -> tuple[Finding, Any]:
    """A change or a difference of groups from any value to any other, in any measure's decimals."""
    a, change = draw(st.floats(0.02, 400)), draw(SIZE)
    half, verdict = draw(st.floats(0.001, 0.6)), draw(UNTESTED)
    kind, of = draw(st.sampled_from([(Change, BEAT), (Groups, GROUPS)]))
    wide = draw(st.floats(0.002, 0.3)) * a
    b, difference = a * (1 + change), a * change
    made = answer(
        kind,
        f"b.economy.c{draw(st.integers(0, 9))}",
        verdict=verdict,
        a=side(a, low=a - wide, high=a + wide, matches=draw(st.integers(6, 300))),
        b=side(b, low=b - wide, high=b + wide, matches=40),
        sides=("before", "after") if kind is Change else ("inland", "coast"),
        effect=effect(change, difference, half * a),
        felt=felt(difference * 10, half * a * 10),
        **({"drift": beside("beyond the drift")} if kind is Change else {}),
    )
    made.told.relative = span(change, half)
    decimals = draw(st.sampled_from([0, 1, 2]))
    return made, (of, ECONOMY.model_copy(update={"decimals": decimals}))


@settings(max_examples=100)
@given(two_values())
def test_all_that_is_said_of_a_change(drawn: tuple[Finding, Any]):
    finding, (beat, measure) = drawn
    check_sentences(finding, _lines(finding, beat, measure, FORM, EVENT))
    check_card(finding, of_kinds.card(finding, beat, measure, FORM))
    check_row(finding, measure)


@settings(max_examples=80)
@given(a=st.floats(0.5, 95), points=st.floats(-30, 30), half=st.floats(0.05, 12), verdict=UNTESTED)
def test_all_that_is_said_of_a_share(a: float, points: float, half: float, verdict: Any):
    b = min(99.5, max(0.2, a + points))
    finding = share_moved(b - a, half, verdict)
    finding.a, finding.b = (side(value, low=value - half, high=value + half) for value in (a, b))
    finding.told.relative = None
    check_sentences(finding, _lines(finding, SHARE_BEAT, SHARE, FORM, EVENT))
    check_card(finding, of_kinds.card(finding, SHARE_BEAT, SHARE, FORM))
    check_row(finding, SHARE)
    values = numbers_in(_lines(finding, SHARE_BEAT, SHARE, FORM, EVENT)[0])[:2]
    if verdict != "held" and len(values) == 2 and all(each.half < 0.5 for each in values):
        apart = values[1].value - values[0].value
        assert abs(apart - (b - a)) <= 2 * values[0].half


@settings(max_examples=80)
@given(one=SIZE, other=SIZE, change=SIZE, half=st.floats(0.005, 0.8), verdict=UNTESTED)
def test_all_that_is_said_of_a_gap(
    one: float, other: float, change: float, half: float, verdict: Any
):
    finding = gap_between(one, other, change, half, verdict)
    check_sentences(finding, _lines(finding, GAP, ECONOMY, FORM, EVENT))
    check_card(finding, of_kinds.card(finding, GAP, ECONOMY, FORM))


@settings(max_examples=100)
@given(two_values())
def test_every_fact_of_a_change(drawn: tuple[Finding, Any]):
    finding, (_, measure) = drawn
    for fact in _of_finding(finding, measure, FORM, headline=True):
        check_fact(fact)


def test_a_difference_that_does_not_subtract_is_marked_everywhere():
    """4.49 and 4.15 with −0.33: the true difference, its mark, and the subtraction behind it."""
    finding = answer(
        Change,
        a=side(4.48562),
        b=side(4.15227),
        effect=effect(-0.0743, 4.15227 - 4.48562),
    )
    assert both_shown(finding, ECONOMY) == ("4.49", "4.15")
    assert difference_shown(finding, ECONOMY) == "−0.33"
    assert table_row(finding, BEAT, ECONOMY, FORM).mark == "†"
    assert "−0.33† runs an over" in of_kinds.card(finding, BEAT, ECONOMY, FORM).detail
    assert of_kinds.under_rows([finding], BEAT, ECONOMY) == [
        "† Differences are taken before rounding."
    ]
    facts = {fact.id: fact for fact in _of_finding(finding, ECONOMY, FORM, headline=True)}
    assert facts["b.economy.difference"].arithmetic == "4.15227 − 4.48562, then rounded"
    finding.b.value = 4.155  # and now they do: 4.16 less 4.49
    finding.told.difference.value = 4.155 - 4.48562
    assert table_row(finding, BEAT, ECONOMY, FORM).mark == ""
    assert of_kinds.under_rows([finding], BEAT, ECONOMY) == []


def test_a_frame_and_its_alternative_text_mark_points_that_do_not_subtract():
    finding = share_moved(-0.96, 0.3)
    finding.a.value, finding.b.value = 7.24, 6.28
    (row,) = rows_of([finding], SHARE_BEAT, SHARE, FORM)
    assert (row.change_shown, row.mark) == ("−1.0 pts", "†")  # and 6.3 less 7.2 is 0.9
    told = describe_rows(SHARE, [row], ("before", "after"))
    assert "−1.0 pts† (" in told and told.endswith("† Differences are taken before rounding.")


@pytest.mark.parametrize(("rates", "adds"), [(-0.03, True), (-0.0449, False)])
def test_a_stair_whose_steps_do_not_add_up_as_written_is_known(rates: float, adds: bool):
    """4.67, −0.05 and −0.03 lead to 4.59; with −0.04 they would to 4.58."""
    mix_part, rates_part = part(Mix, -0.01, 0.002), part(Rates, -0.01, 0.02)
    mix_part.told.difference.value, rates_part.told.difference.value = -0.05, rates
    assert adds_up((4.67, 4.59), mix_part, rates_part, 2) is adds

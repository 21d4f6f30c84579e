"""Tempting sentences that the data do not carry: the kind's own among them, the worst first."""

from __future__ import annotations

import msgspec
import pytest

from pipeline.config.kinds import AnyBeat
from pipeline.contracts.finding import Change, Finding, Mix
from pipeline.contracts.over_time import EventPlace
from pipeline.wording.dont_say import dont_say
from tests.word_makers import (
    BEAT,
    EVENT,
    FORM,
    GAP,
    GROUPS,
    MIX,
    PLAYERS,
    SHARE_BEAT,
    TREND,
    TURN,
    beside,
    gap_between,
    groups_apart,
    moved,
    part,
    player,
    share_moved,
    turn,
)


def of_kind(kind: str, change: float, verdict: str) -> Change:
    """One group's own change, as it stands beside a gap."""
    return moved(change, 0.035, verdict, values={"bowler_kind": kind})


NO_GAP = gap_between(0.03, -0.07, -0.02, 0.1, "can't tell")


@pytest.mark.parametrize(
    ("of", "found", "temptation"),
    [
        (
            BEAT,
            [moved(0.1, 0.03, drift=beside("in line with the drift"))],
            "“Because of the long rope.” Some of it was on its way there anyway, and a step is "
            "not a cause.",
        ),
        (
            BEAT,
            [moved(0.1, 0.03, drift=beside("beyond the drift"))],
            "“Because of the long rope.” There is a step at the date; what made it is not in the "
            "data.",
        ),
        (
            BEAT,
            [moved(0.02, 0.1, "can't tell")],
            "“No difference.” The data can’t tell, which is not the same.",
        ),
        (
            BEAT,
            [moved(0.01, 0.02, "held")],
            "“Exactly the same.” It held within a margin set in advance.",
        ),
        (
            BEAT,
            [moved(0.1, 0.03), moved(0.01, 0.02, "held")],
            "“Only these rows changed.” Rows are judged one by one, not against another.",
        ),
        (
            SHARE_BEAT,
            [share_moved(4.0, 0.9)],
            "“Up 16 per cent.” A share moves in points; per cent of a per cent misleads.",
        ),
        (
            GROUPS,
            [groups_apart(0.1, 0.03)],
            "“Because they are different.” Other things differ between the groups too.",
        ),
        (
            GAP,
            [NO_GAP, of_kind("pace", 0.03, "can't tell"), of_kind("spin", -0.07, "changed")],
            "“Only spin changed.” Changed here and can’t tell there is not a difference.",
        ),
        (
            MIX,
            [part(Mix, -0.06, 0.01)],
            "“They did it better.” Part of the change is who did it, not how.",
        ),
        (TURN, [turn()], "“Because of the long rope.” A date that fits is not a cause."),
        (
            TURN,
            [turn(event=EventPlace(inside=False, rank=6))],
            "“Because of the long rope.” This compares two windows; it does not say why.",
        ),
        (
            PLAYERS,
            [player(False)] * 3,
            "“The biggest loser was …” No one stands clear of the rest, so none can be picked.",
        ),
        (
            PLAYERS,
            [player(False), player(True), player(False)],
            "“Top of the list.” Say who stands clear; the order among the others is not known.",
        ),
    ],
)
def test_what_not_to_say(of: AnyBeat, found: list[Finding], temptation: str):
    assert temptation in dont_say(of, found, EVENT, FORM)


def test_only_what_changed_decides_why_the_event_is_no_cause():
    """A row that stood, or can't be told, has a second verdict too, and a date that may fit."""
    step = moved(0.1, 0.03, drift=beside("beyond the drift"))
    still = moved(0.01, 0.02, "held", drift=beside("in line with the drift"))
    (line, *_) = dont_say(BEAT, [still, step, still], EVENT, FORM)
    assert line.endswith("There is a step at the date; what made it is not in the data.")
    elsewhere = turn(event=EventPlace(inside=False, rank=6))
    (line, *_) = dont_say(TURN, [turn("can't tell"), elsewhere], EVENT, FORM)
    assert line.endswith("This compares two windows; it does not say why.")


@pytest.mark.parametrize(
    ("of", "found"),
    [
        (GROUPS, [groups_apart(0.1, 0.03)]),
        (BEAT, [moved(0.01, 0.02, "held")]),
    ],
)
def test_an_event_is_no_cause_to_warn_of_where_nothing_is_held_against_it(of, found):
    assert not [line for line in dont_say(of, found, EVENT, FORM) if "long rope" in line]


@pytest.mark.parametrize(
    ("of", "found"),
    [
        (TREND, [moved(0.1, 0.03), moved(0.01, 0.02, "held")]),
        (GAP, [NO_GAP, of_kind("pace", 0.03, "changed"), of_kind("spin", -0.07, "changed")]),
        (PLAYERS, [player(True), player(False)]),
    ],
)
def test_rows_that_stand_for_themselves_tempt_to_nothing(of, found):
    lines = dont_say(of, found, EVENT, FORM)
    assert not [line for line in lines if line.startswith(("“Only", "“The biggest", "“Top"))]


def test_the_worst_is_warned_of_first():
    """What is no cause before the scale, the scale before the parts, then verdicts, then rows."""
    rows = [share_moved(4.0, 0.9), share_moved(0.1, 0.3, "held"), share_moved(1, 1.4, "can't tell")]
    starts = [line.split("”")[0] for line in dont_say(SHARE_BEAT, rows, EVENT, FORM)]
    assert starts == [
        *("“Because of the long rope.", "“Up 16 per cent.", "“No difference."),
        *("“Exactly the same.", "“Only these rows changed."),
    ]


def test_a_cause_comes_before_an_order_and_an_order_before_a_scale():
    rows = [
        msgspec.structs.replace(NO_GAP, kind="share"),
        of_kind("pace", 0.03, "can't tell"),
        msgspec.structs.replace(of_kind("spin", -0.07, "changed"), kind="share"),
    ]
    starts = [line.split("”")[0] for line in dont_say(GAP, rows, EVENT, FORM)]
    assert starts[:3] == ["“Because of the long rope.", "“Only spin changed.", "“Down 7 per cent."]


def test_a_scale_comes_before_the_parts_and_the_parts_before_the_verdicts():
    share = msgspec.structs.replace(groups_apart(0.16, 0.03), kind="share")
    lines = dont_say(GROUPS, [share, groups_apart(0.01, 0.02, "held")], None, FORM)
    starts = [line.split("”")[0] for line in lines]
    assert starts == ["“Up 16 per cent.", "“Because they are different.", "“Exactly the same."]


def test_per_cent_of_a_share_is_warned_of_once():
    rows = [share_moved(4.0, 0.9), share_moved(5.0, 0.9)]
    lines = [line for line in dont_say(SHARE_BEAT, rows, None, FORM) if "per cent.”" in line]
    assert lines == ["“Up 16 per cent.” A share moves in points; per cent of a per cent misleads."]


def test_one_date_that_fits_is_enough_to_warn_of_it():
    dates = [turn(event=EventPlace(inside=inside, rank=1)) for inside in (False, True)]
    (line, *_) = dont_say(TURN, dates, EVENT, FORM)
    assert line.endswith("A date that fits is not a cause.")


@pytest.mark.parametrize("rows", [[moved(0.1, 0.03)], [moved(0.1, 0.03), moved(0.2, 0.03)]])
def test_rows_of_one_verdict_tempt_to_no_comparison(rows):
    assert not [line for line in dont_say(BEAT, rows, EVENT, FORM) if "rows" in line]


@pytest.mark.parametrize("verdict", ["held", "can't tell"])
def test_only_what_changed_has_a_reason_that_may_not_be_given(verdict: str):
    """An unchanged row in line with its drift says nothing of one that is beyond its own."""
    beyond = moved(0.1, 0.03, drift=beside("beyond the drift"))
    other = moved(0.01, 0.02, verdict, drift=beside("in line with the drift"))
    first = dont_say(BEAT, [other, beyond], EVENT, FORM)[0]
    assert first == dont_say(BEAT, [beyond], EVENT, FORM)[0]
    assert "There is a step at the date" in first

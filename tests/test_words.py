"""Sentences that never say more than their finding."""

from __future__ import annotations

import difflib
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.config.kinds import KINDS
from pipeline.contracts.finding import Mix
from pipeline.wording import of_kinds
from pipeline.wording.linked import linked
from pipeline.wording.subject import cell_subject
from tests.finding_makers import drift, slope, step_test
from tests.outcomes import CANT_TELL, FILE, OUTCOMES, Outcome, text
from tests.word_makers import (
    BEAT,
    ECONOMY,
    FORM,
    GAP,
    PLAYERS,
    SHARE,
    SHARE_BEAT,
    alone,
    beat,
    gap_between,
    moved,
    part,
    player,
    said,
    share_moved,
)

EACH = pytest.mark.parametrize("outcome", OUTCOMES, ids=[each.name for each in OUTCOMES])


def test_what_is_said_of_each_outcome_is_as_it_was():
    """The difference is of the sentences; `make outcomes` keeps what is meant."""
    kept, made = FILE.read_text("utf-8"), text()
    moved_lines = difflib.unified_diff(
        *(lines.splitlines() for lines in (kept, made)), "kept", "made", lineterm="", n=1
    )
    assert kept == made, "make outcomes keeps what is meant:\n" + "\n".join(moved_lines)


def test_every_kind_of_beat_has_outcomes_of_every_verdict():
    told = {(outcome.beat.kind, outcome.finding.verdict) for outcome in OUTCOMES}
    asking = {"before_after", "gap", "groups", "mix", "share"}
    verdicts = ("changed", "held", "can't tell")
    assert {(kind, verdict) for kind in asking for verdict in verdicts} <= told
    assert {kind for kind, _ in told} == set(KINDS)
    names = [outcome.name for outcome in OUTCOMES]
    assert len(set(names)) == len(names)


@EACH
def test_the_same_finding_has_the_same_words(outcome: Outcome):
    assert outcome.said() == outcome.said()


UNITS = "nought one two three four five six seven eight nine ten eleven twelve hundred thousand"
TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
WORD = "|".join([*UNITS.split(), r"\w+teen", *TENS.split(), "half", "third", "thirds", "point"])
NUMBER = re.compile(rf"\b(?:{WORD})(?:[ -](?:and )?(?:a )?(?:{WORD}))*\b", re.IGNORECASE)
# Words that are no numbers, and counts that belong to a phrase.
ASIDE = re.compile(
    r" of a (?:percentage )?point| points\b|every ten overs|\bone (?:side|moved|this|move)|"
    r"tested forty numbers|rule one out|than one|in overs \d+ to \d+|six or more dot balls",
    re.IGNORECASE,
)


@EACH
def test_at_most_two_numbers_a_sentence(outcome: Outcome):
    """The overs of a spell, the looks of a family, the length of a run and a pronoun aside."""
    for part_ in re.split(r"(?<=[.:;]) ", outcome.said()):
        assert len(NUMBER.findall(ASIDE.sub("", part_))) <= 2, part_


BANNED = (
    "because",
    "significant",
    "likely",
    "probably",
    "proves",
    "no effect",
    "no difference",
    "exactly",
)


@EACH
def test_no_line_gives_a_cause_or_a_likelihood(outcome: Outcome):
    made = outcome.said().lower()
    assert not [word for word in BANNED if re.search(rf"\b{word}\b", made)]
    share = outcome.finding.kind == "share"
    assert not share or ("per cent up" not in made and "per cent down" not in made)


@given(
    change=st.floats(-0.6, 1.5),
    half=st.floats(0.001, 0.8),
    verdict=st.sampled_from(["changed", "held", "can't tell"]),
)
def test_direction_words_agree_with_signs(change: float, half: float, verdict: str):
    low, high = change - half, change + half
    made = said(moved(change, half, verdict, id="b.economy.spin-middle"))
    assert "  " not in made and "nan" not in made.split()
    if verdict == "changed" and (low > 0.01 or high < -0.01):
        assert f"and the {'rise' if change > 0 else 'fall'} is anywhere from" in made
    assert ("Allow for luck, and the " in made) == (verdict == "changed")
    assert ("any change is under five per cent" in made) == (verdict == "held")
    assert (" rose from " in made) == (verdict == "changed" and change > 0)
    assert (" fell from " in made) == (verdict == "changed" and change <= 0)


def test_a_gap_goes_the_way_of_its_own_size():
    """A gap in units may point the other way than in per cent; what is told is in per cent."""
    found = gap_between(0.03, -0.07, -0.10, 0.03)
    found.told.difference.value *= -1
    line = of_kinds.in_short(found, GAP, ECONOMY, FORM, None)
    assert line == "Set against pace’s, spin’s economy went down about ten per cent."


def test_whose_number_and_where():
    """Owners own; places and phases follow; filters are said as cells are."""
    spin = beat("before_after", where={"bowler_kind": ["spin"], "overs": "11-40"})
    assert cell_subject({"innings": "1"}, spin, ECONOMY, FORM) == (
        "spin’s economy in overs 11 to 40 in the first innings"
    )
    rate = ECONOMY.model_copy(update={"said": "the economy rate"})
    assert cell_subject({"phase": "death"}, BEAT, rate, FORM) == "the economy rate at the death"
    assert cell_subject({"batter_hand": "left"}, BEAT, rate, FORM) == (
        "the economy rate against left-handers"
    )


def test_lines_that_turn_say_so():
    """Both changed, and not the same way; a part of a mix is no change of its own."""
    up, down, level = (moved(change, 0.03) for change in (0.1, -0.1, 0.0))
    held = moved(-0.01, 0.02, "held")
    assert linked(up, down) == linked(down, up) == "Now the other way."
    others = [(up, up), (up, held), (held, up), (up, part(Mix, -0.1, 0.03)), (up, level)]
    assert [linked(*pair) for pair in others] == [""] * 5


def test_who_is_alone_in_the_kind_is_not_held_against_her_own_change():
    """A headline may name one; the mean of one is no mean of others."""
    for moved_too, own in ((True, "It moved by more than luck"), (False, "no change")):
        told = said(alone(player(False, moved_too=moved_too)), PLAYERS)
        assert told.endswith(f"{own}, and there is nobody of the kind to hold that against.")
        assert "mean" not in told and "apart" not in told


def test_twice_is_said_where_it_is_twice():
    assert "That’s about twice what it was." in said(moved(1.0, 0.2))
    assert "twice" not in said(moved(0.9, 0.2)) and "twice" not in said(moved(1.0, 1.2, CANT_TELL))


def test_a_share_of_matches_has_no_relative_change_to_tell():
    found = share_moved(4.0, 0.9)
    found.told.relative = None
    assert said(found, SHARE_BEAT, SHARE).startswith(
        "Left-arm bowling’s share of the balls rose from twenty-five per cent to twenty-nine."
    )


def test_a_step_and_a_drift_are_said_to_what_is_known_of_them():
    """A step without its interval; a drift to what its own interval bears."""
    told = {"slope": slope(0.0134, 0.0004), "expected": slope(0.0534, 0.002)}
    fine = step_test(-0.125, 0.004, **told)
    beyond = moved(-0.10, 0.03, drift=drift("beyond the drift", test=fine))
    assert said(beyond).endswith(" it’s a step down."), "its interval is the table's"
    line = moved(0.2, 0.03, drift=drift("in line with the drift", test=fine))
    assert "rising by just over one point three per cent a season before that." in said(line)
    assert "would have taken it just over five point three per cent up." in said(line)
    rough = {"slope": slope(0.0134, 0.01), "expected": slope(0.0534, 0.04)}
    line = moved(0.2, 0.03, drift=drift("in line with the drift", test=step_test(**rough)))
    assert "rising by just over one per cent a season before that. That drift" in said(line)
    assert "would have taken it just over five per cent up." in said(line)

"""Cautions in words: each kind of note has its own, the worst first, each once."""

from __future__ import annotations

import pytest

from pipeline.contracts import notes as codes
from pipeline.contracts.notes import AnyNote, AtLeast
from pipeline.wording import notes

NOTES: list[AnyNote] = [
    codes.ChosenByResult(),
    codes.DriftNotTestable(because="few_periods_after", periods_after=2, periods_before=9),
    codes.RivalEvent(
        rivals=[
            codes.Rival(name="the new ball", days=400),
            codes.Rival(name="the drinks break", days=0),
        ]
    ),
    codes.Simpson(),
    codes.MixMoved(mix=-0.05, change=-0.08, simpson=False),
    codes.OppositionChanged(share=0.4),
    codes.CheckDisagrees(p=0.04, p_permutation=0.12),
    codes.OneMatchDominates(share=0.31),
    codes.CoverageLow(share=0.21),
    codes.FewMatches(matches=8),
    codes.FewCounted(count=12, wickets=True),
    codes.SurvivorsOnly(
        in_either=60, in_both=30, kept=11, left_out=19, at_least=AtLeast(count=300, of="balls")
    ),
    codes.ReducedMatches(matches=8, of=400),
    codes.ScaleDisagrees(),
    codes.TransitionSeason(seasons=["2017"]),
    codes.UnknownLeftOut(share=0.031),
]


@pytest.mark.parametrize("note", NOTES, ids=lambda note: type(note).__name__)
def test_a_note_is_one_sentence_or_two(note: AnyNote):
    said = notes.caution(note)
    assert said[0].isupper() or said[0].isdigit()
    assert said.endswith(".") and "None" not in said and len(said) < 190


def test_the_numbers_of_a_note_are_in_its_words():
    said = {type(note): notes.caution(note) for note in NOTES}
    assert said[codes.FewCounted].startswith("Only 12 wickets")
    assert "the new ball thirteen months later and the drinks break" in said[codes.RivalEvent]
    assert "two seasons after it" in said[codes.DriftNotTestable]
    assert said[codes.SurvivorsOnly].startswith("49 players of 60 fell short of 300 balls")
    assert said[codes.Simpson].startswith("The whole went one way, and with the same mix it went")
    assert said[codes.MixMoved].startswith("Who did what, not how well, is worth −0.05 by itself")
    balls = notes.caution(codes.FewCounted(count=1_012, wickets=False))
    assert balls.startswith("Only 1,012 in the count it is divided by")


def test_none_and_next_to_none_are_said_as_that():
    none = notes.caution(codes.FewCounted(count=0, wickets=True))
    assert none.startswith("Not a wicket on the thinner side")
    one = notes.caution(codes.FewCounted(count=1, wickets=True))
    assert one.startswith("Only 1 wicket on the thinner side")
    nothing = notes.caution(codes.FewCounted(count=0, wickets=False))
    assert nothing.startswith("On one side there is nothing to divide by")
    tiny = notes.caution(codes.UnknownLeftOut(share=0.0002))
    assert tiny.startswith("Under 0.1% of the balls are of unknown kind or hand")


def test_the_worst_come_first():
    """In the order above, however they are given."""
    assert notes.ranked(NOTES[::-1]) == [notes.caution(note) for note in NOTES]
    assert [note for note in NOTES if notes.overturns(note)] == NOTES[:6]


def test_each_kind_is_said_once_in_its_worst_case():
    told: list[AnyNote] = [codes.FewMatches(matches=count) for count in (18, 8, 19)]
    told += [codes.UnknownLeftOut(share=share) for share in (0.02, 0.03)]
    told += [codes.OneMatchDominates(share=share) for share in (0.3, 0.4, 0.26)]
    told += [codes.FewCounted(count=count, wickets=False) for count in (20, 12)]
    said = notes.ranked(told)
    assert [line.split(" of ")[0].split(" on ")[0] for line in said] == [
        *("One match holds 40%", "Only 8 matches", "Only 12 in the count it is divided by"),
        "3.0%",
    ]


@pytest.mark.parametrize(("seasons", "said"), [(1, "one season before"), (2, "two seasons before")])
def test_one_season_is_said_as_one(seasons: int, said: str):
    note = codes.DriftNotTestable(
        because="few_periods_before", periods_before=seasons, periods_after=9
    )
    assert notes.caution(note).startswith(f"Drift can’t be tested ({said}")


def test_of_two_as_bad_the_first_is_said():
    told: list[AnyNote] = [codes.ReducedMatches(matches=count, of=400) for count in (8, 9)]
    assert notes.ranked(told) == [notes.caution(told[0])]


def test_shares_are_said_to_a_tenth_where_they_are_small():
    assert notes.caution(codes.CoverageLow(share=0.2144)).startswith("21.4% of the balls")
    assert notes.caution(codes.MixMoved(mix=0.05, change=0.08, simpson=False)).startswith(
        "Who did what, not how well, is worth +0.05 by itself, beside a change of +0.08 in all"
    )
    assert notes.coverage("bowling arm", 0.0312) == (
        "3.1% of the balls are of unknown bowling arm; every row by it leaves them out."
    )

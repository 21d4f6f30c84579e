"""Cautions in words: each kind of note has its own, the worst first, each once."""

from __future__ import annotations

import pytest

from pipeline.contracts import notes as codes
from pipeline.contracts.notes import AnyNote, AtLeast
from pipeline.wording import notes
from pipeline.wording.noted import About, Noted

KINDS = About(unknown=("bowler_kind",), below="ball")
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
    codes.FewClusters(of="season", a=2, b=1, few="few_clusters"),
    codes.FewCounted(count=12, wickets=True),
    codes.SurvivorsOnly(
        in_either=60, in_both=30, kept=11, left_out=19, at_least=AtLeast(count=300, of="balls")
    ),
    codes.ReducedMatches(matches=8, of=400),
    codes.ScaleDisagrees(),
    codes.TransitionSeason(seasons=["2017"]),
    codes.UnknownLeftOut(share=0.031),
]


def caution(note: AnyNote, about: About = KINDS) -> str:
    return notes.caution(Noted(note, about))


def ranked(told: list[AnyNote], about: About = KINDS) -> list[str]:
    return [notes.caution(each) for each in notes.ranked(Noted(note, about) for note in told)]


@pytest.mark.parametrize("note", NOTES, ids=lambda note: type(note).__name__)
def test_a_note_is_one_sentence_or_two(note: AnyNote):
    said = caution(note)
    assert said[0].isupper() or said[0].isdigit()
    assert said.endswith(".") and "None" not in said and len(said) < 190


def test_the_numbers_of_a_note_are_in_its_words():
    said = {type(note): caution(note) for note in NOTES}
    assert said[codes.FewCounted].startswith("Only 12 wickets")
    assert "the new ball thirteen months later and the drinks break" in said[codes.RivalEvent]
    assert "two seasons from after" in said[codes.DriftNotTestable]
    assert said[codes.SurvivorsOnly].startswith("49 players of 60 fell short of 300 balls")
    assert said[codes.Simpson].startswith("The whole went one way, and with the same mix it went")
    assert said[codes.MixMoved].startswith("Who did what, not how well, is worth −0.05 by itself")
    balls = caution(codes.FewCounted(count=1_012, wickets=False))
    assert balls.startswith("Only 1,012 balls on the thinner side")


def test_none_and_next_to_none_are_said_as_that():
    none = caution(codes.FewCounted(count=0, wickets=True))
    assert none.startswith("Not a wicket on the thinner side")
    one = caution(codes.FewCounted(count=1, wickets=True))
    assert one.startswith("Only 1 wicket on the thinner side")
    nothing = caution(codes.FewCounted(count=0, wickets=False))
    assert nothing.startswith("On one side there is nothing to divide by")
    tiny = caution(codes.UnknownLeftOut(share=0.0002))
    assert tiny.startswith("Under 0.1% of the balls are from bowlers whose kind we don’t know")


def test_the_worst_come_first():
    """In the order above, however they are given."""
    assert ranked(NOTES[::-1]) == [caution(note) for note in NOTES]
    assert [note for note in NOTES if notes.overturns(note)] == NOTES[:6]


def test_each_kind_is_said_once_in_its_worst_case():
    told: list[AnyNote] = [codes.FewMatches(matches=count) for count in (18, 8, 19)]
    told += [codes.UnknownLeftOut(share=share) for share in (0.02, 0.03)]
    told += [codes.OneMatchDominates(share=share) for share in (0.3, 0.4, 0.26)]
    told += [codes.FewCounted(count=count, wickets=False) for count in (20, 12)]
    said = ranked(told)
    assert [line.split(" of ")[0].split(" on ")[0] for line in said] == [
        *("One match holds 40%", "Only 8 matches", "Only 12 balls"),
        "3.0%",
    ]


@pytest.mark.parametrize(
    ("seasons", "said"), [(1, "one season from before"), (2, "two seasons from before")]
)
def test_one_season_is_said_as_one(seasons: int, said: str):
    note = codes.DriftNotTestable(
        because="few_periods_before", periods_before=seasons, periods_after=9
    )
    assert caution(note).startswith(f"Drift can’t be tested (we have {said}, ")


def test_of_many_that_can_be_compared_the_worst_is_said():
    told: list[AnyNote] = [codes.ReducedMatches(matches=count, of=400) for count in (8, 9, 7)]
    assert ranked(told) == [caution(told[1])]
    told = [codes.CheckDisagrees(p=0.04, p_permutation=other) for other in (0.09, 0.2)]
    assert ranked(told) == [caution(told[1])]


def test_of_many_that_can_t_be_compared_each_is_said():
    told: list[AnyNote] = [
        *(codes.RivalEvent(rivals=[codes.Rival(name=name)]) for name in ("the roof", "rain"))
    ]
    assert ranked([*told, told[0]]) == [caution(note) for note in told]


def test_shares_are_said_to_a_tenth_where_they_are_small():
    assert caution(codes.CoverageLow(share=0.2144)).startswith("21.4% of the balls")
    assert caution(codes.MixMoved(mix=0.05, change=0.08, simpson=False)).startswith(
        "Who did what, not how well, is worth +0.05 by itself, beside a change of +0.08 in all"
    )


UNKNOWN = codes.UnknownLeftOut(share=0.0312)


@pytest.mark.parametrize(
    ("cuts", "said"),
    [
        (("bowler_arm",), "from bowlers whose arm we don’t know; every row by bowling arm leaves"),
        (("country",), "at grounds whose country we don’t know; every row by country leaves them"),
        (
            ("batter_hand", "bowler_kind"),
            "to batters whose hand, or from bowlers whose kind we don’t know; rows by either leave",
        ),
        (("band",), "were bowled in other overs than these: no row has them."),
    ],
)
def test_what_is_unknown_is_said_of_the_cut_that_needs_it(cuts: tuple[str, ...], said: str):
    told = caution(UNKNOWN, About(unknown=cuts))
    assert told.startswith("3.1% of the balls ") and said in told


def test_the_sheet_that_would_mend_it_is_named():
    low = codes.CoverageLow(share=0.2)
    assert "fill in the players’ sheet" in caution(low, About(unknown=("batter_hand",)))
    assert "fill in the grounds’ sheet" in caution(low, About(unknown=("region",)))
    assert "don’t lean on it" in caution(low, About(unknown=("batting_order",)))
    assert "other overs than these: no row has them" in caution(low, About(unknown=("phase",)))


@pytest.mark.parametrize(
    ("below", "said"),
    [
        ("innings", "Only 12 innings on"),
        ("match", "A match counts as one, so there are only 12"),
        ("decided match", "Only 12 decided matches on"),
        ("", "Only 12 in the count it is divided by on"),
    ],
)
def test_a_small_count_is_of_what_a_number_is_divided_by(below: str, said: str):
    told = caution(codes.FewCounted(count=12, wickets=False), About(below=below))
    assert told.startswith(said)

"""Cautions in words: number first, reason second, consequence third."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple, TypeVar

from pipeline.calendar import YEAR
from pipeline.contracts import notes
from pipeline.contracts.notes import AnyNote, Note
from pipeline.text import listed
from pipeline.wording import numbers
from pipeline.wording.caution_words import (
    check_disagrees_said,
    coverage_said,
    few_counted_said,
    mix_moved_said,
    share_said,
    shortened_said,
    survivors_said,
    unknown_said,
)
from pipeline.wording.clusters import few_said
from pipeline.wording.composition import lead, not_like_for_like_said
from pipeline.wording.noted import About, Noted
from pipeline.wording.other_ways import carries_said
from pipeline.wording.second_verdict import reason

LENGTHS = ((YEAR, "years"), (30.44, "months"), (7, "weeks"), (1, "days"))  # days, and of what
Kind = TypeVar("Kind", bound=Note)


class Caution(NamedTuple):
    """The words of one kind of note.

    Of many that are `alike` the one is told that is the worst, where they can be compared; without
    `how_bad` every one that says something else is told. `again` is its name where it was told
    before and holds here too; a note without one holds of the whole topic.
    """

    of: type[Note]
    words: Callable[[Any, About], str]
    again: Callable[[Any], str]
    how_bad: Callable[[Any], float] | None
    alike: Callable[[Any, About], object]


def _caution(
    of: type[Kind],
    words: Callable[[Kind], str],
    again: str = "",
    how_bad: Callable[[Kind], float] | None = None,
) -> Caution:
    """Of a kind whose words hang on the note alone."""
    return Caution(of, lambda note, _: words(note), lambda _: again, how_bad, lambda *_: None)


def _of_the_topic(
    of: type[Kind],
    words: Callable[[Kind, About], str],
    how_bad: Callable[[Kind], float],
    alike: Callable[[Kind, About], object],
) -> Caution:
    """Of a kind that many beats share, told again where it is worse."""
    return Caution(of, words, lambda _: "", how_bad, alike)


def _rivals(rivals: list[notes.Rival]) -> str:
    """'the longer drinks break, two years later, and the new ball, three months earlier'."""
    return listed([one.name + (f" {_apart(one.days)}" if one.days else "") for one in rivals])


def _apart(days: int) -> str:
    """'two years later', 'three months earlier'; 'years' from a year and a half on."""
    size = abs(days)
    length, unit = next((one for one in LENGTHS if size >= 1.5 * one[0]), LENGTHS[-1])
    told = numbers.with_unit(numbers.said(round(size / length), 0), unit)
    return f"{told} {'later' if days > 0 else 'earlier'}"


# What stands before all else: the number is another one.
FOREMOST = (
    Caution(
        notes.NotLikeForLike,
        lambda note, about: not_like_for_like_said(note, about.subject),
        lambda note: f"a change that is another one {lead(note.shown, note.held)}",
        None,
        lambda _, about: about.subject,
    ),
)
# What could turn the answer over, the worst first.
OVERTURNING = (
    *FOREMOST,
    _caution(
        notes.ChosenByResult,
        lambda _: (
            "Sides are told apart by result, which the play itself decided: this shows how sides "
            "that won or lost played, not what wins."
        ),
        "sides told apart by result",
    ),
    Caution(
        notes.DriftNotTestable,
        lambda note, _: f"Drift can’t be tested ({reason(note)}), so say what moved, not why.",
        lambda note: "a drift we can’t test" if note.because == "empty_period" else "",
        None,
        lambda *_: None,
    ),
    _caution(
        notes.RivalEvent,
        lambda note: (
            f"In the same stretch there was also {_rivals(note.rivals)}: a step could come from "
            f"{'that' if len(note.rivals) == 1 else 'those'}."
        ),
    ),
    _caution(
        notes.Simpson,
        lambda note: (
            "The whole went one way, and with the same mix it went the other way: say the "
            "same-mix number beside it, or each group’s own."
        ),
        "a whole that went against its parts",
    ),
    Caution(
        notes.OneCarries,
        lambda note, about: carries_said(note, about.subject),
        lambda _: "one that carries it",
        None,
        lambda *_: None,
    ),
    Caution(notes.MixMoved, mix_moved_said, lambda _: "a mix that moved", None, lambda *_: None),
    _caution(
        notes.OppositionChanged,
        lambda note: (
            f"{share_said(note.share)} of the matches after are of a side that was not there "
            "before: the opposition changed too."
        ),
        how_bad=lambda note: note.share,
    ),
)
# What makes it fuzzy, the worst first.
BLURRING = (
    _caution(
        notes.CheckDisagrees,
        check_disagrees_said,
        "a check that disagrees",
        lambda note: abs(note.p - note.p_permutation),
    ),
    _caution(
        notes.OneMatchDominates,
        lambda note: (
            f"One match holds {share_said(note.share)} of the count on its side: look at it first."
        ),
        "one match that weighs heavily",
        lambda note: note.share,
    ),
    _of_the_topic(
        notes.CoverageLow,
        coverage_said,
        lambda note: note.share,
        lambda _, about: about.unknown,
    ),
    _caution(
        notes.FewMatches,
        lambda note: (
            f"Only {numbers.matches(note.matches)} on the thinner side: the interval is wide and "
            "could yet move."
        ),
        "few matches",
        lambda note: -note.matches,
    ),
    Caution(
        notes.FewClusters,
        lambda note, _: few_said(note),
        lambda note: "" if note.few == "few_clusters" else "a count that is all of one time",
        lambda note: -(note.a + note.b),
        lambda note, _: (note.few, note.of),
    ),
    Caution(
        notes.FewCounted,
        few_counted_said,
        lambda _: "a small count",
        lambda note: -note.count,
        lambda note, about: None if note.wickets else about.below,
    ),
    _caution(
        notes.SurvivorsOnly,
        survivors_said,
        "those who lasted",
        lambda note: (note.in_either - note.kept) / note.in_either,
    ),
    _of_the_topic(
        notes.ReducedMatches,
        shortened_said,
        lambda note: note.matches / note.of,
        lambda _, about: about.counted,
    ),
    _caution(
        notes.ScaleDisagrees,
        lambda note: (
            "At the edge: of the interval in units and the one in per cent, only one leaves no "
            "change out."
        ),
        "two intervals that disagree",
    ),
    _caution(
        notes.TransitionSeason,
        lambda note: (
            f"The change came during {listed(note.seasons)}; "
            f"{'that season is' if len(note.seasons) == 1 else 'those seasons are'} left out of "
            "both sides."
        ),
    ),
    _of_the_topic(
        notes.UnknownLeftOut,
        unknown_said,
        lambda note: note.share,
        lambda _, about: about.unknown,
    ),
)
CAUTIONS = {caution.of: caution for caution in (*OVERTURNING, *BLURRING)}
_RANK = {of: rank for rank, of in enumerate(CAUTIONS)}


def caution(told: Noted) -> str:
    """One note in words; a kind of note without words is a KeyError."""
    return CAUTIONS[type(told.note)].words(*told)


def again(note: AnyNote) -> str:
    """What it is called where it was told before and holds here too; '' if of the whole topic."""
    return CAUTIONS[type(note)].again(note)


def covers(told: Noted, other: Noted) -> bool:
    """Whether who has heard the one needs not hear the other: it is no worse."""
    kind = CAUTIONS[type(told.note)]
    if kind is not CAUTIONS[type(other.note)] or kind.alike(*told) != kind.alike(*other):
        return False
    if caution(told) == caution(other):
        return True
    return kind.how_bad is not None and kind.how_bad(told.note) >= kind.how_bad(other.note)


def ranked(noted: Iterable[Noted]) -> list[Noted]:
    """What is to be told of them: of those that can be compared the worst; the worst kind first."""
    worst: list[Noted] = []
    for each in noted:
        if not any(covers(told, each) for told in worst):
            worst = [told for told in worst if not covers(each, told)] + [each]
    return sorted(worst, key=lambda each: _RANK[type(each.note)])


def overturns(note: AnyNote) -> bool:
    """Whether it could turn the answer over, and so stands before all others."""
    return type(note) in {each.of for each in OVERTURNING}


def foremost(note: AnyNote) -> bool:
    """Whether it stands first on the top sheet, before all that is said of the topic."""
    return type(note) in {each.of for each in FOREMOST}

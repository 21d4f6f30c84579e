"""Cautions in words: number first, reason second, consequence third."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple, TypeVar

from pipeline.contracts import notes
from pipeline.contracts.notes import AnyNote, Note
from pipeline.text import capitalised, listed
from pipeline.wording import numbers
from pipeline.wording.second_verdict import reason

LENGTHS = ((365.25, "years"), (30.44, "months"), (7, "weeks"), (1, "days"))  # days, and of what
Kind = TypeVar("Kind", bound=Note)


class Caution(NamedTuple):
    """The words of one kind of note; of many of the kind the one is told that is the worst."""

    of: type[Note]
    words: Callable[[Any], str]
    how_bad: Callable[[Any], float]


def _caution(
    of: type[Kind], words: Callable[[Kind], str], how_bad: Callable[[Kind], float] = lambda _: 0.0
) -> Caution:
    return Caution(of, words, how_bad)


def _share(share: float, decimals: int = 0) -> str:
    """A share in per cent; one that would be shown as none is under the last digit."""
    if share and not numbers.rounded(share * 100, decimals):
        return f"under {numbers.percent(10.0 ** -(decimals + 2), decimals, signed=False)}"
    return numbers.percent(share, decimals, signed=False)


def _few_counted(note: notes.FewCounted) -> str:
    if not note.wickets and not note.count:
        return "On one side there is nothing to divide by: there is no number of it there."
    if not note.wickets:
        what = f"Only {note.count:,} in the count it is divided by"
        return f"{what} on the thinner side: treat it as a sketch."
    count = f"Only {numbers.counted(note.count, 'wicket')}" if note.count else "Not a wicket"
    return f"{count} on the thinner side: treat it as a sketch."


def _check_disagrees(note: notes.CheckDisagrees) -> str:
    shown = f"{numbers.p_shown(note.p)} against {numbers.p_shown(note.p_permutation)}"
    return f"Shuffling whole matches gives another answer ({shown}): don’t lean on it."


def _mix_moved(note: notes.MixMoved) -> str:
    mix, change = (numbers.shown(units, 2, signed=True) for units in (note.mix, note.change))
    if note.low is not None and note.high is not None:
        mix += f" ({numbers.between(note.low, note.high, 2)})"
    return (
        f"Who did what, not how well, is worth {mix} by itself, beside a change of {change} in "
        "all: say the same-mix number beside it, or each group’s own."
    )


def _survivors(note: notes.SurvivorsOnly) -> str:
    out = note.in_either - note.kept
    least = f"{note.at_least.count:,} {note.at_least.of}"
    return (
        f"{numbers.counted(out, 'player')} of {note.in_either:,} fell short of {least} in each "
        "window: those who lasted are not all who played."
    )


def _rivals(rivals: list[notes.Rival]) -> str:
    """'the longer drinks break, two years later, and the new ball, three months earlier'."""
    return listed([one.name + (f" {_apart(one.days)}" if one.days else "") for one in rivals])


def _apart(days: int) -> str:
    """'two years later', 'three months earlier'; 'years' from a year and a half on."""
    size = abs(days)
    length, unit = next((one for one in LENGTHS if size >= 1.5 * one[0]), LENGTHS[-1])
    told = numbers.with_unit(numbers.said(round(size / length), 0), unit)
    return f"{told} {'later' if days > 0 else 'earlier'}"


# What could turn the answer over, the worst first.
OVERTURNING = (
    _caution(
        notes.ChosenByResult,
        lambda _: (
            "Sides are told apart by result, which the play itself decided: this shows how sides "
            "that won or lost played, not what wins."
        ),
    ),
    _caution(
        notes.DriftNotTestable,
        lambda note: f"Drift can’t be tested ({reason(note)}), so say what moved, not why.",
    ),
    _caution(
        notes.RivalEvent,
        lambda note: (
            f"In the same stretch there was also {_rivals(note.rivals)}: a step could be theirs."
        ),
    ),
    _caution(
        notes.Simpson,
        lambda note: (
            "The whole went one way, and with the same mix it went the other way: say the "
            "same-mix number beside it, or each group’s own."
        ),
    ),
    _caution(notes.MixMoved, _mix_moved),
    _caution(
        notes.OppositionChanged,
        lambda note: (
            f"{_share(note.share)} of the matches after are of a side that was not there before: "
            "the opposition changed too."
        ),
    ),
)
# What makes it fuzzy, the worst first.
BLURRING = (
    _caution(notes.CheckDisagrees, _check_disagrees),
    _caution(
        notes.OneMatchDominates,
        lambda note: (
            f"One match holds {_share(note.share)} of the count on its side: look at it first."
        ),
        lambda note: note.share,
    ),
    _caution(
        notes.CoverageLow,
        lambda note: (
            f"{_share(note.share, 1)} of the balls are of unknown kind or hand, enough to move a "
            "row: fill in the players’ sheet before leaning on it."
        ),
        lambda note: note.share,
    ),
    _caution(
        notes.FewMatches,
        lambda note: (
            f"Only {numbers.matches(note.matches)} on the thinner side: the interval is wide and "
            "could yet move."
        ),
        lambda note: -note.matches,
    ),
    _caution(notes.FewCounted, _few_counted, lambda note: -note.count),
    _caution(notes.SurvivorsOnly, _survivors),
    _caution(
        notes.ReducedMatches,
        lambda note: (
            f"{note.matches:,} of {numbers.matches(note.of)} had a shortened chase: what is "
            "counted an innings is counted low there."
        ),
    ),
    _caution(
        notes.ScaleDisagrees,
        lambda note: (
            "At the edge: one of the two intervals, in units and in per cent, includes no change "
            "and the other does not."
        ),
    ),
    _caution(
        notes.TransitionSeason,
        lambda note: (
            f"The change came during {listed(note.seasons)}; "
            f"{'that season is' if len(note.seasons) == 1 else 'those seasons are'} left out of "
            "both sides."
        ),
    ),
    _caution(
        notes.UnknownLeftOut,
        lambda note: (
            f"{capitalised(_share(note.share, 1))} of the balls are of unknown kind or hand; rows "
            "by either leave them out."
        ),
        lambda note: note.share,
    ),
)
CAUTIONS = {caution.of: caution for caution in (*OVERTURNING, *BLURRING)}
_RANK = {of: rank for rank, of in enumerate(CAUTIONS)}


def caution(note: AnyNote) -> str:
    """One note in words; a kind of note without words is a KeyError."""
    return CAUTIONS[type(note)].words(note)


def ranked(told: Iterable[AnyNote]) -> list[str]:
    """One caution for each kind of note, in its worst case; the worst kind first."""
    worst: dict[type[Note], AnyNote] = {}
    for note in told:
        kind, how_bad = type(note), CAUTIONS[type(note)].how_bad
        if kind not in worst or how_bad(note) > how_bad(worst[kind]):
            worst[kind] = note
    return [caution(worst[kind]) for kind in sorted(worst, key=lambda kind: _RANK[kind])]


def overturns(note: AnyNote) -> bool:
    """Whether it could turn the answer over, and so stands before all others."""
    return type(note) in {each.of for each in OVERTURNING}


def coverage(what: str, unknown: float) -> str:
    """Number first, then the reason, then what follows from it."""
    share = _share(unknown, 1)
    return (
        f"{capitalised(share)} of the balls are of unknown {what}; every row by it leaves them out."
    )

"""Cautions in words: number first, reason second, consequence third."""

from __future__ import annotations

from typing import Any

from pipeline.text import listed
from pipeline.wording import numbers
from pipeline.wording.second_verdict import reason

View = dict[str, Any]
# The worst first: what could turn the answer over stands before what makes it fuzzy.
RANK = (
    *("drift_not_testable", "rival_event", "simpson", "mix_moved", "opposition_changed"),
    *("check_disagrees", "one_match_dominates", "coverage_low", "few_matches", "few_counted"),
    *("survivors_only", "reduced_matches", "scale_disagrees", "transition_season"),
    *("unknown_left_out",),
)


# Of many notes of one code the one that is worst: the smallest of these, or else the largest.
_SMALLEST = {"few_matches": "matches", "few_counted": "count"}
_LARGEST = {"one_match_dominates": "share", "unknown_left_out": "share", "coverage_low": "share"}


def ranked(notes: list[View]) -> list[str]:
    """One caution a code, in its worst case; the worst code first."""
    worst: dict[str, View] = {}
    for note in notes:
        code = note["code"]
        if code not in worst or _worse(note, worst[code]):
            worst[code] = note
    return [caution(note) for note in sorted(worst.values(), key=lambda n: RANK.index(n["code"]))]


def _worse(note: View, other: View) -> bool:
    code = note["code"]
    if code in _SMALLEST:
        return note[_SMALLEST[code]] < other[_SMALLEST[code]]
    return code in _LARGEST and note[_LARGEST[code]] > other[_LARGEST[code]]


def caution(note: View) -> str:
    """One note in words; an unknown code is a KeyError."""
    return _WORDS[note["code"]](note)


def _share(note: View, decimals: int = 0) -> str:
    return numbers.percent(note["share"], decimals, signed=False)


def _few_counted(note: View) -> str:
    what = "wickets" if note.get("wickets") else "in the count it is divided by"
    return f"Only {note['count']:,} {what} on the thinner side: treat it as a sketch."


def _check_disagrees(note: View) -> str:
    shown = f"{numbers.p_shown(note['p'])} against {numbers.p_shown(note['p_permutation'])}"
    return f"Shuffling whole matches gives another answer ({shown}): don’t lean on it."


def _mix_moved(note: View) -> str:
    mix, change = (numbers.shown(note[key], 2, signed=True) for key in ("mix", "change"))
    return (
        f"Of a change of {change}, {mix} is who did what, not how well: say the same-mix number "
        "beside it, or each group’s own."
    )


def _reduced(note: View) -> str:
    return (
        f"{note['matches']:,} of {numbers.matches(note['of'])} had a shortened chase: what is "
        "counted an innings is counted low there."
    )


def _survivors(note: View) -> str:
    out = note["in_either"] - note["kept"]
    least = f"{note['at_least']['count']:,} {note['at_least']['of']}"
    return (
        f"{numbers.counted(out, 'player')} of {note['in_either']:,} fell short of {least} in each "
        "window: those who lasted are not all who played."
    )


_WORDS = {
    "few_matches": lambda note: (
        f"Only {numbers.matches(note['matches'])} on the thinner side: the interval is wide and "
        "could yet move."
    ),
    "few_counted": _few_counted,
    "one_match_dominates": lambda note: (
        f"One match holds {_share(note)} of the count on its side: look at it first."
    ),
    "scale_disagrees": lambda note: (
        "At the edge: one of the two intervals, in units and in per cent, includes no change and "
        "the other does not."
    ),
    "check_disagrees": _check_disagrees,
    "unknown_left_out": lambda note: (
        f"{_share(note, 1)} of the balls are of unknown kind or hand; rows by either leave them "
        "out."
    ),
    "coverage_low": lambda note: (
        f"{_share(note, 1)} of the balls are of unknown kind or hand, enough to move a row: fill "
        "in the players’ sheet before leaning on it."
    ),
    "transition_season": lambda note: (
        f"The change came during {note['season']}; that season is left out of both sides."
    ),
    "rival_event": lambda note: (
        f"In the same seasons there was also {listed(note['names'])}: a step could be theirs."
    ),
    "opposition_changed": lambda note: (
        f"{_share(note)} of the matches after are of a side that was not there before: the "
        "opposition changed too."
    ),
    "drift_not_testable": lambda note: (
        f"Drift can’t be tested ({reason(note)}), so say what moved, not why."
    ),
    "simpson": lambda note: (
        "The whole and its parts point different ways: say each group’s own number, not the whole."
    ),
    "mix_moved": _mix_moved,
    "reduced_matches": _reduced,
    "survivors_only": _survivors,
}


def coverage(what: str, unknown: float) -> str:
    """Number first, then the reason, then what follows from it."""
    share = numbers.percent(unknown, 1, signed=False)
    return f"{share} of the balls are of unknown {what}; every row by it leaves them out."

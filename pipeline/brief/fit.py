"""Copyfitting: which sections are set tighter, so that no page holds only the rest of one.

A beat begins on a page of its own. When its last lines spill onto another page, it is set tighter;
if they still do, what comes next follows on the same page. A run sheet or an index that is short
enough follows what comes before it.
"""

from __future__ import annotations

from itertools import pairwise

Places = dict[str, tuple[int, float]]  # anchor: page, how far down (0 to 1)
TIGHT, TIGHTEST, FOLLOWS = "tight", "tightest", "follows"
LITTLE = 0.5  # a page filled less than this by the rest of a section is nearly empty
SQUEEZED = 0.24  # a rest that ends above this may go away by setting the section tighter
FOOT, GAP = 0.92, 0.06  # where the text ends on a page, and the air before a section that follows
ONE_PAGE = "top"  # what is set tighter still before it takes a second page
MAY_FOLLOW = ("run-sheet", "facts")  # what needs no page of its own


def end_of(section: str) -> str:
    """The anchor at the end of a section; a beat's own id can't hold a colon."""
    return f"{section}:end"


def tighter(places: Places, sections: list[str], fit: dict[str, str]) -> dict[str, str]:
    """The classes to lay out with next; the same as `fit` when no more can be done."""
    better = dict(fit)
    for section, following in pairwise(sections):
        spills = _spills(places, section)
        if spills and TIGHT not in fit.get(section, ""):
            _add(better, section, TIGHT)
            if places[end_of(section)][1] < SQUEEZED:
                continue  # that may be enough
        elif spills and section == ONE_PAGE and TIGHTEST not in fit[section]:
            _add(better, section, TIGHTEST)
            continue
        if spills or _has_room(places, section, following):
            _add(better, following, FOLLOWS)
    last = sections[-1]  # nothing can follow it; a few lines on a page of their own may go away
    if _spills(places, last) and places[end_of(last)][1] < SQUEEZED:
        _add(better, last, TIGHTEST if TIGHT in fit.get(last, "") else TIGHT)
    return better


def _add(fit: dict[str, str], section: str, word: str) -> None:
    words = fit.get(section, "").split()
    fit[section] = " ".join(words if word in words else [*words, word])


def _spills(places: Places, section: str) -> bool:
    """Does the section end on a later page than it began, with little on it?"""
    first, _ = places[section]
    last, down = places[end_of(section)]
    return last > first and down < LITTLE


def _has_room(places: Places, section: str, following: str) -> bool:
    """Would the whole of what follows fit under the section's end?"""
    _, end = places[end_of(section)]
    first, top = places[following]
    last, foot = places[end_of(following)]
    return following in MAY_FOLLOW and first == last and end + GAP + (foot - top) < FOOT

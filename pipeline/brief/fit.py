"""Copyfitting: which sections are set tighter, so that no page holds only the rest of one.

A beat begins on a page of its own. When its last lines spill onto another page, it is set tighter;
if they still do, what comes next follows on the same page.
"""

from __future__ import annotations

Places = dict[str, tuple[int, float]]  # anchor: page, how far down (0 to 1)
TIGHT, FOLLOWS = "tight", "follows"
LITTLE = 0.5  # a page filled less than this by the rest of a section is nearly empty


def end_of(section: str) -> str:
    """The anchor at the end of a section."""
    return f"{section}-end"


def tighter(places: Places, sections: list[str], fit: dict[str, str]) -> dict[str, str]:
    """The classes to lay out with next; the same as `fit` when no more can be done."""
    better = dict(fit)
    for section, following in zip(sections, [*sections[1:], None], strict=True):
        if not _spills(places, section):
            continue
        if TIGHT not in better.get(section, ""):
            better[section] = f"{better.get(section, '')} {TIGHT}".strip()
        elif following and FOLLOWS not in better.get(following, ""):
            better[following] = f"{better.get(following, '')} {FOLLOWS}".strip()
    return better


def _spills(places: Places, section: str) -> bool:
    """Does the section end on a later page than it began, with little on it?"""
    first, _ = places[section]
    last, down = places[end_of(section)]
    return last > first and down < LITTLE

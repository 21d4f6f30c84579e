"""How a beat follows the one before it, from what the topic asks in both: nothing is invented."""

from __future__ import annotations

from collections.abc import Callable, Set
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from pipeline.config.cuts import OF_BATTER
from pipeline.text import listed
from pipeline.wording.heading_words import divided, side_names, whats
from pipeline.wording.labels import value_label
from pipeline.wording.other_ways import either
from pipeline.wording.subject import balls_where

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.selection import Selection
    from pipeline.config.views import BriefView

WHOLE = "the whole game"  # what a beat without a filter is of


class Join(NamedTuple):
    """The relation of a beat to the one before it, by its name in the voice, and what fills it."""

    name: str
    slots: dict[str, str]


def joins(view: BriefView) -> dict[str, Join | None]:
    """Of each beat by its id; none of one about another event, whose first line names that."""
    first, *_ = view.beats
    found: dict[str, Join | None] = {first.id: Join("join.first", {"what": _what(first, view)})}
    for before, beat in pairwise(view.beats):
        found[beat.id] = None if beat.about else join(before, beat, view)
    return found


def join(before: AnyBeat, beat: AnyBeat, view: BriefView) -> Join:
    """A kind of question of its own first; then other balls for the same measure; else what it is.

    Other groups are another question, too. After a beat about another event nothing is of its
    balls.
    """
    asked = _OWN.get(beat.kind)
    if asked and (beat.kind != before.kind or beat.groups != before.groups):
        return Join(f"join.{beat.kind}", asked(beat, view))
    was, now = before.where.given(), beat.where.given()
    added, left = now.keys() - was.keys(), was.keys() - now.keys()
    moved = {key for key in now.keys() & was.keys() if now[key] != was[key]}
    if before.about != beat.about:
        return Join("join.next", {"what": _what(beat, view)})
    if was == now and divided(beat) and divided(beat) != divided(before):
        if before.measures == beat.measures:
            return Join("join.split", {"each": divided(beat)})
    elif before.measures == beat.measures:
        if added and not left and not moved:
            return Join("join.narrower", {"now": _balls(_only(beat, added), view)})
        if left and not added and not moved:
            return Join("join.wider", {"now": _balls(beat, view)})
        if moved and not added and not left and _apart(before.where, beat.where, moved):
            both = {"before": _balls(before, view), "now": _balls(beat, view)}
            return Join("join.elsewhere", both)
    each = divided(beat)
    rows = f", {each}" if " by " in each and "," not in each and each != divided(before) else ""
    return Join("join.next", {"what": f"{_what(beat, view)}{rows}"})


def _apart(was: Selection, now: Selection, moved: Set[str]) -> bool:
    """Whether a filter that moved has nothing left of before: 'so much for the powerplay'."""
    return any(not _values(was, key) & _values(now, key) for key in moved)


def _values(where: Selection, key: str) -> set[object]:
    given = getattr(where, key)
    return set(range(given[0], given[1] + 1)) if key == "overs" else set(given)


def _only(beat: AnyBeat, keys: Set[str]) -> AnyBeat:
    """The beat with these of its filters alone."""
    left = dict.fromkeys(beat.where.given().keys() - keys)
    return beat.model_copy(update={"where": beat.where.model_copy(update=left)})


def _what(beat: AnyBeat, view: BriefView) -> str:
    """What it asks about: 'spin’s economy in the middle overs', with others of the same owner."""
    every, *less = whats(beat, view.measures, view.format, bare=False)
    if len(beat.measures) < 2 or not less:
        return every
    first, *others = (view.measures[name].label for name in beat.measures)
    whole = less[0]
    return (
        whole.replace(f"’s {first}", f"’s {listed([first, *others])}") if "’s " in whole else every
    )


def _balls(beat: AnyBeat, view: BriefView) -> str:
    return balls_where(beat, view.format) or WHOLE


def _sides(beat: AnyBeat, view: BriefView) -> dict[str, str]:
    first, second = side_names(beat, view.format)
    return {"first": first, "second": second}


def _asked(beat: AnyBeat, view: BriefView) -> dict[str, str]:
    return {"what": _what(beat, view)}


def _each(beat: AnyBeat, view: BriefView) -> dict[str, str]:
    return {"what": _what(beat, view), "each": f"{beat.person} by {beat.person}"}


def _who(beat: AnyBeat, view: BriefView) -> dict[str, str]:
    """Whose share it is, and whether they bowled it or faced it."""
    ((cut, values),) = beat.counted.items()
    labels = [value_label(cut, value, view.format) for value in values]
    who = either([label.replace("-arm bowling", "-armers") for label in labels])
    return {"who": who, "did": "batting" if cut in OF_BATTER else "bowling"}


def _did(beat: AnyBeat, view: BriefView) -> dict[str, str]:
    return {"did": "faced" if set(beat.cuts) & OF_BATTER else "bowled"}


def _nothing(beat: AnyBeat, view: BriefView) -> dict[str, str]:
    return {}


# Kinds that ask something of their own, and what fills their slots.
_OWN: dict[str, Callable[[AnyBeat, BriefView], dict[str, str]]] = {
    "gap": _sides,
    "groups": _sides,
    "mix": _did,
    "phases": _asked,
    "players": _each,
    "share": _who,
    "streaks": _nothing,
    "trend": _asked,
    "turning_point": _asked,
}

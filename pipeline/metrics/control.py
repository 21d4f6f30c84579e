"""The control of a beat: the same question put to what the event did not touch."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from pipeline.config.kinds.base import EventControl
from pipeline.contracts.selection import Cell
from pipeline.contracts.timing import Windows
from pipeline.errors import Problem, UserError
from pipeline.metrics.matches import Played, seasons_of
from pipeline.metrics.windows import choose_windows
from pipeline.topic_places import dotted, in_beat

if TYPE_CHECKING:
    from pipeline.config.event_views import EventDates
    from pipeline.config.kinds.base import AnyKind, Control
    from pipeline.config.topic import Data

Overs = tuple[int, int]
BOTH_SIDES = {"team"}  # a match of one side is its opponent's too, so two values have it in common


def control_beat(beat: AnyKind, control: Control) -> AnyKind:
    """The beat as it is asked of its control: its filters laid over, without the cuts they fix.

    Another competition takes the place of the beat's own, filtered or divided by.
    """
    given = control.where
    laid = {name: value for name in type(given).model_fields if (value := getattr(given, name))}
    if control.competition:
        laid.setdefault("competition", None)
    update: dict[str, Any] = {"where": beat.where.model_copy(update=laid), "control": None}
    if "by" in type(beat).model_fields:
        update["by"] = [cut for cut in beat.cuts if cut not in laid]
    return beat.model_copy(update=update)


def control_place(beats: Sequence[AnyKind], beat: AnyKind, control: Control, *more: str) -> str:
    """Where the control, or a part of it, stands: in the beat, or in the topic's event."""
    if isinstance(control, EventControl):
        return dotted(("event", "control", *more))
    return in_beat(beats, beat, "control", *more)


def own_windows(
    matches: Sequence[Played], event: EventDates, control: Control, file: str, place: str
) -> Windows:
    """The event's windows among the matches of the control's own competition."""
    asked = event.model_copy(update={"trend_from": None})
    try:
        return choose_windows(matches, seasons_of(matches), asked, file)
    except UserError as error:
        raise UserError(
            Problem(file, f"{control.name}: {problem.message}", where=f"{place}.competition")
            for problem in error.problems
        ) from None


def control_data(data: Data, control: Control) -> Data:
    """The topic's data, or those of the control's own competition."""
    if not control.competition:
        return data
    return data.model_copy(update={"competition": control.competition})


def matched(
    beat: AnyKind,
    control: Control,
    data: Data,
    cells: list[Cell],
    there: list[Cell],
    file: str,
    where: str,
) -> dict[str, str]:
    """Each cell's cell of the control, by id; cells that the control overlaps have none.

    A cell is apart from the control when they have no competition in common, or when some filter of
    the control is fixed in the cell too, at other values. `data` are the topic's own. A control of
    the beat's own that is apart from no cell at all raises UserError, at `where`; the event's may
    overlap a whole beat, which has none then.
    """
    given = control.where.chosen()
    shared = set(beat.cuts) - set(given) - ({"competition"} if control.competition else set())
    telling = set(given) - BOTH_SIDES
    ids = {_key(cell.values, shared): cell.id for cell in there}
    found = {}
    for cell in cells:
        fixed = {**beat.where.chosen(), **{cut: [value] for cut, value in cell.values.items()}}
        apart = (
            _of_another(control, fixed.get("competition") or data.competition)
            or any(cut in fixed and not set(fixed[cut]) & set(given[cut]) for cut in telling)
            or _never_meet(beat.where.overs, control.where.overs)
        )
        twin = ids.get(_key(cell.values, shared))
        if apart and twin:
            found[cell.id] = twin
    if not found and not isinstance(control, EventControl):
        message = (
            f"beat '{beat.id}': its control, {control.name}, overlaps every row; name balls "
            "that no row of the beat counts, or another competition"
        )
        raise UserError(Problem(file, message, where=where))
    return found


def _of_another(control: Control, own: list[str] | None) -> bool:
    """Whether it is of competitions that a cell has no match of; a cell of none named has all."""
    return bool(control.competition and own and not set(control.competition) & set(own))


def _key(values: dict[str, str], shared: set[str]) -> tuple[tuple[str, str], ...]:
    return tuple(sorted((cut, value) for cut, value in values.items() if cut in shared))


def _never_meet(one: Overs | None, other: Overs | None) -> bool:
    """Whether two ranges of overs are both given and have no over in common."""
    if one is None or other is None:
        return False
    return one[1] < other[0] or other[1] < one[0]

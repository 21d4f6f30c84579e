"""The control of a beat: the same question put to what the event did not touch."""

from __future__ import annotations

from typing import Any

from pipeline.errors import Problem, UserError
from pipeline.metrics.clauses import divided

Beat = dict[str, Any]


def control_beat(beat: Beat) -> Beat:
    """The beat as it is asked of its control: its filters laid over, without the cuts they fix."""
    control = beat["control"]
    given = _given(control["where"])
    where = {**beat["where"], **given}
    by = [cut for cut in beat.get("by", []) if cut not in given]
    return {**beat, "where": where, "control": None, **({"by": by} if "by" in beat else {})}


def control_data(data: dict[str, Any], control: dict[str, Any]) -> dict[str, Any]:
    """The topic's data, or those of the control's own competition."""
    return {**data, "competition": control["competition"]} if control["competition"] else data


def matched(
    beat: Beat, cells: list[dict[str, Any]], there: list[dict[str, Any]], file: str
) -> dict[str, str]:
    """Each cell's cell of the control, by id; cells that the control overlaps have none.

    A cell is apart from the control when they are of two competitions, or when some filter of the
    control is fixed in the cell too, at other values. A control of the beat's own that is apart
    from no cell at all raises UserError; the event's may overlap a whole beat, which has none then.
    """
    control = beat["control"]
    given = _given(control["where"])
    shared = set(divided(beat)[0]) - set(given)
    ids = {_key(cell["values"], shared): cell["id"] for cell in there}
    found = {}
    for cell in cells:
        fixed = {**_given(beat["where"]), **{cut: [v] for cut, v in cell["values"].items()}}
        if control["competition"] or any(_apart(cut, fixed, given) for cut in given):
            twin = ids.get(_key(cell["values"], shared))
            if twin:
                found[cell["id"]] = twin
    if not found and not control.get("inherited"):
        message = (
            f"beat '{beat['id']}': its control, {control['name']}, overlaps every row; name balls "
            "that no row of the beat counts, or another competition"
        )
        raise UserError(Problem(file, message))
    return found


def _given(where: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in where.items() if value}


def _key(values: dict[str, str], shared: set[str]) -> tuple:
    return tuple(sorted((cut, value) for cut, value in values.items() if cut in shared))


def _apart(cut: str, fixed: dict[str, Any], given: dict[str, Any]) -> bool:
    if cut not in fixed:
        return False
    if cut == "overs":
        return fixed[cut][1] < given[cut][0] or given[cut][1] < fixed[cut][0]
    return not set(fixed[cut]) & set(given[cut])

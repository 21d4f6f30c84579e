"""What cells, sides and windows are called, on a page and in a sentence."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from pipeline.config.cuts import CUTS
from pipeline.text import capitalised, listed

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.selection import Selection


def value_label(cut: str, value: str, form: Format) -> str:
    """'overs 11–40', 'left-handers', 'coast'."""
    if cut == "band":
        return f"overs {value.replace('-', '–')}"
    if cut == "phase":
        phase = form.phases.get(value)
        return phase.label if phase else value
    return CUTS[cut].labels.get(value, value)


def cell_label(values: dict[str, str], form: Format) -> str:
    """A row's name: 'Spin, overs 11–40'; the whole is 'All balls'."""
    if not values:
        return "All balls"
    return capitalised(", ".join(value_label(cut, value, form) for cut, value in values.items()))


def where_phrase(where: Selection, form: Format) -> str:
    """A beat's filter in a sentence; '' when it takes every ball."""
    parts = []
    if where.overs:
        first, last = where.overs
        parts.append(f"in overs {first} to {last}")
    chosen = where.chosen()
    for cut in (cut for cut in CUTS if cut in chosen):
        named = [value_label(cut, value, form).replace("–", " to ") for value in chosen[cut]]
        parts.append(CUTS[cut].phrase.format(listed(named)))
    return "".join(f" {part}" for part in parts)


def where_label(where: Selection, form: Format) -> str:
    """A beat's filter as a label: 'spin, overs 41–50'."""
    parts = [f"overs {where.overs[0]}–{where.overs[1]}"] if where.overs else []
    chosen = where.chosen()
    for cut in (cut for cut in CUTS if cut in chosen):
        parts.append(" and ".join(value_label(cut, value, form) for value in chosen[cut]))
    return ", ".join(parts)


def beat_title(beat: AnyKind, measures: Mapping[str, Measure]) -> str:
    """A beat's heading: its own, or its first measure's name."""
    return beat.title or capitalised(measures[beat.measures[0]].label)


def field_label(field: str) -> str:
    """A column that was corrected, as people say it: 'runs off the bat'."""
    known = {"runs_batter": "runs off the bat", "noballs": "no-balls", "legbyes": "leg byes"}
    return known.get(field, field.removesuffix("_id").replace("_", " "))

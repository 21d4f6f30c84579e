"""What cells, sides and windows are called, on a page and in a sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pipeline.config.cuts import CUTS
from pipeline.text import capitalised, listed

if TYPE_CHECKING:
    from pipeline.config.project import Format

View = dict[str, Any]
PARTS = {"mix": "Who did what", "rates": "The rates themselves"}


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


def finding_label(finding: View, beat: View, form: Format) -> str:
    """A row's name whatever it is of: a cell, a gap between two groups, a part of a change."""
    if finding["about"] == "gap":
        first, second = side_labels(finding, beat, form)
        of = [value_label(cut, value, form) for cut, value in finding["values"].items()]
        return capitalised(", ".join([f"{second} less {first}", *of]))
    if finding["about"] in PARTS:
        return PARTS[finding["about"]]
    if beat["kind"] == "players" and not finding["values"]:
        return "Everyone"
    return cell_label(finding["values"], form)


def where_phrase(where: Any, form: Format) -> str:
    """A beat's filter in a sentence; '' when it takes every ball."""
    parts = []
    if where.get("overs"):
        first, last = where["overs"]
        parts.append(f"in overs {first} to {last}")
    for cut in CUTS:
        if where.get(cut):
            named = [value_label(cut, v, form).replace("–", " to ") for v in where[cut]]
            parts.append(CUTS[cut].phrase.format(listed(named)))
    return "".join(f" {part}" for part in parts)


def where_label(where: Any, form: Format) -> str:
    """A beat's filter as a label: 'spin, overs 41–50'."""
    parts = [f"overs {where['overs'][0]}–{where['overs'][1]}"] if where.get("overs") else []
    for cut in CUTS:
        if where.get(cut):
            parts.append(" and ".join(value_label(cut, value, form) for value in where[cut]))
    return ", ".join(parts)


def side_labels(finding: View, beat: View, form: Format) -> tuple[str, str]:
    """Names of the two sides in a chart or table: before and after, or the groups."""
    a, b = finding["sides"]
    if finding["about"] not in ("groups", "gap"):
        return a, b
    (cut,) = beat["between"]
    return value_label(cut, a, form), value_label(cut, b, form)


def field_label(field: str) -> str:
    """A column that was corrected, as people say it: 'runs off the bat'."""
    known = {"runs_batter": "runs off the bat", "noballs": "no-balls", "legbyes": "leg byes"}
    return known.get(field, field.removesuffix("_id").replace("_", " "))

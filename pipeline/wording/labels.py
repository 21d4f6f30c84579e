"""What cells, sides and windows are called, on a page and in a sentence."""

from __future__ import annotations

import re
import unicodedata
from typing import Any

from pipeline.config.cuts import CUTS

View = dict[str, Any]


def value_label(cut: str, value: str, form: View) -> str:
    """'overs 11–40', 'left-handers', 'coast'."""
    if cut == "phase":
        return form["phases"].get(value, {"label": value})["label"]
    return CUTS[cut].labels.get(value, value)


def cell_label(values: dict[str, str], form: View) -> str:
    """A row's name: 'Spin, overs 11–40'; the whole is 'All balls'."""
    if not values:
        return "All balls"
    return capitalised(", ".join(value_label(cut, value, form) for cut, value in values.items()))


def cell_phrase(values: dict[str, str], form: View) -> str:
    """The same in a sentence: ' for spin in overs 11 to 40'."""
    return "".join(f" {value_phrase(cut, value, form)}" for cut, value in values.items())


def value_phrase(cut: str, value: str, form: View) -> str:
    """One value in a sentence: 'at coast grounds', 'in overs 11 to 40'."""
    label = value_label(cut, value, form).replace("–", " to ")
    return CUTS[cut].phrase.format(label)


def where_phrase(where: View, form: View) -> str:
    """A beat's filter in a sentence; '' when it takes every ball."""
    parts = []
    if where.get("overs"):
        first, last = where["overs"]
        parts.append(f"in overs {first} to {last}")
    for cut in CUTS:
        if where.get(cut):
            labels = [value_label(cut, v, form).replace("–", " to ") for v in where[cut]]
            parts.append(CUTS[cut].phrase.format(" and ".join(labels)))
    return "".join(f" {part}" for part in parts)


def where_label(where: View, form: View) -> str:
    """A beat's filter as a label: 'spin, overs 41–50'."""
    parts = [f"overs {where['overs'][0]}–{where['overs'][1]}"] if where.get("overs") else []
    for cut in CUTS:
        if where.get(cut):
            parts.append(" and ".join(value_label(cut, value, form) for value in where[cut]))
    return ", ".join(parts)


def side_labels(finding: View, beat: View, form: View) -> tuple[str, str]:
    """Names of the two sides in a chart or table: before and after, or the groups."""
    a, b = finding["sides"]
    if beat["kind"] != "groups":
        return a, b
    (cut,) = beat["between"]
    return value_label(cut, a, form), value_label(cut, b, form)


def span(labels: list[str]) -> str:
    """Seasons as '2012–2016', or one alone."""
    return labels[0] if len(labels) == 1 else f"{labels[0]}–{labels[-1]}"


def capitalised(text: str) -> str:
    return text[:1].upper() + text[1:]


def listed(items: list[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"


def field_label(field: str) -> str:
    """A column that was corrected, as people say it: 'runs off the bat'."""
    known = {"runs_batter": "runs off the bat", "noballs": "no-balls", "legbyes": "leg byes"}
    return known.get(field, field.removesuffix("_id").replace("_", " "))


def slug(text: str) -> str:
    """A value as part of an id: 'Kelpgate Ground' as 'kelpgate-ground'."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-") or "x"

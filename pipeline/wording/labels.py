"""What cells, sides and windows are called, on a page and in a sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.config.cuts import CUTS
from pipeline.text import capitalised, listed

if TYPE_CHECKING:
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.selection import Selection

TOGETHER = "all together"  # the whole of a group, among its rows
FROM = " from "  # in the names of periods that are laid from the day of an event
TAGGED = {"bowler_tag": "bowlers tagged ‘{}’", "batter_tag": "batters tagged ‘{}’"}


def value_label(cut: str, value: str, form: Format) -> str:
    """'overs 11–40', 'left-handers', 'coast', 'openers'."""
    if cut == "band":
        return overs_label(*value.split("-"))
    if cut == "phase":
        phase = form.phases.get(value)
        return phase.label if phase else value
    if cut in TAGGED:
        said = form.said.get(value)
        return said.removeprefix("the ") if said else TAGGED[cut].format(value)
    if cut in ("bowler", "batter"):
        return form.said.get(value, value)
    return CUTS[cut].labels.get(value, value)


def overs_label(first: str | int, last: str | int) -> str:
    """'overs 11–40', 'over 50'."""
    return f"over {first}" if str(first) == str(last) else f"overs {first}–{last}"


def cell_label(values: dict[str, str], where: Selection, form: Format) -> str:
    """A row's name: 'Spin, overs 11–40'; the whole is 'All balls', with the beat's filter."""
    if not values:
        return ", ".join(part for part in ("All balls", where_label(where, form)) if part)
    return capitalised(cell_name(values, form))


def cell_name(values: dict[str, str], form: Format) -> str:
    """The same after another word, where only names have capitals: 'spin, overs 11–40'."""
    return ", ".join(_row(cut, [value], form) for cut, value in values.items())


def where_label(where: Selection, form: Format) -> str:
    """A beat's filter as a label: 'spin, overs 41–50'."""
    chosen = where.chosen()
    cuts = sorted((cut for cut in CUTS if cut in chosen), key=lambda cut: not CUTS[cut].side)
    parts = [_row(cut, chosen[cut], form) for cut in cuts]
    return ", ".join([*parts, overs_label(*where.overs)] if where.overs else parts)


def _row(cut: str, values: list[str], form: Format) -> str:
    """Values of a cut by which a row is told from others: 'Quillport batting'."""
    return CUTS[cut].row.format(together([value_label(cut, value, form) for value in values]))


def together(labels: list[str]) -> str:
    """'first and second innings': a last word that all share is said once."""
    last = {label.rpartition(" ")[2] for label in labels}
    if len(labels) < 2 or len(last) > 1 or any(" " not in label for label in labels):
        return listed(labels)
    return f"{listed([label.rpartition(' ')[0] for label in labels])} {last.pop()}"


def measured_in(measure: Measure, what: str = "") -> str:
    """A measure, or `what` it is of, with its unit: 'economy, runs an over'.

    A name that is its unit already is said once: 'sixes an innings'.
    """
    name = what or measure.label
    return name if measure.label == measure.unit else f"{name}, {measure.unit}"


def period_said(label: str) -> str:
    """A period in a sentence: '2016', '2016 Q3', 'the year from Oct 2012'."""
    return f"the {label}" if FROM in label else label


def break_shown(last: str, first: str) -> str:
    """Where one period ends and the next begins: '2016 to 2017', 'Oct 2012'.

    Of stretches that are laid from a day, the first day of the later one is the place between.
    """
    if FROM in first:
        return first.partition(FROM)[2]
    return f"{last} to {first}"


def field_label(field: str) -> str:
    """A column that was corrected, as people say it: 'runs off the bat'."""
    known = {"runs_batter": "runs off the bat", "noballs": "no-balls", "legbyes": "leg byes"}
    return known.get(field, field.removesuffix("_id").replace("_", " "))

"""The findings that a topic's file names: in full, their rows, and those that can't be."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.config.cuts import CUTS
from pipeline.config.kinds import AnyBeat
from pipeline.config.means import means_of
from pipeline.config.project import Format
from pipeline.config.row_ids import marginals_named, may_be_of, rows_known
from pipeline.config.topic import Topic
from pipeline.config.yaml_files import Document
from pipeline.errors import Problem, did_you_mean_one_of
from pipeline.short_ids import full
from pipeline.topic_places import Place


def references(tree: dict[str, Any]) -> Iterator[tuple[Place, Any]]:
    """Every place of the file that names a finding, with what stands there."""
    for name, key in (("headlines", None), ("expected", "finding")):
        listed = tree.get(name)
        for position, item in enumerate(listed if isinstance(listed, list) else []):
            if key is None:
                yield (name, position), item
            elif isinstance(item, dict) and key in item:
                yield (name, position, key), item[key]


def finding_id(topic: Topic, reference: str) -> str:
    """A reference's full finding id: 'sixes' stands for 'sixes.<its one measure>'."""
    return full(reference, {beat.id: beat.measures for beat in topic.beats})


def rows_asked_for(topic: Topic, form: Format) -> dict[str, list[str]]:
    """The rows of one cut alone that headlines and expectations name, by the beat's id."""
    named = [*topic.headlines, *(item.finding for item in topic.expected)]
    found: dict[str, list[str]] = {}
    for beat, _, row in (_parts(topic, reference) for reference in named):
        rows = found.setdefault(beat.id, [])
        if row not in rows and marginals_named(beat, form, [row]):
            rows.append(row)
    return {beat: sorted(rows) for beat, rows in found.items() if rows}


def check_rows(document: Document, topic: Topic, form: Format) -> Iterator[Problem]:
    """A finding whose row can't be, as far as that is known without the data."""
    for place, reference in references(document.tree):
        beat, measure, row = _parts(topic, str(reference))
        known = rows_known(beat, form)
        if known is not None and row not in known:
            ids = {one: _id(beat.id, measure, one) for one in known}
            hint = did_you_mean_one_of(row, ids)
            yield document.problem(place, f"no finding '{_id(beat.id, measure, row)}'{hint}")
        elif len(of := list(may_be_of(row, beat, form))) > 1 and known is not None:
            names = " or ".join(CUTS[cut].name for cut in of)
            message = f"'{row}' may be of {names}; ask for it in a beat divided by that one alone"
            yield document.problem(place, message)


def check_means(document: Document, topic: Topic) -> Iterator[Problem]:
    """An expectation that its finding can't answer, such as a step between two grounds."""
    for at, item in enumerate(topic.expected):
        beat, _, row = _parts(topic, item.finding)
        allowed = means_of(beat, row)
        if item.means not in allowed:
            message = f"'{item.finding}' can't say '{item.means}'; it can say {', '.join(allowed)}"
            yield document.problem(("expected", at, "means"), message)


def _parts(topic: Topic, reference: str) -> tuple[AnyBeat, str, str]:
    """(the beat, the measure, the row's id) of a reference whose beat and measure are there."""
    beat, measure, *row = finding_id(topic, reference).split(".", 2)
    return next(each for each in topic.beats if each.id == beat), measure, (row or ["all"])[0]


def _id(beat: str, measure: str, row: str) -> str:
    return f"{beat}.{measure}" if row == "all" else f"{beat}.{measure}.{row}"

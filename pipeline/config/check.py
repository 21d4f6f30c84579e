"""What a type cannot say: do the parts of a topic that name each other fit together?

These checks read the plain tree, so that they run even when other parts of the file are wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.config.project import Format, Measure
from pipeline.config.read import Document
from pipeline.config.topic import Topic, share_name
from pipeline.errors import Problem, did_you_mean

Place = tuple[str | int, ...]


def names_for(
    document: Document, measures: dict[str, Measure], formats: dict[str, Format], sources: list[str]
) -> dict[str, Any]:
    """The names a topic may use, as the validation context of its model."""
    data = document.tree.get("data")
    form = formats.get(data.get("format")) if isinstance(data, dict) else None
    phases = tuple(form.phases) if form else ()
    return {"measure": measures, "format": formats, "source": sources, "phases": phases}


def check_topic(document: Document, measures: dict[str, Measure]) -> list[Problem]:
    """Every reference inside the topic that nothing answers to, each with its place."""
    tree = document.tree
    listed = tree.get("beats")
    beats = [beat for beat in listed if isinstance(beat, dict)] if isinstance(listed, list) else []
    found = [
        *_check_beats(beats, "event" in tree),
        *_check_outs(beats, measures),
        *_check_references(tree, beats),
    ]
    return [document.problem(place, message) for place, message in found]


def _check_beats(beats: list[dict[str, Any]], has_event: bool) -> Iterator[tuple[Place, str]]:
    seen: set[str] = set()
    for position, beat in enumerate(beats):
        name = beat.get("id")
        if name in seen:
            yield ("beats", position, "id"), f"two beats have the id '{name}'; ids are unique"
        seen.add(name)
        if (kind := beat.get("kind")) in ("before_after", "share") and not has_event:
            yield ("beats", position, "kind"), f"a {kind} beat needs the topic's 'event'"


def _check_outs(
    beats: list[dict[str, Any]], measures: dict[str, Measure]
) -> Iterator[tuple[Place, str]]:
    """Wickets stand on the striker's ball, so they can't be divided by the batter who was out."""
    for position, beat in enumerate(beats):
        parts = [beat.get(key) for key in ("by", "where", "between")]
        batting = any(part == "batter_hand" or "batter_hand" in part for part in parts if part)
        for name in _measures(beat):
            declared = measures.get(name)
            sums = f"{declared.numerator} {declared.denominator}".split() if declared else []
            if batting and "wickets" in sums:
                message = (
                    f"'{name}' counts wickets, a run out at the other end among them, so it can't "
                    "be cut by batter_hand; take another measure or another cut"
                )
                yield ("beats", position, "measure"), message


def _check_references(
    tree: dict[str, Any], beats: list[dict[str, Any]]
) -> Iterator[tuple[Place, str]]:
    """Headlines and expectations name findings; the beat and its measure can be checked now."""
    measures = {beat["id"]: _measures(beat) for beat in beats if isinstance(beat.get("id"), str)}
    for place, reference in _references(tree):
        head, *rest = str(reference).split(".")
        if head not in measures:
            yield place, f"no beat '{head}'{did_you_mean(head, measures)}"
        elif not rest and len(measures[head]) > 1:
            options = ", ".join(f"{head}.{measure}" for measure in measures[head])
            yield place, f"'{head}' has several measures; write one of {options}"
        elif rest and rest[0] not in measures[head]:
            hint = did_you_mean(rest[0], measures[head])
            yield place, f"beat '{head}' has no measure '{rest[0]}'{hint}"


def _references(tree: dict[str, Any]) -> Iterator[tuple[Place, Any]]:
    for name, key in (("headlines", None), ("expected", "finding")):
        listed = tree.get(name)
        for position, item in enumerate(listed if isinstance(listed, list) else []):
            if key is None:
                yield (name, position), item
            elif isinstance(item, dict) and key in item:
                yield (name, position, key), item[key]


def _measures(beat: dict[str, Any]) -> list[str]:
    if beat.get("kind") == "share":
        return [share_name(beat["of"])] if isinstance(beat.get("of"), dict) else []
    measure = beat.get("measure", [])
    return list(measure) if isinstance(measure, list) else [measure]


def finding_id(topic: Topic, reference: str) -> str:
    """A reference's full finding id: 'sixes' stands for 'sixes.<its one measure>'."""
    head, *rest = reference.split(".")
    if rest:
        return reference
    measure = next(beat.measure[0] for beat in topic.beats if beat.id == head)
    return f"{head}.{measure}"

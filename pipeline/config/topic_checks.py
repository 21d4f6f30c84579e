"""What a type cannot say: do the parts of a topic that name each other fit together?

These checks read the plain tree, so that they run even when other parts of the file are wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, islice
from typing import Any

from pipeline.config.kinds import KINDS
from pipeline.config.kinds.base import AnyKind, Beat
from pipeline.config.measure import Measure
from pipeline.config.project import Format
from pipeline.config.selection import as_list
from pipeline.config.topic import Topic
from pipeline.config.topic_ids import references
from pipeline.config.yaml_files import MOST_TOLD, Document
from pipeline.errors import Problem, did_you_mean
from pipeline.topic_places import Place


def names_for(
    document: Document, measures: dict[str, Measure], formats: dict[str, Format], sources: list[str]
) -> dict[str, Any]:
    """The names a topic may use, as the validation context of its model."""
    form = _format(document.tree, formats)
    phases = tuple(form.phases) if form else None
    return {"measure": measures, "format": formats, "source": sources, "phases": phases}


def _format(tree: dict[str, Any], formats: dict[str, Format]) -> Format | None:
    data = tree.get("data")
    name = data.get("format") if isinstance(data, dict) else None
    return formats.get(name) if isinstance(name, str) else None


def check_topic(
    document: Document, measures: dict[str, Measure], formats: dict[str, Format]
) -> list[Problem]:
    """Every reference inside the topic that nothing answers to, each with its place."""
    tree = document.tree
    listed = tree.get("beats")
    beats = [beat for beat in listed if isinstance(beat, dict)] if isinstance(listed, list) else []
    form = _format(tree, formats)
    found = chain(
        _check_beats(beats, tree.get("event") is not None),
        _check_events(tree, beats),
        _check_kinds(beats, measures),
        _check_bands(beats, form.overs) if form else (),
        _check_references(tree, beats),
        _check_sponsors(tree, beats),
        _check_said(tree, beats),
        _check_called(tree),
    )
    return [document.problem(place, message) for place, message in islice(found, MOST_TOLD)]


def check_measures(
    document: Document, topic: Topic, declared: dict[str, Measure]
) -> Iterator[Problem]:
    """Two measures of one name would both be told in the words of one."""
    seen: dict[str, tuple[str, Measure]] = {}
    for position, beat in enumerate(topic.beats):
        for name, measure in (
            beat.makes or {name: declared[name] for name in beat.measures}
        ).items():
            other, known = seen.setdefault(name, (beat.id, measure))
            if known != measure:
                message = (
                    f"beats '{other}' and '{beat.id}' have measures of one name, '{name}', that "
                    "are not the same; ask one of them in a topic of its own"
                )
                yield document.problem(("beats", position, "id"), message)


def _check_beats(beats: list[dict[str, Any]], has_event: bool) -> Iterator[tuple[Place, str]]:
    seen: set[str] = set()
    for position, beat in enumerate(beats):
        if isinstance(name := beat.get("id"), str):
            if name in seen:
                yield ("beats", position, "id"), f"two beats have the id '{name}'; ids are unique"
            seen.add(name)
        model = KINDS.get(kind) if isinstance(kind := beat.get("kind"), str) else None
        if has_event:
            continue
        if model and model.traits.timed:
            yield ("beats", position, "kind"), f"a {kind} beat needs the topic's 'event'"
        elif model and beat.get("control"):
            message = "a control is what the event did not touch; the topic has no 'event'"
            yield ("beats", position, "control"), message


def _check_events(tree: dict[str, Any], beats: list[dict[str, Any]]) -> Iterator[tuple[Place, str]]:
    """Other events have ids and names of their own, and a beat is about one that is there."""
    listed, own = tree.get("also"), tree.get("event")
    others = listed if isinstance(listed, list) else []
    about = {beat.get("about") for beat in beats if isinstance(beat.get("about"), str)}
    names, ids = [own.get("name")] if isinstance(own, dict) else [], []
    for position, other in enumerate(others):
        if not isinstance(other, dict):
            continue
        name, identity = other.get("name"), other.get("id")
        if isinstance(identity, str) and identity in ids:
            yield ("also", position, "id"), f"two events have the id '{identity}'; ids are unique"
        if isinstance(name, str) and name in names:
            yield ("also", position, "name"), f"two events are called '{name}'; name them apart"
        names.append(name)
        ids.append(identity)
        for key in ("before", "after", "gap_after"):
            if other.get(key) is not None and identity not in about:
                message = f"no beat is about it, so '{key}' would be passed over; leave it out"
                yield ("also", position, key), message
    for position, beat in enumerate(beats):
        named = beat.get("about")
        if isinstance(named, str) and (wrong := _wrong_event(named, beat, own is not None, ids)):
            yield ("beats", position, "about"), wrong


def _wrong_event(named: str, beat: dict[str, Any], has_event: bool, ids: list[Any]) -> str:
    if not has_event:
        return "a beat is about another event only beside the topic's own 'event'"
    if beat.get("kind") in NO_TIME:
        return "a groups beat compares no time; leave 'about' out"
    there = [identity for identity in ids if isinstance(identity, str)]
    if named not in there:
        return f"no event in 'also' has the id '{named}'{did_you_mean(named, there)}"
    return ""


def _check_said(tree: dict[str, Any], beats: list[dict[str, Any]]) -> Iterator[tuple[Place, str]]:
    """What is said of a tag or a list that no beat filters by would be said nowhere."""
    said = tree.get("said")
    used = {tag for beat in beats for tag in _tags(beat.get("where"))}
    for tag in said if isinstance(said, dict) else ():
        if tag not in used:
            message = (
                f"no beat's 'where' has '{tag}' as a bowler_tag, batter_tag, bowler or batter"
                f"{did_you_mean(str(tag), used)}"
            )
            yield ("said", tag), message


def _check_called(tree: dict[str, Any]) -> Iterator[tuple[Place, str]]:
    """Words of two names would make a number right of both; what has no letter is no word."""
    called = tree.get("called")
    seen: dict[str, str] = {}
    for name, words in called.items() if isinstance(called, dict) else ():
        for each in map(str, words) if isinstance(words, list) else ():
            other = seen.setdefault(each.casefold().strip(), str(name))
            if other != str(name):
                message = f"'{each}' is what '{other}' is called too; give each words of its own"
                yield ("called", str(name)), message
            if not any(sign.isalpha() for sign in each):
                yield ("called", str(name)), f"'{each}' has no letter; give words as they are said"


def _tags(where: Any) -> list[str]:
    """The tags and lists of players that a filter names."""
    if not isinstance(where, dict):
        return []
    named = [where.get(cut) for cut in ("bowler_tag", "batter_tag", "bowler", "batter")]
    return [str(tag) for tags in named if tags is not None for tag in as_list(tags)]


NO_TIME = [kind for kind, model in KINDS.items() if model.traits.compares == "groups"]
BY_MATCH = [kind for kind, model in KINDS.items() if model.traits.takes_matches]
PER_BALL = [kind for kind, model in KINDS.items() if model.traits.per_ball]


def _check_kinds(
    beats: list[dict[str, Any]], measures: dict[str, Measure]
) -> Iterator[tuple[Place, str]]:
    """Measures that a kind can't take. A mix is of balls: runs a wicket has two denominators, and
    each is split on its own."""
    for position, beat in enumerate(beats):
        for name in _measures(beat):
            declared = measures.get(name)
            sums = declared.denominator.split() if declared else []
            if beat.get("kind") not in BY_MATCH and "decided" in sums:
                message = (
                    f"'{name}' counts whole matches; of the kinds only {', '.join(BY_MATCH)} can "
                    "take it"
                )
                yield ("beats", position, "measure"), message
            elif (
                beat.get("kind") in PER_BALL
                and declared
                and declared.denominator.strip() not in ("legal", "faced")
            ):
                message = (
                    f"'{name}' is not per ball, so a mix of balls can't be split out of it; take "
                    "one per ball, such as economy, and wickets_per_hundred beside it"
                )
                yield ("beats", position, "measure"), message


def _check_bands(beats: list[dict[str, Any]], overs: int | None) -> Iterator[tuple[Place, str]]:
    """Bands of a number of overs need to know how many overs there are."""
    for position, beat in enumerate(beats):
        bands = beat.get("bands")
        banded = "bands" in _model(beat).model_fields
        if banded and overs is None and not isinstance(bands, list):
            message = "the format has no limit of overs; write the bands: [1-20, 21-40, 41-80]"
            yield ("beats", position, "bands" if "bands" in beat else "kind"), message


def _check_references(
    tree: dict[str, Any], beats: list[dict[str, Any]]
) -> Iterator[tuple[Place, str]]:
    """Headlines and expectations name findings; the beat and its measure can be checked now."""
    measures = {beat["id"]: _measures(beat) for beat in beats if isinstance(beat.get("id"), str)}
    for place, reference in references(tree):
        head, *rest = str(reference).split(".")
        if head not in measures:
            yield place, f"no beat '{head}'{did_you_mean(head, measures)}"
        elif not rest and len(measures[head]) > 1:
            options = ", ".join(f"{head}.{measure}" for measure in measures[head])
            yield place, f"'{head}' has several measures; write one of {options}"
        elif rest and rest[0] not in measures[head] and (len(rest) > 1 or len(measures[head]) > 1):
            hint = did_you_mean(rest[0], measures[head])
            yield place, f"beat '{head}' has no measure '{rest[0]}'{hint}"


def _check_sponsors(
    tree: dict[str, Any], beats: list[dict[str, Any]]
) -> Iterator[tuple[Place, str]]:
    """A sponsor's slot comes after a beat that is there."""
    there = [beat["id"] for beat in beats if isinstance(beat.get("id"), str)]
    listed = tree.get("sponsor")
    for position, slot in enumerate(listed if isinstance(listed, list) else []):
        if isinstance(slot, dict) and "after" in slot and slot["after"] not in there:
            hint = did_you_mean(slot["after"], there)
            yield ("sponsor", position, "after"), f"no beat '{slot['after']}'{hint}"


def _measures(beat: dict[str, Any]) -> list[str]:
    """Names of the measures of a beat as it is written; of an unknown kind those that it names."""
    return _model(beat).measures_written(beat)


def _model(beat: dict[str, Any]) -> type[AnyKind]:
    kind = beat.get("kind")
    return KINDS.get(kind, Beat) if isinstance(kind, str) else Beat

"""The names of a topic's measures, groups, stretches and players, with other words for them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.config.cuts import CUTS
from pipeline.said import synonyms
from pipeline.said.targets import CONTROL, EVENT, OVERS, WHOLE, WINDOW, Target
from pipeline.said.terms import Name, Terms
from pipeline.wording.labels import TAGGED, value_label

if TYPE_CHECKING:
    from pipeline.config.views import BriefView

PART = "part"


def names_in(view: BriefView, targets: Sequence[Target]) -> Terms:
    """What a sentence may name of the topic, and what no fact of it is about."""
    pairs = {(cut, value) for target in targets for cut, value in target.names.items()}
    pairs |= {
        (cut, value)
        for target in targets
        for cut, values in target.filters.items()
        for value in values
    }
    return Terms(
        [
            *_measures(view),
            *_values(view, pairs),
            *_places_apart(targets),
            *_called(view, pairs),
            *_stretches(view, pairs),
            *_windows(view),
        ]
    )


def parts() -> Terms:
    """Words of a part of a finding: the step, the drift, what it could be."""
    return Terms((words, (PART, name)) for name, words in synonyms.PARTS.items())


def _measures(view: BriefView) -> Iterator[tuple[str, Name]]:
    shares = [name for beat in view.beats for name in beat.makes if beat.counted]
    for name, measure in view.measures.items():
        for words in (measure.label, measure.said or measure.label):
            yield words.removeprefix("the "), ("measure", name)
        if measure.counted:
            yield measure.counted, ("measure", name)
    for words, names in synonyms.MEASURES.items():
        for name in names:
            yield words, ("measure", name)
            for share in shares if name == "~share" else ():
                yield words, ("measure", share)


def _values(view: BriefView, pairs: Iterable[Name]) -> Iterator[tuple[str, Name]]:
    for (cut, value), words in synonyms.VALUES.items():
        yield words, (cut, value)
    for cut, value in pairs:
        if cut == "season":
            continue  # which a year may be, or the end of a window
        if cut in ("bowler", "batter"):
            yield from _player(view, cut, value)
        elif cut == "region":
            for ending in synonyms.OF_A_PLACE:
                yield f"{value}{ending}", (cut, value)
        elif cut == "home":
            yield value, (cut, value)
        elif cut in CUTS and (cut, value) not in synonyms.VALUES:
            label = value_label(cut, value, view.format)
            if cut not in TAGGED or value in view.format.said:
                yield label.replace("–", " to "), (cut, value)


def _places_apart(targets: Sequence[Target]) -> Iterator[tuple[str, Name]]:
    """'Away from the hills' is the other one of two regions that are compared."""
    pairs = {each.finding.sides for each in targets if each.finding and each.between == "region"}
    for sides in pairs:
        for one, other in (sides, sides[::-1]) if len(sides) == 2 else ():
            for away in ("away from", "away from the", "off the", "outside the"):
                yield f"{away} {other}", ("region", one)


def _called(view: BriefView, pairs: Iterable[Name]) -> Iterator[tuple[str, Name]]:
    """By the other words that the topic itself has for a group, a ground or a player."""
    for cut, value in pairs:
        for words in view.words.called.get(value, ()):
            yield words, (cut, value)


def _player(view: BriefView, cut: str, name: str) -> Iterator[tuple[str, Name]]:
    """By the whole name, by the last one, and as the configuration says it."""
    yield name, (cut, name)
    yield name.rpartition(" ")[2], (cut, name)
    if name in view.format.said:
        yield view.format.said[name].removeprefix("the "), (cut, name)


def _stretches(view: BriefView, pairs: Iterable[Name]) -> Iterator[tuple[str, Name]]:
    yield synonyms.WHOLE_INNINGS, (OVERS, WHOLE)
    for cut, band in pairs:
        if cut == OVERS:  # as 'overs eleven to fifteen' are named
            yield band.replace("-", " to "), (OVERS, band)
    for name, phase in view.format.phases.items():
        value = (OVERS, "-".join(map(str, phase.overs)))
        for words in (name, phase.said or "", synonyms.PHASES.get(name, "")):
            if words:
                yield words.removeprefix("in the ").removeprefix("at the "), value


def _windows(view: BriefView) -> Iterator[tuple[str, Name]]:
    for words in synonyms.OF_NO_MEASURE:
        yield words, (EVENT, words)  # is of no measure
    for beat in view.beats:
        if beat.held_against:
            yield beat.held_against.name, (CONTROL, "control")
    for event in (*([view.event] if view.event else ()), *view.also):
        for words in (event.name, *view.words.called.get(event.name, ())):
            yield words, (EVENT, event.name)
    if view.event is None:
        return
    yield synonyms.BEFORE, (WINDOW, "before")
    yield synonyms.AFTER, (WINDOW, "after")

"""Parts of a beat's heading: what is asked about, of which balls, divided by what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from pipeline.config.cuts import CUTS
from pipeline.text import listed
from pipeline.wording.labels import value_label
from pipeline.wording.subject import cell_subject, two_groups, where_said

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

HOME = {"home": "home", "away": "away", "neutral": "neutral grounds"}  # where two are set apart


def whats(
    beat: AnyKind, measures: Mapping[str, Measure], form: Format, bare: bool = True
) -> list[str]:
    """Its measures and filter, 'spin’s economy in the middle overs'; then less and less of them.

    Less is the first measure alone, its filter without one of its keys, and without any.
    """
    named = [measures[name] for name in beat.measures]
    labels = [each.label if bare else each.said or each.label for each in named]
    every = [f"{listed(labels)}{where_said(beat, form)}"] if len(named) > 1 else []
    alone = [cell_subject({}, less, named[0], form, bare) for less in filtered(beat)]
    return list(dict.fromkeys([*every, *alone]))


def filtered(beat: AnyKind) -> Iterator[AnyKind]:
    """The beat with its whole filter, with all keys of it but one, and without any."""
    yield beat
    keys = list(beat.where.given())
    if len(keys) > 1:
        yield from (_without(beat, [key]) for key in keys)
    if keys:
        yield _without(beat, keys)


def _without(beat: AnyKind, keys: list[str]) -> AnyKind:
    where = beat.where.model_copy(update=dict.fromkeys(keys))
    return beat.model_copy(update={"where": where})


def divided(beat: AnyKind) -> str:
    """What its rows are by: 'pace and spin, phase by phase'; '' where it has but one.

    Not by the cut whose two groups are held against each other.
    """
    apart = beat.groups[0] if beat.groups else ""
    return ", ".join(CUTS[cut].each for cut in beat.cuts if cut != apart)


def divided_too(asked: Sequence[str], beat: AnyKind) -> list[str]:
    """The same with what the rows are by; none where it has but one."""
    each = divided(beat)
    return [f"{words}, {each}" for words in asked] if each else []


def side_names(beat: AnyKind, form: Format) -> tuple[str, str]:
    """The two groups, short: 'inland', 'coast'."""
    cut, first, second = two_groups(beat)
    return _side(cut, first, form), _side(cut, second, form)


def linked(one: str, link: str, other: str) -> str:
    """'first and third innings': a last word that both share is said once, if it is no name."""
    start, _, last = one.rpartition(" ")
    shared = start and last.islower() and other.endswith(f" {last}")
    return f"{start if shared else one} {link} {other}"


def _side(cut: str, value: str, form: Format) -> str:
    if cut == "home" and value in HOME:
        return HOME[value]
    adjective = CUTS[cut].adjectives.get(value)
    return adjective or CUTS[cut].row.format(value_label(cut, value, form))

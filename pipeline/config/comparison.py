"""The question that a finding answers, whichever beat shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.config.cuts import ALWAYS_KNOWN
from pipeline.contracts.comparison import Against, Asks, Comparison, balls_of
from pipeline.contracts.timing import Timing

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.kinds.base import Control
    from pipeline.config.selection import Selection


def comparison_of(
    beat: AnyBeat,
    measure: str,
    asks: Asks,
    values: dict[str, str],
    timing: Timing,
    control: Control | None,
) -> Comparison:
    """`values` are those of the finding's cell; `control` what that cell is held against.

    What makes no difference to the number is left out: a change is the same inside a series or a
    gap, and balls of a known kind are so whether or not the unknown ones are kept elsewhere.
    """
    divided = [f"{cut}: {', '.join(kept)}" for cut, kept in beat.counted.items()]
    divided += ["{}: {}, {}".format(*beat.groups)] if beat.groups and asks != "change" else []
    divided += beat.cuts if asks in ("mix", "rates") else []
    cell = {"overs" if cut == "band" else cut: [value] for cut, value in values.items()}
    balls = balls_of(_overs(beat.where), beat.where.chosen(), cell)
    known = set(beat.known) - ALWAYS_KNOWN
    series = beat.traits.compares == "series"
    if asks == "change":
        known -= {cut for cut, _ in balls}
    return Comparison(
        measure=measure,
        asks=asks,
        balls=balls,
        sides=_sides(beat, timing),
        known=tuple(sorted(known)),
        divided=tuple(divided),
        control=_against(control),
        every=(beat.point or timing.unit) if series and asks != "change" else None,
        at_least=beat.threshold if asks == "player" else None,
    )


def _overs(where: Selection) -> dict[str, list[str]]:
    return {"overs": ["{}-{}".format(*where.overs)]} if where.overs else {}


def _sides(beat: AnyBeat, timing: Timing) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    if beat.traits.compares == "groups" and beat.groups:
        _, first, second = beat.groups
        return (first,), (second,)
    windows = timing.windows
    return (windows.before.named, windows.after.named) if windows else None


def _against(control: Control | None) -> Against | None:
    if control is None:
        return None
    where = control.where
    return Against(
        competition=tuple(control.competition or ()), balls=balls_of(_overs(where), where.chosen())
    )

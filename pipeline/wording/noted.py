"""What a note is on: the cuts, the counting and the measure that its words hang on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal, NamedTuple

from pipeline.config.row_ids import UNKNOWN
from pipeline.config.sums import of_matches, parse_sum
from pipeline.contracts.notes import AnyNote

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

    Counted = Literal["innings", "matches", "overs", "balls"]

# Cuts of which a ball may have no value that is known, so that rows by them leave it out.
MAY_BE_UNKNOWN = (
    *("bowler_kind", "bowler_arm", "bowler_style", "batter_hand", "region", "country", "home"),
    *("ground", "batting_position", "batting_order"),
)
# Sums that a number may be divided by, by what one of them is called.
BELOW = {
    frozenset({"legal", "faced"}): "ball",
    frozenset({"innings"}): "innings",
    frozenset({"matches"}): "match",
    frozenset({"decided"}): "decided match",
    frozenset({"streak_expected"}): "expected streak",
}
OVERS = {"phase", "band", "overs"}  # cuts and filters by the number of an over


class About(NamedTuple):
    """What a note was found on, as far as its words hang on it.

    `unknown` are the cuts that leave a ball of unknown value out; `counted` is what the measure is
    counted in, or 'overs' where they are chosen by their numbers; `below` is one of what it is
    divided by, where that has a name; `measure` is its own name where the beat has several;
    `subject` is what the finding's number is of, for notes that name it.
    """

    unknown: tuple[str, ...] = ()
    counted: Counted = "balls"
    below: str = ""
    measure: str = ""
    subject: str = ""


class Noted(NamedTuple):
    """A note, and what it is about."""

    note: AnyNote
    about: About


def about(beat: AnyKind, measure: Measure, form: Format) -> About:
    """What notes on a measure of a beat are about."""
    return About(
        tuple(cut for cut in beat.cuts if _leaves_out(cut, beat, form)),
        _counted(beat, measure),
        _below(measure),
        measure.label if len(beat.measures) > 1 else "",
    )


def _leaves_out(cut: str, beat: AnyKind, form: Format) -> bool:
    """Whether a ball may be of no row by the cut: of unknown value, or in overs that none has."""
    if cut in MAY_BE_UNKNOWN:
        return UNKNOWN in beat.where.chosen().get(cut, [UNKNOWN])
    if cut == "band":
        ranges = beat.ranges(form.overs)
    elif cut == "phase":
        ranges = [phase.overs for phase in form.phases.values()]
    else:
        return False
    rows = {over for first, last in ranges for over in range(first, last + 1)}
    return form.overs is None or not set(_overs(beat, form.overs, form)) <= rows


def _overs(beat: AnyKind, overs: int, form: Format) -> Iterator[int]:
    """The overs that the beat's filter leaves."""
    first, last = beat.where.overs or (1, overs)
    phases = [form.phases[name].overs for name in beat.where.phase or ()]
    for over in range(first, min(last, overs) + 1):
        if not phases or any(begin <= over <= end for begin, end in phases):
            yield over


def _below(measure: Measure) -> str:
    """One of what it is divided by: 'ball', 'innings'; '' of a sum that has no name."""
    below = {name for _, name in parse_sum(measure.denominator)}
    return next((name for sums, name in BELOW.items() if below <= sums), "")


def _counted(beat: AnyKind, measure: Measure) -> Counted:
    if of_matches(measure.numerator, measure.denominator):
        return "matches"
    if "innings" in {name for _, name in parse_sum(measure.denominator)}:
        return "innings"
    return "overs" if OVERS & set(beat.touched()) else "balls"

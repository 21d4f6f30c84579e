"""What a note is on: the cuts, the counting and the measure that its words hang on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

from pipeline.config.sums import of_matches, parse_sum
from pipeline.contracts.notes import AnyNote

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure

    Counted = Literal["innings", "matches", "overs", "balls"]

# Cuts of which a ball may have no value that is known, so that rows by them leave it out.
MAY_BE_UNKNOWN = (
    *("bowler_kind", "bowler_arm", "bowler_style", "batter_hand", "region", "country", "home"),
    *("ground", "batting_position", "batting_order", "phase", "band"),
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
    divided by, where that has a name; `measure` is its own name where the beat has several.
    """

    unknown: tuple[str, ...] = ()
    counted: Counted = "balls"
    below: str = ""
    measure: str = ""


class Noted(NamedTuple):
    """A note, and what it is about."""

    note: AnyNote
    about: About


def about(beat: AnyKind, measure: Measure) -> About:
    """What notes on a measure of a beat are about."""
    return About(
        tuple(cut for cut in beat.cuts if cut in MAY_BE_UNKNOWN),
        _counted(beat, measure),
        _below(measure),
        measure.label if len(beat.measures) > 1 else "",
    )


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

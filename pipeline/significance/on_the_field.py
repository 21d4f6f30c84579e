"""The same fact on the field: a difference as runs or balls of an innings, a spell or a season.

Exact underneath: the difference and both ends of its interval times one whole number, which the
fact shows. Made only where the product is a number one can feel, about 1 to 100.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

from pipeline.calendar import YEAR
from pipeline.contracts.parts import Felt, Side
from pipeline.contracts.timing import Timing
from pipeline.significance.effects import Compared

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.project import Format
    from pipeline.config.selection import Selection
    from pipeline.config.views import Scale

BY_BOWLER = {"bowler_kind", "bowler_arm", "bowler_style", "bowler", "bowler_tag"}
BY_BATTER = {"batter_hand", "batting_position", "batting_order", "batter", "batter_tag"}
LEAST, MOST = 0.95, 105.0
WICKETS = 10  # of a side
LEAST_YEARS = 0.9  # what is told by the year must be about that long
SPELL = 5  # a bowler may bowl at most a fifth of the overs (common practice in limited overs)


class Stretch(NamedTuple):
    """A stretch of time: so many seasons or years."""

    length: float
    unit: Literal["season", "year"]


def felt(
    beat: AnyKind,
    values: dict[str, str],
    result: Compared[Side],
    scale: Scale,
    form: Format,
    stretch: Stretch | None,
) -> Felt | None:
    """The difference times a count of overs, balls, wickets or innings, or None.

    `times` is the count, `of` what is counted, `per` the phrase that goes with the number.
    """
    if result.effect is None:
        return None
    scaled = _scale(beat, values, scale, form, result.b.denominator, stretch)
    if scaled is None:
        return None
    times, divided, of, per = scaled
    difference = result.effect.difference
    value, low, high = (
        end * times / divided for end in (difference.value, difference.low, difference.high)
    )
    if not LEAST <= abs(value) <= MOST:
        return None
    return Felt(value=value, low=low, high=high, times=times, divided=divided, of=of, per=per)


def _scale(
    beat: AnyKind,
    values: dict[str, str],
    scale: Scale,
    form: Format,
    innings_after: int,
    stretch: Stretch | None,
) -> tuple[int, int, str, str] | None:
    """(count, what the unit is counted by, the name of the count, the phrase)."""
    if scale.an_innings:
        return _a_season(innings_after, stretch)
    if scale.per_wicket:
        return WICKETS, 1, "wickets", "ten wickets" if scale.kind == "average" else ""
    overs = _overs_of(beat.where, values, form)
    if overs is None or scale.by_match:
        return None
    cuts = {*values, *beat.where.chosen()}
    share_of_all = bool(beat.counted)
    if cuts & BY_BATTER and not share_of_all:
        return None
    per = "innings" if overs == form.overs or share_of_all else "those overs"
    if cuts & BY_BOWLER and not share_of_all and form.overs:
        overs, per = min(overs, -(-form.overs // SPELL)), "spell"
    balls = form.balls_per_over
    if scale.kind == "share":
        return overs * balls, 100, "balls", per
    if scale.per == balls:
        return overs, 1, "overs", per
    return None


def _a_season(innings: int, stretch: Stretch | None) -> tuple[int, int, str, str] | None:
    """The innings of an average season, or year, of the window after the event."""
    if stretch is None or not innings:
        return None
    times = round(innings / stretch.length)
    return (times, 1, "innings", stretch.unit) if times else None


def stretch_of(timing: Timing) -> Stretch | None:
    """How long the window after the event is: in its seasons, else in years; under one, none."""
    if timing.windows is None:
        return None
    after = timing.windows.after
    if after.seasons is not None and timing.unit == "season":
        return Stretch(len(after.seasons), "season")
    years = ((after.last - after.first).days + 1) / YEAR
    return Stretch(years, "year") if years >= LEAST_YEARS else None


def _overs_of(where: Selection, values: dict[str, str], form: Format) -> int | None:
    """Overs of a full innings that a beat's filters and a row's phase or band leave; else None."""
    phases = [values["phase"]] if "phase" in values else where.phase or []
    if any(phase not in form.phases for phase in phases) or not form.overs:
        return None
    within = {over for phase in phases for over in _range(*form.phases[phase].overs)}
    overs = within or set(_range(1, form.overs))
    if where.overs:
        overs &= set(_range(*where.overs))
    if "band" in values:
        first, last = values["band"].split("-")
        overs &= set(_range(int(first), int(last)))
    return len(overs)


def _range(first: int, last: int) -> range:
    return range(first, last + 1)

"""mix: the change whole, the part of who did what, the part of the rates themselves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

import msgspec
import numpy as np

from pipeline.contracts.finding import Change, Finding, Mix, Rates
from pipeline.contracts.notes import AnyNote, MixMoved, Simpson
from pipeline.contracts.parts import OfWhole, Side, Span
from pipeline.significance.arrays import WINDOWS, Pair, pair
from pipeline.significance.effects import Compared, compared, number, numbers_of
from pipeline.significance.level import Errors, few_periods, leveled, part_by_period
from pipeline.significance.methods.clusters import gathered, wider
from pipeline.significance.methods.kitagawa import jackknifed, same_mix
from pipeline.significance.methods.permutation import Labels
from pipeline.significance.methods.ratio import Estimate, Floats, Sums
from pipeline.significance.methods.split import Split, Weighed, split
from pipeline.significance.question import WHOLE, Question

if TYPE_CHECKING:
    from pipeline.config.views import Scale
    from pipeline.contracts.codes import Unit

ROUNDING = 1e-9
MOVED = 0.5  # the mix part against the whole change: from here the mix is a caution of its own
SURE = 0.99  # of that caution
NAMES: tuple[Literal["mix"], Literal["rates"]] = ("mix", "rates")


def findings(question: Question) -> list[Finding]:
    """The whole change, its two parts, and each group's own change with its share of the balls."""
    groups = question.finest
    (whole,) = question.compare([WHOLE])
    finest = pair(question.compared, [cell.id for cell in groups], WINDOWS)
    unit = question.timing.unit
    mix, rates = (part(whole, finest, name, question.scale, unit) for name in NAMES)
    shared = of_whole(whole, finest, question.scale)
    shares = [_shares(side) for side in (finest.a, finest.b)]
    found: list[Finding] = [
        Change(
            **question.answer("change", "all", {}, WINDOWS),
            **question.numbers(whole),
            felt=question.felt({}, whole),
            drift=question.drifts(["all"])[0],
        ),
        Mix(
            **question.answer("mix", "mix", {}, WINDOWS),
            **question.numbers(mix),
            of_whole=shared[0] if mix.effect else None,
        ),
        Rates(
            **question.answer("rates", "rates", {}, WINDOWS),
            **question.numbers(rates),
            of_whole=shared[1] if rates.effect else None,
        ),
    ]
    for at, (cell, result) in enumerate(zip(groups, question.compare(groups), strict=True)):
        found.append(
            Change(
                **question.answer("change", cell.id, cell.values, WINDOWS),
                **question.numbers(result),
                felt=question.felt(cell.values, result),
                shares=(shares[0][at], shares[1][at]) if all(shares) else None,
            )
        )
    return found


def _shares(side: Sums) -> list[float]:
    """Each group's share of a window's balls; none of a window without any."""
    total = side.x.sum()
    return [float(balls / total) for balls in side.x.sum(0)] if total else []


def part(
    whole: Compared[Side],
    groups: Pair,
    name: Literal["mix", "rates"],
    scale: Scale,
    unit: Unit | None = None,
) -> Compared[Side]:
    """What the mix, or the rates, alone did to the whole; the two add up to its change.

    Errors are by matches and by the periods of that `unit`, where the rows have them.

    Its sides are the whole as it would stand with the other part held at the mean of both windows;
    for 'rates' that is the same-mix number of each window.
    """
    with np.errstate(all="ignore"):
        ends, logs, units = jackknifed(groups.a, groups.b, name)
        by = part_by_period(groups, name, unit) if unit else None
        level = leveled(Errors(logs, units), by, scale)
        numbers = numbers_of(*level.errors, scale, None)
    a, b = (
        msgspec.structs.replace(side, value=number(float(value) * scale.per), low=None, high=None)
        for side, value in zip((whole.a, whole.b), ends, strict=True)
    )
    found = compared(0, a, b, numbers, scale, level=level)
    alike = name == "mix" and found.refused == "no_spread" and same_mix(groups.a, groups.b)
    notes: list[AnyNote] = []
    if name == "mix" and _split(groups).opposed:
        notes.append(Simpson())
    return Compared(found.a, found.b, "mix_alike" if alike else found.refused, found.effect, notes)


def of_whole(
    whole: Compared[Side], groups: Pair, scale: Scale
) -> tuple[OfWhole | None, OfWhole | None]:
    """What share of the whole change the mix is, and the rates; none of a whole that is refused."""
    if whole.effect is None:
        return None, None
    found, told = _split(groups), whole.effect.difference
    mix = OfWhole(whole=told, share=_share(found, found.mix, found.rates))
    return mix, OfWhole(whole=told, share=_share(found, found.rates, found.mix))


def _share(found: Split, part: Estimate, other: Estimate) -> Span | None:
    share = found.share(part, other)
    return Span(value=share.value, low=share.low, high=share.high) if share else None


def judged(found: Sequence[Finding]) -> None:
    """Each part is told the change that it is a part of, as judged and printed."""
    wholes = {each.measure: each for each in found if each.cell == "all"}
    for finding in found:
        if isinstance(finding, Mix | Rates) and finding.of_whole:
            whole = wholes[finding.measure]
            finding.of_whole.verdict = whole.verdict
            finding.of_whole.whole = whole.told.difference


def mix_moved(groups: Pair, whole: Finding, scale: Scale) -> list[AnyNote]:
    """A note for a whole whose mix alone is half of its change or more.

    The mix must be told from none at 99 %, since every divided beat is asked. Who did what is a
    share of the innings where those are counted, else of the balls: of runs a wicket it would
    otherwise be who took how many. It is told beside the whole's own change, as its row has it:
    that of the split is of the balls of known groups.
    """
    if whole.effect is None or not _divided(groups, whole):
        return []
    found = _split(groups, innings=scale.an_innings)
    mix, change = float(found.mix.value[0]), float(found.whole.value[0])
    if not found.told(found.mix, SURE) or abs(mix) < MOVED * abs(change):
        return []
    low, high = (float(end[0]) * scale.per for end in found.mix.interval(0.95))
    return [
        MixMoved(
            mix=mix * scale.per,
            change=whole.effect.difference.value,
            simpson=found.opposed,
            low=low,
            high=high,
        )
    ]


def _divided(groups: Pair, whole: Finding) -> bool:
    """Whether the groups divide what the whole counts; innings of pace and of spin are the same."""
    sides = ((groups.a, whole.a), (groups.b, whole.b))
    return all(sums.x.sum() <= side.denominator * (1 + ROUNDING) for sums, side in sides)


def _split(groups: Pair, innings: bool = True) -> Split:
    """The split by shares of the denominator, or of the balls.

    Its errors are of matches or of periods: of whichever the whole change has the wider.
    """
    balls = (groups.a.x, groups.b.x) if innings else (groups.ball_a, groups.ball_b)
    with np.errstate(all="ignore"):
        match = split(Weighed(groups.a, balls[0]), Weighed(groups.b, balls[1]))
        if groups.periods is None or any(few_periods(groups)):
            return match
        windows = zip((groups.a, groups.b), balls, groups.periods, strict=True)
        before, after = (_gathered(*window) for window in windows)
        period = split(before, after, periods=True)
        return period if wider(match.whole, period.whole).by_cluster[0] else match


def _gathered(sums: Sums, balls: Floats, periods: Labels) -> Weighed:
    """A window's totals of its periods."""
    weight = gathered(Sums(balls, balls, sums.here), periods).y
    return Weighed(gathered(sums, periods), weight)

"""mix: the change whole, the part of who did what, the part of the rates themselves."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import msgspec
import numpy as np

from pipeline.contracts.finding import Change, Finding, Mix, Rates
from pipeline.contracts.notes import AnyNote, MixMoved, Simpson
from pipeline.contracts.parts import Side
from pipeline.significance.arrays import WINDOWS, Pair, pair
from pipeline.significance.effects import Compared, compared, number, numbers_of
from pipeline.significance.methods.kitagawa import Parts, jackknifed, simpson, totals_of
from pipeline.significance.methods.ratio import Sums
from pipeline.significance.question import WHOLE, Question

if TYPE_CHECKING:
    from pipeline.config.views import Scale

MOVED = 0.5  # the mix part against the whole change: from here the mix is a caution of its own


def findings(question: Question) -> list[Finding]:
    """The whole change, its two parts, and each group's own change with its share of the balls."""
    groups = question.finest
    (whole,) = question.compare([WHOLE])
    finest = pair(question.compared, [cell.id for cell in groups], WINDOWS)
    mix, rates = (part(whole, finest, name, question.scale) for name in ("mix", "rates"))
    shares = [_shares(side) for side in (finest.a, finest.b)]
    found: list[Finding] = [
        Change(
            **question.answer("change", "all", {}, WINDOWS),
            **question.numbers(whole),
            felt=question.felt({}, whole),
            drift=question.drifts(["all"])[0],
        ),
        Mix(**question.answer("mix", "mix", {}, WINDOWS), **question.numbers(mix)),
        Rates(**question.answer("rates", "rates", {}, WINDOWS), **question.numbers(rates)),
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
    whole: Compared[Side], groups: Pair, name: Literal["mix", "rates"], scale: Scale
) -> Compared[Side]:
    """What the mix, or the rates, alone did to the whole; the two add up to its change.

    Its sides are the whole as it would stand with the other part held at the mean of both windows;
    for 'rates' that is the same-mix number of each window.
    """
    with np.errstate(all="ignore"):
        ends, logs, units = jackknifed(groups.a, groups.b, name)
        numbers = numbers_of(logs, units, scale, None)
    a, b = (
        msgspec.structs.replace(side, value=number(float(value) * scale.per), low=None, high=None)
        for side, value in zip((whole.a, whole.b), ends, strict=True)
    )
    found = compared(0, a, b, numbers, scale)
    alike = name == "mix" and found.refused == "no_spread"
    notes: list[AnyNote] = []
    if name == "mix" and simpson(totals_of(groups.a, groups.b)):
        notes.append(Simpson())
    return Compared(found.a, found.b, "mix_alike" if alike else found.refused, found.effect, notes)


def mix_moved(groups: Pair, scale: Scale) -> list[AnyNote]:
    """A note for a whole whose mix alone explains half of its change or more."""
    totals = totals_of(groups.a, groups.b)
    with np.errstate(all="ignore"):
        parts = Parts.of(totals)
    change = parts.mix + parts.rates
    if not np.isfinite(change) or abs(parts.mix) < MOVED * abs(change) or not change:
        return []
    return [
        MixMoved(
            mix=float(parts.mix * scale.per),
            change=float(change * scale.per),
            simpson=simpson(totals),
        )
    ]

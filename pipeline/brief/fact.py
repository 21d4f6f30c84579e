"""How one fact is made: value, unit, the form shown and the form said."""

from __future__ import annotations

from typing import Any

from pipeline.wording import numbers, phrases
from pipeline.wording.change import PER, counted, felt_amount, felt_overs, unit_said

View = dict[str, Any]
COLUMNS = (
    *("id", "value", "low", "high", "unit", "display", "spoken", "interval"),
    *("finding", "beat", "measure", "definition", "arithmetic", "query", "headline", "verdict"),
)


def fact(identity: str, value: float, unit: str, display: str, spoken: str, **more: Any) -> View:
    """Every fact has every column; what is not given is None."""
    made = {"id": identity, "value": value, "unit": unit, "display": display, "spoken": spoken}
    return {**dict.fromkeys(COLUMNS), **made, "headline": False, **more}


def value_fact(identity: str, side: View, measure: View, common: View) -> View:
    """A measure's own value, with its interval where it has one."""
    decimals = measure["decimals"]
    interval = None
    if side["low"] is not None:
        interval = " to ".join(numbers.shown(side[end], decimals) for end in ("low", "high"))
    return fact(
        identity,
        side["value"],
        measure["unit"],
        numbers.shown(side["value"], decimals),
        numbers.with_unit(numbers.said(side["value"], decimals), unit_said(measure)),
        low=side["low"],
        high=side["high"],
        interval=interval,
        **common,
    )


def percent_fact(
    identity: str, value: float, ends: tuple[float, float] | None, common: View, of: str = ""
) -> View:
    """A fraction as per cent: a change, a season's drift (without ends), the step on top of it."""
    low, high = ends or (None, None)
    half = (high - low) / 2 if ends else 0.001
    said = phrases.size(value * 100, half * 100, 1, "per cent") + of
    way = "up" if value > 0 else "down"
    unit = f"per cent{of}" if ends else f"per cent{of} a season"
    return fact(
        identity,
        value,
        unit,
        numbers.percent(value),
        f"{said} {way}" if ends else f"{said} a season {way}",
        low=low,
        high=high,
        interval=numbers.between(low * 100, high * 100, 1) if ends else None,
        **common,
    )


def difference_fact(
    identity: str, part: View, share: bool, measure: View, common: View, name: str = "difference"
) -> View:
    """A difference in the measure's units, or in percentage points; `part` has its two ends."""
    decimals = max(1, measure["decimals"]) if share else measure["decimals"]
    value, low, high = (part[f"{name}{end}"] for end in ("", "_low", "_high"))
    shown = numbers.points(value, decimals) if share else numbers.shown(value, decimals, True)
    unit = "percentage points" if share else measure["unit"]
    said = numbers.with_unit(numbers.said(abs(value), decimals), unit)
    way = "up" if value > 0 else "down"
    level = numbers.rounded(value, decimals) == 0
    return fact(
        identity,
        value,
        unit,
        shown,
        "level, to that rounding" if level else f"{said} {way}",
        low=low,
        high=high,
        interval=numbers.between(low, high, decimals),
        **common,
    )


def felt_fact(identity: str, finding: View, measure: View, common: View) -> View:
    """The difference on the field, with the arithmetic that makes it."""
    felt, noun = finding["felt"], counted(measure)
    value, low, high = (felt[end] for end in ("value", "low", "high"))
    said = felt_amount(felt, measure)
    share = finding["kind"] == "share"
    unit = "points" if share else measure["unit"]
    divided = f" / {felt['divided']}" if felt["divided"] != 1 else ""
    opening = PER.get(felt["per"], "").format(times=numbers.shown(felt_overs(felt), 0))
    per = f", {opening[:1].lower()}{opening[1:]}" if opening else ""
    more = "more" if value > 0 else "fewer"
    moved = numbers.figures(finding["difference"], signed=True)
    return fact(
        identity,
        value,
        f"{noun}{per}",
        numbers.shown(value, 1, signed=True),
        f"{said} {more}",
        low=low,
        high=high,
        interval=numbers.between(low, high, 1),
        arithmetic=f"{moved} {unit} × {felt['times']} {felt['of']}{divided}",
        **{key: kept for key, kept in common.items() if key != "arithmetic"},
    )


def share_fact(identity: str, share: float, common: View) -> View:
    """A group's share of the balls."""
    return fact(
        identity,
        share * 100,
        "per cent of balls",
        numbers.percent(share, 1, signed=False),
        f"{numbers.said(share * 100, 0)} per cent",
        **common,
    )


def text_fact(identity: str, words: str, unit: str, common: View) -> View:
    """A fact that is a season, not a number."""
    return fact(identity, None, unit, words, words, **common)


def count_fact(identity: str, count: int, unit: str, **more: Any) -> View:
    return fact(identity, count, unit, numbers.shown(count, 0), numbers.said(count, 0), **more)

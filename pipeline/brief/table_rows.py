"""A finding as a row of a table: shown numbers only."""

from __future__ import annotations

from typing import Any

from pipeline.text import slug
from pipeline.wording import labels, numbers, second_verdict
from pipeline.wording.change import REFUSALS

View = dict[str, Any]
# The column beside the interval, by kind of beat: its heading; else what could have been seen.
EXTRA = {"players": "Luck allowed for", "mix": "Share of balls"}
SEEN = "Could see"


def heading(beat: View) -> str:
    """What the column beside the interval holds."""
    return EXTRA.get(beat["kind"], SEEN)


def table_row(finding: View, beat: View, measure: View, form: View) -> View:
    """A finding as a row of a table: shown numbers only."""
    a, b = finding["a"], finding["b"]
    row = {
        "id": finding["id"],
        "facts": _facts(finding),
        "name": labels.finding_label(finding, beat, form),
        "a": side_shown(finding, "a", measure["decimals"]),
        "b": side_shown(finding, "b", measure["decimals"]),
        "matches": f"{a['matches']:,} / {b['matches']:,}",
        "balls": f"{a['balls']:,} / {b['balls']:,}",
        "verdict": finding["verdict"],
        "second": second_verdict.second(finding),
        "refused": REFUSALS[finding["refused"]] if finding["refused"] else None,
    }
    if finding["refused"]:
        return {**row, **dict.fromkeys(("difference", "change", "interval", "extra"), "–")}
    if finding["kind"] == "share":
        low, high = finding["difference_low"], finding["difference_high"]
        difference = numbers.points(finding["difference"])
        change = ""
    else:
        low, high = finding["change_low"] * 100, finding["change_high"] * 100
        difference = numbers.shown(finding["difference"], measure["decimals"], signed=True)
        change = numbers.percent(finding["change"])
    return {
        **row,
        "difference": difference,
        "change": change,
        "interval": numbers.between(low, high, 1),
        "extra": _extra(finding, beat),
    }


def _facts(finding: View) -> View:
    """The fact behind each cell of the row."""
    first, second = (slug(side) for side in finding["sides"])
    ends = {"a": first, "b": second, "difference": "difference", "change": "change"}
    return {cell: f"{finding['id']}.{end}" for cell, end in ends.items()}


def side_shown(finding: View, side: str, decimals: int) -> str:
    """A side's value; of a gap, that group's own change."""
    part = finding[side]
    if finding["about"] == "gap":
        if part["value"] is None:
            return "–"
        share = finding["kind"] == "share"
        return numbers.points(part["value"]) if share else numbers.percent(part["change"])
    return numbers.shown(part["value"], decimals) if part["value"] is not None else "–"


def _extra(finding: View, beat: View) -> str:
    if beat["kind"] == "players":
        shrunk = finding["shrunk"]
        if not shrunk:
            return "–"
        ends = numbers.between(shrunk["low"] * 100, shrunk["high"] * 100, 0)
        return (
            f"{numbers.percent(shrunk['change'], 0)} ({ends}){', apart' if shrunk['apart'] else ''}"
        )
    if beat["kind"] == "mix":
        if not finding["shares"]:
            return "–"
        return " to ".join(numbers.percent(share, 1, signed=False) for share in finding["shares"])
    if finding["kind"] == "share":
        seen = finding["detectable_difference"]
        return f"{numbers.shown(seen, 1)} pts" if seen else "–"
    return numbers.percent(finding["detectable_change"], 1, signed=False)

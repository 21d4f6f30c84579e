"""A finding as a row of a table: shown numbers only."""

from __future__ import annotations

from typing import Any

from pipeline.wording import drift, labels, numbers, sentences

View = dict[str, Any]


def table_row(finding: View, beat: View, measure: View, form: View) -> View:
    """A finding as a row of a table: shown numbers only."""
    decimals = measure["decimals"]
    a, b = finding["a"], finding["b"]
    row = {
        "id": finding["id"],
        "name": labels.cell_label(finding["values"], form),
        **{
            key: numbers.shown(side["value"], decimals) if side["value"] is not None else "–"
            for key, side in (("a", a), ("b", b))
        },
        "matches": f"{a['matches']:,} / {b['matches']:,}",
        "balls": f"{a['balls']:,} / {b['balls']:,}",
        "verdict": finding["verdict"],
        "second": drift.second(finding),
        "refused": sentences.REFUSALS[finding["refused"]] if finding["refused"] else None,
    }
    if finding["refused"]:
        return {**row, "difference": "–", "change": "–", "interval": "–", "seen": "–"}
    share = finding["kind"] == "share"
    if share:
        low, high = finding["difference_low"], finding["difference_high"]
        difference = numbers.points(finding["difference"])
        seen = f"{numbers.shown(finding['detectable_difference'], 1)} pts"
    else:
        low, high = finding["change_low"] * 100, finding["change_high"] * 100
        difference = numbers.shown(finding["difference"], decimals, signed=True)
        seen = numbers.percent(finding["detectable_change"], 1, signed=False)
    return {
        **row,
        "difference": difference,
        "change": "" if share else numbers.percent(finding["change"]),
        "interval": numbers.between(low, high, 1),
        "seen": seen,
    }

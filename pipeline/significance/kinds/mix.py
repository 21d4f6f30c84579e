"""A mix beat: the change whole, the part of who did what, the part of the rates themselves."""

from __future__ import annotations

from typing import Any

import numpy as np

from pipeline.significance.arrays import Pair
from pipeline.significance.change import compare
from pipeline.significance.effects import finding_of, numbers_of
from pipeline.significance.methods.kitagawa import Parts, jackknifed, simpson, totals_of

View = dict[str, Any]
MOVED = 0.5  # the mix part against the whole change: from here the mix is a caution of its own


def mix_findings(whole: Pair, groups: Pair, measure: View, statistics: View) -> dict[str, View]:
    """'mix' and 'rates' as findings: what each alone did to the whole, adding up to its change.

    Their sides are the whole as it would stand with the other part held at the mean of both
    windows; for 'rates' that is the same-mix number of each window.
    """
    (change,) = compare(whole, measure, statistics)
    found = {}
    for name in ("mix", "rates"):
        with np.errstate(all="ignore"):
            ends, logs, units = jackknifed(groups.a, groups.b, name)
            numbers = numbers_of(logs, units, measure, None)
        sides = [
            {**change[side], "value": value * measure["per"], "low": None, "high": None}
            for side, value in zip(("a", "b"), ends, strict=True)
        ]
        found[name] = finding_of(0, *sides, numbers, measure)
        if name == "mix" and found[name]["refused"] == "no_spread":
            found[name]["refused"] = "mix_alike"
    flagged = simpson(totals_of(groups.a, groups.b))
    found["mix"]["notes"] = [{"code": "simpson"}] if flagged else []
    return found


def mix_moved(groups: Pair, measure: View) -> list[View]:
    """A note for a whole whose mix alone explains half of its change or more."""
    totals = totals_of(groups.a, groups.b)
    with np.errstate(all="ignore"):
        parts = Parts.of(totals)
    change = parts.mix + parts.rates
    if not np.isfinite(change) or abs(parts.mix) < MOVED * abs(change) or not change:
        return []
    return [
        {
            "code": "mix_moved",
            "mix": float(parts.mix * measure["per"]),
            "change": float(change * measure["per"]),
            "simpson": simpson(totals),
        }
    ]

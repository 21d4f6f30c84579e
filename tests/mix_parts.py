"""Both parts of a mix at once, from the ends that each is the difference of."""

from __future__ import annotations

from typing import NamedTuple

from pipeline.significance.methods.kitagawa import Totals, ends
from pipeline.significance.methods.ratio import Floats


class Parts(NamedTuple):
    """The two parts of a change, in the units of the ratio; together they are the change."""

    mix: Floats
    rates: Floats

    @classmethod
    def of(cls, totals: Totals) -> Parts:
        mix, rates = (ends(totals, name) for name in ("mix", "rates"))
        return cls(mix.after - mix.before, rates.after - rates.before)

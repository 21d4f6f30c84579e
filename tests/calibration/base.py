"""What every scenario gives, and the settings that all of them are judged by."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np

from pipeline.config.project import Statistics
from pipeline.config.views import Scale
from pipeline.contracts.parts import Span
from tests.view_makers import scale

STATISTICS = Statistics(
    least_matches=6, few_matches=20, permutations=499, alpha=0.05, table_rate=0.10
)
# What nobody should do, shown beside what is done.
NAIVE = (
    "balls as independent",
    "matches alone",
    "plain before and after",
    "step as if its date were known",
    "step as if neighbours were not alike",
    "the best, without a ledger",
)


class Row(NamedTuple):
    scenario: str
    method: str
    quantity: str
    value: float
    mc_error: float


def row(scenario: str, method: str, quantity: str, hits: Any) -> Row:
    """A share with its Monte Carlo error."""
    hits = np.asarray(hits, float)
    value = float(hits.mean())
    return Row(scenario, method, quantity, value, math.sqrt(value * (1 - value) / len(hits)))


def measure(kind: Any, by_match: bool = False) -> Scale:
    return scale(kind, per=100 if kind == "share" else 1, by_match=by_match)


def holds(span: Span, true: float = 0.0) -> bool:
    """Whether an interval holds the truth."""
    return span.low <= true <= span.high

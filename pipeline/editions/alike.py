"""Are two sets of numbers the same, as far as two machines can agree?

The same sums give other last digits on another processor, whose vector units add in another order.
"""

from __future__ import annotations

import math
from typing import Any

RELATIVE, ABSOLUTE = 1e-9, 1e-12  # far under any digit that is shown, far over rounding


def alike(one: Any, other: Any) -> bool:
    """Whether plain data are equal, but for the last digits of fractions."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(alike(one[key], other[key]) for key in one)
    if isinstance(one, list | tuple) and isinstance(other, list | tuple):
        return len(one) == len(other) and all(map(alike, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=RELATIVE, abs_tol=ABSOLUTE)
    return bool(one == other)

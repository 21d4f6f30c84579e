"""What share of one number another is, when both are uncertain: Fieller's interval."""

from __future__ import annotations

import math
from typing import NamedTuple


class Shared(NamedTuple):
    """The share with the two ends of its interval."""

    value: float
    low: float
    high: float


def share_of(
    part: float, whole: float, variances: tuple[float, float], together: float, t: float
) -> Shared | None:
    """part / whole (Fieller 1954): the shares s for which part - s whole can't be told from nought.

    `variances` are of the part and of the whole, `together` their covariance, `t` the quantile that
    says how surely. None where the whole can't itself be told from nought: every share fits then.
    """
    of_part, of_whole = (t * t * variance for variance in variances)
    square = whole * whole - of_whole
    if square <= 0:
        return None
    middle = part * whole - t * t * together
    root = math.sqrt(max(0.0, middle * middle - square * (part * part - of_part)))
    return Shared(part / whole, (middle - root) / square, (middle + root) / square)

"""The scale that a change is told on: points of a share, a fraction of anything else."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from pipeline.contracts.codes import MeasureKind
from pipeline.contracts.parts import CONFIDENCE, Effect, Span
from pipeline.significance.methods.ratio import Estimate

if TYPE_CHECKING:
    from pipeline.config.views import Scale


def told_of(effect: Effect, kind: MeasureKind) -> Span:
    """A change with its ends on the scale that it is told on."""
    return effect.difference if kind == "share" else effect.change


def as_told(found: Estimate, scale: Scale) -> Span | None:
    """Its 95 % interval: of a share in units, else of a log; None without an honest error."""
    low, high = (float(end[0]) for end in found.interval(CONFIDENCE))
    ends = np.array([float(found.value[0]), low, high])
    if not np.isfinite(ends).all() or not low < high:
        return None
    value, low, high = (ends * scale.per if scale.kind == "share" else np.expm1(ends)).tolist()
    return Span(value=value, low=low, high=high) if np.isfinite([value, low, high]).all() else None

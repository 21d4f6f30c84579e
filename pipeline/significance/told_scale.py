"""The scale that a change is told on: points of a share, a fraction of anything else."""

from __future__ import annotations

from pipeline.contracts.codes import MeasureKind
from pipeline.contracts.parts import Effect, Span


def told_of(effect: Effect, kind: MeasureKind) -> Span:
    """A change with its ends on the scale that it is told on."""
    return effect.difference if kind == "share" else effect.change

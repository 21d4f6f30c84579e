"""share: the change of every cell, of a measure made from what is counted."""

from __future__ import annotations

from pipeline.significance.windows import divided_changes as findings

__all__ = ["findings"]

"""before_after: the change of every cell across the event."""

from __future__ import annotations

from pipeline.significance.windows import divided_changes as findings

__all__ = ["findings"]

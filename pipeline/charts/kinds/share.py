"""share: a row a cell, as of any other measure before and after."""

from __future__ import annotations

from pipeline.charts.comparison import described, draw, left_out, page_height, rows

__all__ = ["described", "draw", "left_out", "page_height", "rows"]

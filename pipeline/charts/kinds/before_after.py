"""before_after: a row a cell, its value before and after and the change between them."""

from __future__ import annotations

from pipeline.charts.comparison import described, draw, left_out, page_height, rows

__all__ = ["described", "draw", "left_out", "page_height", "rows"]

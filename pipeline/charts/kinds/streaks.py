"""streaks: a row a cell, streaks an innings or for each one expected, before and after."""

from __future__ import annotations

from pipeline.charts.comparison import described, draw, left_out, page_height, rows

__all__ = ["described", "draw", "left_out", "page_height", "rows"]

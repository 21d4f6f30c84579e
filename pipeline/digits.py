"""Fractions as they are written: to twelve digits, the same ones on every processor."""

from __future__ import annotations

from typing import Any

DIGITS = 12  # far over any digit that is shown, far under where two processors may disagree


def rounded(data: Any) -> Any:
    """Plain data with every fraction in it rounded to that many significant digits."""
    if isinstance(data, float):
        return float(f"{data:.{DIGITS}g}")
    if isinstance(data, dict):
        return {key: rounded(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [rounded(value) for value in data]
    return data

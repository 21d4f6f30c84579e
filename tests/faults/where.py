"""Where in the pipeline an error came from, so that one fault is one cause."""

from __future__ import annotations

import traceback


def cause(error: Exception) -> str:
    """'other: KeyError at clean/fix.py:_placed': the last place of ours that it went through."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [frame for frame in frames if "/pipeline/" in frame.filename]
    place = "nowhere of ours"
    if ours:
        place = f"{ours[-1].filename.rpartition('/pipeline/')[2]}:{ours[-1].name}"
    return f"other: {type(error).__name__} at {place}"

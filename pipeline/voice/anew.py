"""The voice as its file is now: a process that goes on reads it once."""

from __future__ import annotations

from pipeline.voice.forms import voice
from pipeline.voice.heard import heard_as


def read_anew() -> None:
    """Forget the forms, and what was heard in them, so that whoever asks next reads the file."""
    voice.cache_clear()
    heard_as.cache_clear()

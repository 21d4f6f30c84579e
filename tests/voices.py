"""The same sentences in other forms: every form of the voice comes first once."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from unittest.mock import patch

from pipeline.voice.forms import Forms, voice

MOST = max(map(len, voice().of.values()))  # so many times round, and each form has come first


@contextmanager
def turned(by: int) -> Iterator[Forms]:
    """Within it a sentence stands in its form `by` places on, round and round."""
    forms = voice().of
    each = {name: of[by % len(of) :] + of[: by % len(of)] for name, of in forms.items()}
    told = Forms(each)
    with patch("pipeline.voice.sentence.voice", lambda: told):
        yield told

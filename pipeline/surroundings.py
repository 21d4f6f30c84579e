"""What somebody has set outside the project, kept from changing a picture or a page."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def environment(**put: str | None) -> Iterator[None]:
    """These variables meanwhile (None: not set); afterwards as they were."""
    before = {name: os.environ.get(name) for name in put}
    _set(put)
    try:
        yield
    finally:
        _set(before)


def _set(values: dict[str, str | None]) -> None:
    for name, value in values.items():
        os.environ.pop(name, None)
        if value is not None:
            os.environ[name] = value

"""Programs that some tests need: skipped where they are missing, unless they must be there."""

from __future__ import annotations

import os
import shutil

import pytest


def needed(*names: str, package: str) -> str:
    """The path of the first that is there; with TOOLS=required, as in CI, none is a failure."""
    found = next(filter(None, map(shutil.which, names)), None)
    if found is None:
        message = f"needs {names[0]}: apt-get install {package}"
        (pytest.fail if os.environ.get("TOOLS") == "required" else pytest.skip)(message)
    return found

"""Matplotlib as it comes, whatever its user has set for other work; first of all that is imported.

The library takes settings from a file in the working directory, from several variables and from
the user's folders, as it is imported; a size or a crop of theirs would be another picture.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
import warnings
from contextlib import chdir
from importlib.util import find_spec
from pathlib import Path

from pipeline.surroundings import environment


def import_as_it_comes() -> None:
    """Import it under its own settings, and put those in force where it was imported before."""
    with (
        environment(MPLBACKEND="agg", MATPLOTLIBRC=None, MPLCONFIGDIR=_folder()),
        warnings.catch_warnings(),
        chdir(_own_settings()),
    ):
        warnings.simplefilter("ignore")
        import matplotlib
        import matplotlib.backends.backend_agg
        import matplotlib.backends.backend_svg

        dict.update(matplotlib.rcParams, matplotlib.rcParamsDefault)


def _own_settings() -> Path:
    """The folder of its own settings' file: what stands in the working directory comes first."""
    found = find_spec("matplotlib")
    if found is None or found.origin is None:
        raise ModuleNotFoundError("matplotlib is not installed; make brief installs it")
    return Path(found.origin).with_name("mpl-data")


def _folder() -> str:
    """Where it keeps its list of fonts: the user's folder, or one for this process alone."""
    asked = os.environ.get("MPLCONFIGDIR")
    if asked and _writable(Path(asked).absolute()):
        return str(Path(asked).absolute())
    if not asked:
        cache = os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache")
        if os.path.isabs(cache) and _writable(Path(cache, "matplotlib")):
            return str(Path(cache, "matplotlib"))
    made = tempfile.mkdtemp(prefix="good-length-")
    atexit.register(shutil.rmtree, made, ignore_errors=True)
    return made


def _writable(folder: Path) -> bool:
    """Whether it is there, or could be made, and can be written."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return False
    return os.access(folder, os.W_OK)

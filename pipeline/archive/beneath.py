"""What lies beneath the libraries and decides bytes too: letters' layout, and how sums are added.

None where a machine has no such thing, or does not say.
"""

from __future__ import annotations

import ctypes
import platform
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy

from pipeline.brief.paper import library

_KERNELS = ("scipy_openblas_get_corename64_", "scipy_openblas_get_corename")


def beneath() -> dict[str, str | None]:
    """Versions of the PDF's system libraries; the kernels that numbers are added with."""
    return {**_of_the_pdf(), "blas": _blas(), "numpy-kernels": _kernels_of_numpy()}


def _of_the_pdf() -> dict[str, str | None]:
    library()  # as the brief loads it
    from weasyprint.text import ffi as loaded

    harfbuzz = _asked(lambda: _harfbuzz(loaded))
    return {
        "pango": _asked(lambda: _dotted(loaded.pango.pango_version(), (10000, 100, 1))),
        "harfbuzz": harfbuzz,
        "harfbuzz-subset": harfbuzz if loaded.harfbuzz_subset is not None else None,
        "fontconfig": _asked(lambda: _fontconfig(loaded)),
    }


def _harfbuzz(loaded: Any) -> str:
    loaded.ffi.cdef("const char * hb_version_string (void);", override=True)
    return str(loaded.ffi.string(loaded.harfbuzz.hb_version_string()).decode())


def _fontconfig(loaded: Any) -> str:
    loaded.ffi.cdef("int FcGetVersion (void);", override=True)
    return _dotted(loaded.fontconfig.FcGetVersion(), (10000, 100, 1))


def _dotted(number: int, parts: tuple[int, ...]) -> str:
    """15612 as '1.56.12'."""
    return ".".join(str(number // part % 100) for part in parts)


def _blas() -> str | None:
    """'scipy-openblas 0.3.30, SkylakeX on x86_64': its kernel is chosen by the processor."""
    try:
        built = numpy.show_config(mode="dicts")["Build Dependencies"]["blas"]
    except (KeyError, TypeError):
        return None
    kernel = _kernel()
    on = f"{kernel} on {platform.machine()}" if kernel else platform.machine()
    return f"{built.get('name')} {built.get('version')}, {on}"


def _kernel() -> str | None:
    """The kernel of the library that numpy has brought along and loaded."""
    beside = Path(numpy.__file__).parents[1] / "numpy.libs"
    for path in sorted(beside.glob("*openblas*")):
        opened = ctypes.CDLL(str(path))
        for name in _KERNELS:
            asked = getattr(opened, name, None)
            if asked is not None:
                asked.restype = ctypes.c_char_p
                return bytes(asked()).decode()
    return None


def _kernels_of_numpy() -> str | None:
    """'SSSE3 ... AVX512_SKX': sets of instructions that its own loops choose among."""
    try:
        found = numpy.show_config(mode="dicts")["SIMD Extensions"]["found"]
    except (KeyError, TypeError):
        return None
    return " ".join(found) or None


def _asked(version: Callable[[], str]) -> str | None:
    """A version, or none of a library that has no such function."""
    try:
        return version()
    except (AttributeError, OSError, UnicodeDecodeError):
        return None

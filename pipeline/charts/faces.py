"""The faces of the charts: files by weight, and how wide words are in them."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from string import printable
from typing import Any

from matplotlib.backend_bases import RendererBase
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.ft2font import FT2Font

from pipeline.errors import Problem, UserError

FONTS = Path(__file__).parents[2] / "templates" / "fonts"
DPI = 100
FACES: dict[str, str] = {
    w: str(FONTS / f"Archivo-{w}.ttf") for w in ("Medium", "SemiBold", "ExtraBold")
}


def use_faces(declared: dict[str, str]) -> None:
    """The theme's font files, by weight, for everything drawn from now on."""
    for path in declared.values():
        _check_letters(path)
    FACES.update(declared)


def _check_letters(path: str) -> None:
    """Raise UserError for a file that begins as a font does, and is damaged further on."""
    try:
        face = FT2Font(path)
        for letter in printable.strip():
            face.load_glyph(face.get_char_index(ord(letter)))
    except (OSError, RuntimeError):
        raise UserError(Problem(path, "a damaged font; put back a whole copy")) from None


def font(weight: str) -> FontProperties:
    """A face by file, so that charts look alike on every machine."""
    return FontProperties(fname=FACES[weight])


def points(pixels: float) -> float:
    """Font sizes are given in pixels and drawn in points: px = pt x dpi / 72."""
    return pixels * 72 / DPI


@lru_cache(maxsize=20_000)
def width_of(words: str, size: float, face: str) -> float:
    """Measured once on a figure of its own: the same on every figure of the same density."""
    figure, renderer = _scratch()
    chosen = FontProperties(fname=face)
    probe = figure.text(0, 0, words, fontproperties=chosen, fontsize=points(size))
    probe.set_fontfeatures(["tnum"])
    probe.set_parse_math(False)
    width = float(probe.get_window_extent(renderer).width)
    probe.remove()
    return width


@lru_cache(maxsize=1)
def _scratch() -> tuple[Figure, RendererBase]:
    figure = Figure(figsize=(1, 1), dpi=DPI)
    return figure, renderer_of(figure)


def renderer_of(figure: Figure) -> RendererBase:
    """What measures the texts of a figure."""
    canvas: Any = FigureCanvasAgg(figure)  # the library has no types for it
    renderer: RendererBase = canvas.get_renderer()
    return renderer

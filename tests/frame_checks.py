"""What holds for the text of every frame: inside the safe area, readable, none on another."""

from __future__ import annotations

import itertools

from matplotlib.text import Text

from pipeline.charts.canvas import LEAST, Canvas

# Graphics-safe areas, 5 % a side: EBU R 95 and SMPTE ST 2046-1, from a secondary source.
SAFE = {1: (96, 54, 1824, 1026), 2: (192, 108, 3648, 2052)}


def boxes(canvas: Canvas) -> list[tuple[str, object]]:
    """Every text that is seen, with its box in pixels from the bottom left."""
    canvas.figure.canvas.draw()
    return [
        (text.get_text(), text.get_window_extent(canvas.renderer))
        for text in canvas.figure.findobj(Text)
        if text.get_text().strip() and text.get_visible() and _axes_seen(text)
    ]


def _axes_seen(text: Text) -> bool:
    return text.axes is None or text.axes.get_visible()


def check(canvas: Canvas) -> None:
    """Inside the safe area, high enough to read, and none on another."""
    found = boxes(canvas)
    left, top, right, bottom = SAFE[1]
    for words, box in found:
        assert box.x0 >= left - 1 and box.x1 <= right + 1, (words, box)
        assert box.y0 >= 1080 - bottom - 1 and box.y1 <= 1080 - top + 1, (words, box)
        assert box.height >= LEAST, (words, box.height)
    for (one, a), (other, b) in itertools.combinations(found, 2):
        across = min(a.x1, b.x1) - max(a.x0, b.x0)
        down = min(a.y1, b.y1) - max(a.y0, b.y0)
        assert across <= 1 or down <= _leading(a, b), (one, other, across, down)


def _leading(a, b) -> float:
    """Boxes hold the room of accents and descenders, so lines set close share a fifth of it."""
    return 0.22 * min(a.height, b.height)

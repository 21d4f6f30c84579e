"""A frame for the video: title in words, subtitle, the drawing, sample and credit, logo."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NamedTuple

from matplotlib.image import imread
from matplotlib.patches import FancyBboxPatch
from PIL import ImageFile

from pipeline.charts import words
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Chart
from pipeline.charts.drawings import draw, left_out
from pipeline.charts.theme import FRAME, Theme, sized
from pipeline.errors import Problem, UserError
from pipeline.event_of import event_of
from pipeline.wording.of_kinds import title
from pipeline.wording.other_ways import panel_title

if TYPE_CHECKING:
    from pipeline.config.views import ChartsView

WIDTH, HEIGHT = 1920, 1080
EDGE_X, EDGE_Y = round(0.05 * WIDTH), round(0.05 * HEIGHT)
ROOM = WIDTH - 2 * EDGE_X
BOTTOM = 922  # where the drawing ends
BLIND = "What happened here?"  # the title of a frame that says nothing of when
LOGO = (220, 84)  # the most a logo takes


class Words(NamedTuple):
    """What a frame says beside its drawing."""

    title: str
    subtitle: str
    foot: list[str]


def words_of(chart: Chart, view: ChartsView, blind: bool = False) -> Words:
    """Title, subtitle and foot; a blind frame says nothing of when."""
    beat, measure, form = chart.beat, chart.measure, view.format
    if blind:
        head = BLIND
    elif chart.again:
        head = panel_title(chart.findings[0].panel)
    else:
        event = event_of(view, beat)
        head = title(chart.findings, beat, measure, view.headlines, form, event)
    if chart.again:
        line = words.asked_again(chart.findings[0], beat, measure, form, chart.timing)
    else:
        line = words.subtitle(beat, measure, form, chart.timing, blind)
    sample, notice = words.foot(chart.credits, chart.sample)
    out = left_out(chart)
    more = f" · {out:,} more in the table" if out else ""
    if any(point.part and point.value is not None for point in chart.series or []):
        more += f" · paler: part of a {chart.unit}"
    return Words(head, line, [f"{sample}{more}", *([notice] if notice else [])])


def frame(
    chart: Chart,
    view: ChartsView,
    theme: Theme,
    blind: bool = False,
    still: bool = False,
) -> Canvas:
    """The frame drawn, not yet saved. `still` keeps the layout of a blind frame for its reveal."""
    canvas = Canvas(WIDTH, HEIGHT, theme, sized(FRAME, view.theme))
    _plate(canvas)
    said = words_of(chart, view, blind)
    with canvas.step(1):
        top = _head(canvas, said, fixed=blind or still)
        _foot(canvas, said.foot, view.theme.logo)
    draw(canvas, chart, view, Box(EDGE_X, top, ROOM - 6, BOTTOM - top), blind)
    return canvas


def _plate(canvas: Canvas) -> None:
    """A ground of its own behind a transparent frame, rounded, inside the action-safe area."""
    if not canvas.theme.plate:
        return
    opacity, corner = canvas.theme.plate
    inset_x, inset_y = 0.035 * WIDTH, 0.035 * HEIGHT  # EBU R 95, action safe
    axes = canvas.axes(0, 0, WIDTH, HEIGHT)
    axes.set(xlim=(0, WIDTH), ylim=(0, HEIGHT), xticks=[], yticks=[], zorder=-10)
    axes.add_patch(
        FancyBboxPatch(
            (inset_x + corner, inset_y + corner),
            WIDTH - 2 * (inset_x + corner),
            HEIGHT - 2 * (inset_y + corner),
            boxstyle=f"round,pad={corner},rounding_size={corner}" if corner else "square,pad=0",
            facecolor=canvas.theme.ground,
            alpha=opacity,
            linewidth=0,
        )
    )


def _head(canvas: Canvas, said: Words, fixed: bool) -> float:
    """Draw title and subtitle; where the drawing may begin."""
    sizes = canvas.sizes
    lines = canvas.wrapped(said.title, sizes.title, "ExtraBold", ROOM, 2)
    y = EDGE_Y + sizes.title * 0.92
    for at, line in enumerate(lines):
        canvas.text(EDGE_X, y + at * sizes.title * 1.12, line, sizes.title, "ExtraBold")
    y += (1 if fixed else len(lines) - 1) * sizes.title * 1.12 + sizes.subtitle * 1.35
    line, size = canvas.fit(said.subtitle, sizes.subtitle, "Medium", ROOM)
    canvas.text(EDGE_X, y, line, size, colour=canvas.theme.muted)
    return y + sizes.subtitle * 0.75


def _foot(canvas: Canvas, lines: list[str], logo: str | None) -> None:
    """Sample, credit and notice; the logo at the right, and the lines as short as it leaves."""
    room = ROOM - (_logo(canvas, logo) + 40 if logo else 0)
    for at, words_ in enumerate(lines):
        line, size = canvas.fit(words_, canvas.sizes.small, "Medium", room)
        y = HEIGHT - EDGE_Y - 14 - canvas.sizes.small * 1.25 * (len(lines) - 1 - at)
        canvas.text(EDGE_X, y, line, size, colour=canvas.theme.muted)


def _logo(canvas: Canvas, path: str) -> float:
    """Draw the logo inside the safe area; its width."""
    image = _picture(path)
    scale = min(LOGO[0] / image.shape[1], LOGO[1] / image.shape[0])
    width, height = float(image.shape[1] * scale), float(image.shape[0] * scale)
    left, top = WIDTH - EDGE_X - width, HEIGHT - EDGE_Y - height
    axes = canvas.axes(left, top, width, height)
    axes.set(xticks=[], yticks=[])
    axes.imshow(image, aspect="auto", interpolation="lanczos")
    return width


@contextmanager
def unfinished_pictures_refused() -> Iterator[None]:
    """As by default; where WeasyPrint is loaded too it has Pillow draw what is cut short."""
    before, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def _picture(path: str) -> Any:
    """The logo's pixels. Raises UserError when the file is damaged behind its header."""
    try:
        with unfinished_pictures_refused():
            return imread(path)
    except (OSError, SyntaxError, ValueError) as error:
        message = f"can't be drawn as a logo ({error}); save it again as a PNG"
        raise UserError(Problem(path, message)) from None

"""The long series by season, with intervals, the windows and the events; or blind, without them."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, font, points
from pipeline.charts.events import Event, draw_events, rows_needed
from pipeline.charts.kinds.turning_point import draw_turn, turned
from pipeline.charts.marks import View, dress, line, mark, thinned, value_ticks
from pipeline.wording import numbers

LABEL = 260  # pixels of a season's label, at most
FINEST = 2  # decimals on the axis
BOTTOM = 0.16  # of the spread, for the windows' names under the points


def draw_trend(
    canvas: Canvas,
    series: list[View],
    finding: View | None,
    windows: View | None,
    events: list[Event],
    decimals: int,
    box: Box,
    blind: bool = False,
) -> None:
    """Draw the seasons into a rectangle of pixels.

    The finding is of two windows, or of the data's own date (then its interval is shaded). Blind,
    the shape is the same and nothing says when: no season, no event, no window, no colour of one.
    """
    sizes = canvas.sizes
    turn = finding["turn"] if finding else None
    windows = turned(series, turn) if turn else windows
    axis_room = _axis_room(canvas, series, decimals)
    box = box._replace(width=box.width - _overhang(canvas, series, box.width - axis_room))
    head = sizes.small * 1.3 * (1 + rows_needed(canvas, events, series, box, axis_room))
    below = sizes.small * 1.9
    with canvas.step(1):
        axes = canvas.axes(
            box.left + axis_room,
            box.top + head,
            box.width - axis_room,
            box.height - head - below,
        )
        _frame_axes(canvas, axes, series, decimals, blind)
    first = [at for at, point in enumerate(series) if _side(point, windows) != "after"]
    for step, places in ((2, first), (3, [at for at in range(len(series)) if at not in first])):
        with canvas.step(step):
            for at in places:
                side = "outside" if blind else _side(series[at], windows)
                _draw_season(canvas, axes, series[at], at, side)
    if blind:
        return
    with canvas.step(4):
        if turn:
            draw_turn(canvas, axes, series, turn)
        elif finding and windows and not finding["refused"]:
            _draw_drift(canvas, axes, series, finding)
            _draw_means(canvas, axes, series, finding, windows, decimals)
        draw_events(canvas, axes, events, series, box, axis_room)


def _axis_room(canvas: Canvas, series: list[View], decimals: int) -> float:
    ends = [p[k] for p in series for k in ("low", "high", "value") if p[k] is not None] or [0.0]
    fine = max(1, min(decimals, FINEST))
    words = [numbers.shown(end, fine) for end in (min(ends), max(ends))]
    return max(canvas.text_width(word, canvas.sizes.small) for word in words) + 36


def _overhang(canvas: Canvas, series: list[View], width: float) -> float:
    """How far the last season's label would stand out on the right."""
    label = canvas.shortened(series[-1]["season"], canvas.sizes.small, "Medium", LABEL)
    return max(0.0, (canvas.text_width(label, canvas.sizes.small) - width / len(series)) / 2)


def _frame_axes(canvas: Canvas, axes: Axes, series: list[View], decimals: int, blind: bool) -> None:
    """Limits from the series alone, so that a blind frame and its reveal have one shape."""
    ends = [p[k] for p in series for k in ("low", "high", "value") if p[k] is not None] or [0, 1]
    spread = (max(ends) - min(ends)) or 1.0
    axes.set_xlim(-0.6, len(series) - 0.4)
    axes.set_ylim(min(ends) - BOTTOM * spread, max(ends) + 0.08 * spread)
    axes.yaxis.set_major_locator(MaxNLocator(5, steps=[1, 2, 5, 10]))
    axes.grid(axis="y", color=canvas.theme.hairline, linewidth=2)
    axes.set_axisbelow(True)
    ticks = value_ticks(canvas, axes)
    fine = 0 if all(float(tick).is_integer() for tick in ticks) else max(1, min(decimals, FINEST))
    axes.set_yticks(ticks, [numbers.shown(tick, fine) for tick in ticks])
    axes.set_xticks([])
    if not blind:
        _season_ticks(canvas, axes, series)
    dress(canvas, [*axes.get_xticklabels(), *axes.get_yticklabels()])


def _season_ticks(canvas: Canvas, axes: Axes, series: list[View]) -> None:
    """Season labels, the last one always among them."""
    labels = [canvas.shortened(p["season"], canvas.sizes.small, "Medium", LABEL) for p in series]
    each = axes.get_window_extent(canvas.renderer).width / len(series)
    place = [(at + 0.5) * each for at in range(len(series))]
    kept = thinned(canvas, place[::-1], labels[::-1])
    shown = sorted(len(series) - 1 - at for at in kept)
    step = max(shown[at + 1] - shown[at] for at in range(len(shown) - 1)) if len(shown) > 1 else 1
    even = [at for at in range(len(series)) if (len(series) - 1 - at) % step == 0]
    axes.set_xticks(even, [labels[at] for at in even])


def _side(point: View, windows: View | None) -> str:
    for side in ("before", "after"):
        if windows and point["season"] in windows[side]:
            return side
    return "outside"


def _draw_season(canvas: Canvas, axes: Axes, point: View, x: int, side: str) -> None:
    theme = canvas.theme
    colour = {"before": theme.first, "after": theme.second, "outside": theme.muted}[side]
    if point["value"] is None:
        return
    if point["low"] is not None:
        line(canvas, axes, [x, x], [point["low"], point["high"]], colour)
    size = 1.9 if side != "outside" else 1.4
    mark(canvas, axes, x, point["value"], colour, solid=side == "after", size=size)


def _draw_drift(canvas: Canvas, axes: Axes, series: list[View], finding: View) -> None:
    """The drift with its step at the event, where it could be asked: a thin dashed line."""
    drift = finding["drift"]
    if not drift or not drift.get("fit"):
        return
    at = {point["season"]: place for place, point in enumerate(series)}
    told = [(at[label], value) for label, value in drift["fit"] if label in at]
    for part in (told[: drift["seasons_before"]], told[drift["seasons_before"] :]):
        places, values = [x for x, _ in part], [y for _, y in part]
        line(canvas, axes, places, values, canvas.theme.muted, width=0.2, dash=(0, (6, 3)))


def _draw_means(
    canvas: Canvas, axes: Axes, series: list[View], finding: View, windows: View, decimals: int
) -> None:
    """Each window's own value as a line across it, named under it; side by side or not at all."""
    theme, sizes = canvas.theme, canvas.sizes
    seasons = [point["season"] for point in series]
    each = axes.get_window_extent(canvas.renderer).width / len(series)
    edge = -1e9
    for side, colour in (("a", theme.first), ("b", theme.second)):
        name, value = finding["sides"][0 if side == "a" else 1], finding[side]["value"]
        places = [seasons.index(label) for label in windows[name] if label in seasons]
        if not places or value is None:
            continue
        ends = [min(places) - 0.4, max(places) + 0.4]
        line(canvas, axes, ends, [value, value], colour, width=0.3)
        words = f"{name} {numbers.shown(value, decimals)}"
        width = canvas.text_width(words, sizes.small, "SemiBold")
        centre = (sum(ends) / 2 + 0.6) * each
        centre = min(max(centre, width / 2), each * len(series) - width / 2)
        centre = max(centre, edge + width / 2 + sizes.body * 0.5)
        edge = centre + width / 2
        if edge > each * len(series):
            continue
        label = axes.annotate(
            words,
            (centre / each - 0.6, axes.get_ylim()[0]),
            xytext=(0, points(sizes.small * 0.35)),
            textcoords="offset points",
            fontproperties=font("SemiBold"),
            fontsize=points(sizes.small),
            color=colour,
            ha="center",
            bbox={"facecolor": theme.ground, "edgecolor": "none", "pad": 1},
        )
        label.set_fontfeatures(["tnum"])

"""The long series by season, with intervals, the windows and the events."""

from __future__ import annotations

from typing import Any

from matplotlib.ticker import MaxNLocator

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, font, points
from pipeline.wording import numbers

View = dict[str, Any]


def draw_trend(
    canvas: Canvas,
    series: list[View],
    finding: View | None,
    windows: View | None,
    events: list[tuple[str, float]],
    decimals: int,
    box: Box,
) -> None:
    """Draw the seasons into a rectangle of pixels. `events` are (name, place among seasons).

    The finding is of two windows, or of the data's own date (then its interval is shaded).
    """
    left, top, width, height = box
    turn = finding["turn"] if finding else None
    windows = turned(series, turn) if turn else windows
    sizes, theme = canvas.sizes, canvas.theme
    axis_room = canvas.text_width("0.00", sizes.small) + 24
    head = sizes.small * 1.6
    below = sizes.small * 1.9
    axes = canvas.axes(left + axis_room, top + head, width - axis_room, height - head - below)
    ends = [p[k] for p in series for k in ("low", "high", "value") if p[k] is not None]
    spread = (max(ends) - min(ends)) or 1.0
    axes.set_xlim(-0.6, len(series) - 0.4)
    axes.set_ylim(min(ends) - 0.1 * spread, max(ends) + 0.1 * spread)
    axes.yaxis.set_major_locator(MaxNLocator(5, steps=[1, 2, 5, 10]))
    axes.grid(axis="y", color=theme.hairline, linewidth=2)
    axes.set_axisbelow(True)
    _ticks(canvas, axes, series, decimals)
    for position, point in enumerate(series):
        _draw_season(canvas, axes, point, position, _side(point, windows))
    if turn:
        _draw_turn(canvas, axes, series, turn)
    elif finding and windows and not finding["refused"]:
        _draw_means(canvas, axes, series, finding, windows, decimals)
    for name, place in events:
        axes.axvline(place, color=theme.ink, linewidth=2, linestyle=(0, (4, 3)))
        x = left + axis_room + (place + 0.6) / len(series) * (width - axis_room)
        align = "right" if place > len(series) / 2 else "left"
        canvas.text(x, top + sizes.small, name, sizes.small, "SemiBold", align=align)


def event_place(day: str, series: list[View]) -> float | None:
    """Where a date falls among the points of a series; None outside them."""
    begun = [at for at, point in enumerate(series) if point["first"] and point["first"] < day]
    if not begun or (len(begun) == len(series) and series[-1]["last"] < day):
        return None
    at = begun[-1]
    return float(at) if series[at]["last"] >= day else at + 0.5


def turned(series: list[View], turn: View) -> View:
    """The points on either side of the data's own date."""
    labels = [point["season"] for point in series]
    at = labels.index(turn["next"])
    return {"before": labels[:at], "after": labels[at:]}


def _draw_turn(canvas: Canvas, axes: Any, series: list[View], turn: View) -> None:
    """The interval of the date as a band, the date as a line, and the fitted level on each side."""
    theme, sizes = canvas.theme, canvas.sizes
    labels = [point["season"] for point in series]
    low, high, last = (labels.index(turn[name]) + 0.5 for name in ("low", "high", "last"))
    axes.axvspan(low - 0.5, high + 0.5, color=theme.hairline, linewidth=0, zorder=0)
    axes.axvline(last, color=theme.second, linewidth=points(sizes.mark * 0.4), zorder=1)
    fitted = dict(turn["fit"])
    for side, colour in (
        (labels[: int(last + 0.5)], theme.first),
        (labels[int(last + 0.5) :], theme.second),
    ):
        told = [label for label in side if label in fitted]
        axes.plot(
            [labels.index(label) for label in told],
            [fitted[label] for label in told],
            color=colour,
            linewidth=points(sizes.mark * 0.3),
            zorder=2,
        )


def _side(point: View, windows: View | None) -> str:
    for side in ("before", "after"):
        if windows and point["season"] in windows[side]:
            return side
    return "outside"


def _draw_season(canvas: Canvas, axes: Any, point: View, x: int, side: str) -> None:
    theme, sizes = canvas.theme, canvas.sizes
    colour = {"before": theme.first, "after": theme.second, "outside": theme.muted}[side]
    if point["value"] is None:
        return
    if point["low"] is not None:
        axes.plot(
            [x, x], [point["low"], point["high"]], color=colour, linewidth=points(sizes.mark * 0.4)
        )
    axes.plot(
        [x],
        [point["value"]],
        marker="o",
        markersize=points(sizes.mark * (1.9 if side != "outside" else 1.4)),
        markerfacecolor=colour if side == "after" else theme.ground,
        markeredgecolor=colour,
        markeredgewidth=points(sizes.mark * 0.4),
        zorder=3,
    )


def _draw_means(
    canvas: Canvas, axes: Any, series: list[View], finding: View, windows: View, decimals: int
) -> None:
    """Each window's own value as a line across it, named at its outer end."""
    theme, sizes = canvas.theme, canvas.sizes
    seasons = [point["season"] for point in series]
    for side, colour in (("a", theme.first), ("b", theme.second)):
        name = finding["sides"][0 if side == "a" else 1]
        places = [seasons.index(label) for label in windows[name] if label in seasons]
        value = finding[side]["value"]
        ends = [min(places) - 0.4, max(places) + 0.4]
        axes.plot(ends, [value, value], color=colour, linewidth=points(sizes.mark * 0.3), zorder=2)
        words = f"{name} {numbers.shown(value, decimals)}"
        label = axes.annotate(
            words,
            (sum(ends) / 2, axes.get_ylim()[0]),
            xytext=(0, points(sizes.small * 0.35)),
            textcoords="offset points",
            fontproperties=font("SemiBold"),
            fontsize=points(sizes.small),
            color=colour,
            ha="center",
        )
        label.set_fontfeatures(["tnum"])


def _ticks(canvas: Canvas, axes: Any, series: list[View], decimals: int) -> None:
    low, high = axes.get_ylim()
    ticks = [tick for tick in axes.get_yticks() if low <= tick <= high]
    style = {"fontproperties": font("Medium"), "color": canvas.theme.muted}
    axes.set_yticks(ticks, [numbers.shown(tick, min(decimals, 1)) for tick in ticks], **style)
    labels = [point["season"] for point in series]
    longest = max(canvas.text_width(label, canvas.sizes.small) for label in labels) * 1.3
    room = axes.get_window_extent(canvas.renderer).width / len(series)
    step = max(1, int(-(-longest // room)))
    shown = [i for i in range(len(series)) if (len(series) - 1 - i) % step == 0]
    axes.set_xticks(shown, [labels[i] for i in shown], **style)
    for label in [*axes.get_xticklabels(), *axes.get_yticklabels()]:
        label.set_fontsize(points(canvas.sizes.small))
        label.set_fontfeatures(["tnum"])

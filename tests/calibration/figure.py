"""One figure of the calibration: coverage and false alarms with their Monte Carlo error."""

from __future__ import annotations

from pathlib import Path

from matplotlib.figure import Figure

from tests.calibration.base import Row

PANELS = (
    ("coverage", "Coverage of 95 % intervals", (0.93, 0.97), (0.80, 1.0)),
    ("false_alarm", "False alarms at 5 %", (0.03, 0.07), (0.0, 0.15)),
    ("false_coverage", "Picked intervals that miss the truth", (0.0, 0.10), (0.0, 0.20)),
    ("power", "Power", None, (0.0, 1.0)),
)
NAIVE = ("balls as independent", "plain before and after", "step as if its date were known")


def draw(rows: list[Row], path: Path) -> None:
    """A dot a result; the band is the bar that it must stand in; naive methods are hollow."""
    figure = Figure(figsize=(16, 32))
    heights = [max(1, len([r for r in rows if r.quantity == q])) for q, *_ in PANELS]
    panels = figure.subplots(len(PANELS), 1, height_ratios=heights)
    for axes, (quantity, title, band, limits) in zip(panels, PANELS, strict=True):
        mine = [row for row in rows if row.quantity == quantity]
        if band:
            axes.axvspan(*band, color="#DDE3DF", linewidth=0)
        for at, row in enumerate(mine):
            naive = row.method in NAIVE
            value = min(max(row.value, limits[0]), limits[1])
            axes.errorbar(
                value,
                at,
                xerr=2 * row.mc_error,
                fmt="o",
                color="#B3341F",
                markerfacecolor="white" if naive else "#B3341F",
                markersize=5,
                linewidth=1,
            )
            if value != row.value:
                axes.annotate(f" {row.value:.2f}", (value, at), va="center", fontsize=7)
        axes.set_yticks(range(len(mine)), [f"{r.scenario}: {r.method}" for r in mine], fontsize=7)
        axes.set_ylim(len(mine) - 0.5, -0.5)
        axes.set_xlim(*limits)
        axes.set_title(title, loc="left")
    figure.tight_layout()
    figure.savefig(path, dpi=70, metadata={"Software": None})

"""All default charts of a demo topic in one process, against as many bare saves of empty axes."""

from __future__ import annotations

import io
import tempfile
from pathlib import Path
from typing import Any

from matplotlib.figure import Figure

from pipeline.charts import faces
from pipeline.charts.compose import charts_of, render
from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from tests.bench.clock import median

TOPIC, RUNS = "sea-air", 3


def figures(project: Path) -> dict[str, Any]:
    """charts_vs_bare_saves: frames, vector charts and data, over PNG and SVG saves of empty axes.

    Every chart is one PNG of 1920x1080 and one SVG; so is every bare one.
    """
    view = views.charts(load(project / "config", only=TOPIC), TOPIC)
    findings = read_json(project / "output" / TOPIC / "findings.json", Findings)
    charts = charts_of(view, findings)
    with tempfile.TemporaryDirectory() as folder:
        ours = median(
            lambda: [render(chart, view, Path(folder)) for chart in charts],
            faces.width_of.cache_clear,  # each run measures its words anew
            RUNS,
        )
        bare = median(lambda: [_bare() for _ in charts], lambda: None, RUNS)
    return {"charts_seconds": round(ours, 2), "charts_vs_bare_saves": round(ours / bare, 2)}


def _bare() -> None:
    figure = Figure(figsize=(19.2, 10.8), dpi=100)
    figure.add_subplot()
    for kind in ("png", "svg"):
        figure.savefig(io.BytesIO(), format=kind, dpi=100)

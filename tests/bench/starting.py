"""How long each stage takes to its first line, beside Python with numpy."""

from __future__ import annotations

import subprocess
import sys
from typing import Any

from tests.bench.clock import median
from tests.conftest import ROOT

STAGES = ("ingest", "clean", "metrics", "significance", "charts", "brief")
RUNS = 3


def figures() -> dict[str, Any]:
    """Seconds to `--help` of each stage over seconds of `import numpy` in the same run."""
    base = median(lambda: _run("-c", "import numpy"), lambda: None, RUNS)
    found: dict[str, Any] = {"import_numpy_seconds": round(base, 3)}
    for stage in STAGES:
        taken = median(
            lambda stage=stage: _run("-m", f"pipeline.{stage}", "--help"), lambda: None, RUNS
        )
        found[f"start_{stage}_vs_numpy"] = round(taken / base, 2)
    return found


def _run(*words: str) -> None:
    subprocess.run([sys.executable, *words], cwd=ROOT, stdout=subprocess.DEVNULL, check=True)

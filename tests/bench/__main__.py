"""python -m tests.bench: how long things take, as ratios measured in one run.

Prints a table and writes output/bench.json, one flat object of figures with the machine named.
"""

from __future__ import annotations

import json
import os
import platform

from tests.bench import (
    asking_again,
    frames,
    own,
    resampling,
    rows,
    scale,
    starting,
    whole_topic,
    workflow,
)
from tests.conftest import ROOT


def main() -> None:
    figures = {
        **workflow.figures(),
        **scale.figures(),
        **rows.figures(),
        **own.figures(),
        **resampling.figures(),
        **asking_again.figures(),
        **whole_topic.figures(),
        **frames.figures(),
        **starting.figures(),
        "machine": f"{platform.system()} {platform.machine()}, {os.cpu_count()} cores",
        "python": platform.python_version(),
    }
    (ROOT / "output" / "bench.json").write_text(json.dumps(figures, indent=1) + "\n", "utf-8")
    for name, figure in figures.items():
        print(f"{name:34} {figure}")


if __name__ == "__main__":
    main()

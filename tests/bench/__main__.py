"""python -m tests.bench [PART ...]: how long things take, as ratios measured in one run.

Prints every figure as it is known. Of all parts output/bench.json is written, one flat object of
figures with the machine named; with names of parts only those are measured, and nothing is written.
"""

from __future__ import annotations

import json
import os
import platform
import sys
import tempfile
from pathlib import Path
from typing import Any

from tests.bench import (
    asking_again,
    captions,
    frames,
    own,
    resampling,
    rows,
    scale,
    starting,
    whole_topic,
    workflow,
)
from tests.conftest import ROOT, copy_project

OF_DEMO = {"workflow": workflow, "whole_topic": whole_topic, "frames": frames, "captions": captions}
ALONE = {
    "scale": scale,
    "rows": rows,
    "own": own,
    "resampling": resampling,
    "asking_again": asking_again,
    "starting": starting,
}


def main(asked: list[str]) -> None:
    parts = [*OF_DEMO, *ALONE]
    if unknown := [name for name in asked if name not in parts]:
        raise SystemExit(f"no part {', '.join(unknown)}; the parts are {', '.join(parts)}")
    found: dict[str, Any] = {}
    with tempfile.TemporaryDirectory() as temporary:
        project = copy_project(Path(temporary))
        for name in asked or parts:
            if name in OF_DEMO:
                if name != "workflow" and not (project / "output" / "index.html").exists():
                    workflow.run(project)
                figures = OF_DEMO[name].figures(project)
            else:
                figures = ALONE[name].figures()
            for each, figure in figures.items():
                print(f"{each:34} {figure}", flush=True)
            found |= figures
    if not asked:
        found["machine"] = f"{platform.system()} {platform.machine()}, {os.cpu_count()} cores"
        found["python"] = platform.python_version()
        out = ROOT / "output" / "bench.json"
        out.parent.mkdir(exist_ok=True)
        out.write_text(json.dumps(found, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])

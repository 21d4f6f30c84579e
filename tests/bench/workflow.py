"""python -m tests.bench: how long things take, as ratios measured in one run.

Prints a table and writes output/bench.json, one flat object of figures with the machine named.
"""

from __future__ import annotations

import json
import os
import platform
import re
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tests.conftest import ROOT, copy_project, snakemake

RUNS = 5


def main() -> None:
    with tempfile.TemporaryDirectory() as temporary:
        project = copy_project(Path(temporary))
        demo = seconds(lambda: run(project))
        dry = median(lambda: run(project, "-n", "--quiet", "all"))
        sentence = median(lambda: run(project, "long-grass"), lambda: change_sentence(project))
    figures = {
        "demo_seconds": round(demo, 2),
        "dry_run_seconds": round(dry, 3),
        "sentence_to_pdf_seconds": round(sentence, 3),
        "sentence_to_pdf_vs_dry_run": round(sentence / dry, 2),
        "machine": f"{platform.system()} {platform.machine()}, {os.cpu_count()} cores",
        "python": platform.python_version(),
    }
    (ROOT / "output" / "bench.json").write_text(json.dumps(figures, indent=1) + "\n", "utf-8")
    for name, figure in figures.items():
        print(f"{name:30} {figure}")


def run(project: Path, *words: str) -> None:
    done = snakemake(project, *words)
    if done.returncode:
        raise SystemExit(done.stderr[-2000:])


def seconds(work: Callable[[], None]) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def median(work: Callable[[], None], before: Callable[[], None] = lambda: None) -> float:
    """The middle of several runs; what comes before each is not counted."""
    taken = []
    for _ in range(RUNS):
        before()
        taken.append(seconds(work))
    return statistics.median(taken)


def change_sentence(project: Path) -> None:
    """Give the topic's note another number, so that the brief must be made again."""
    topic = project / "config" / "topics" / "long-grass.yaml"
    text = topic.read_text("utf-8")
    changed = re.sub(r"instead of \d+", f"instead of {time.time_ns()}", text)
    topic.write_text(changed, "utf-8")


if __name__ == "__main__":
    main()
